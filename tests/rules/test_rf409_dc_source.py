# SPDX-License-Identifier: Apache-2.0
"""RF409: exactly one source of direct current behind each amplified antenna."""

from __future__ import annotations

from dataclasses import replace
from typing import Any

from amplified import amplified_catalog, amplified_plan
from rooms import findings
from sample import SOURCES, place, sample_assessment

from rfplan.model.catalog import Catalog, InlinePart
from rfplan.model.findings import Finding, Verdict
from rfplan.model.plan import Part, Path, Plan, Unit
from rfplan.model.record import ById
from rfplan.units import NONE, Range

NO_FEED = Range(NONE, NONE)


def shared(**second: Any) -> Plan:
    """Return two receivers on one antenna through a splitter, the second as told."""
    plan = amplified_plan()
    there = plan.installation
    port = there.units["nav1"].ports["gnss"]
    other = Unit(ById({"gnss": replace(port, **second)}), at=place(62, 8, 50), source="sheet")
    cable = there.cables["w11"]
    fitted = replace(
        there,
        units=there.units.having("nav2", other),
        cables=ById({**there.cables, "w12": cable, "w13": cable}),
        parts=ById({"sp": Part("split_2", "rf1")}),
        paths=ById(
            {
                **there.paths,
                "gnss1": Path(("nav1.gnss", "w11", "sp.a", "w12", "gnss1")),
                "gnss2": Path(("nav2.gnss", "w13", "sp.b", "w12", "gnss1")),
            }
        ),
    )
    return replace(plan, design=fitted)


def splitter(a: str | None, b: str | None) -> Catalog:
    """Return the catalogue with what each branch of the splitter does with direct current."""
    catalog = amplified_catalog()
    part = catalog.inline_parts["split_2"]
    ports: Any = {
        "a": replace(part.ports["a"], dc=a, load_ohm=200.0),
        "b": replace(part.ports["b"], dc=b, load_ohm=200.0),
    }
    split = replace(part, ports=ById(ports), dc=None)
    return replace(catalog, inline_parts=catalog.inline_parts.having("split_2", split))


def found(plan: Plan, catalog: Catalog) -> list[Finding]:
    return findings("RF409", plan, catalog)


def test_one_branch_that_passes_and_one_that_blocks_are_fine() -> None:
    assert found(shared(), splitter("pass", "block")) == []


def test_two_branches_that_pass_push_into_each_other() -> None:
    (one,) = found(shared(), splitter("pass", "pass"))
    assert one.verdict is Verdict.FAIL
    assert "nav1 and nav2" in one.text
    assert one.objects == ("gnss1",)
    assert set(one.paths) == {"gnss1", "gnss2"}


def test_a_second_receiver_that_sends_nothing_may_pass() -> None:
    assert found(shared(feed_v=NO_FEED), splitter("pass", "pass")) == []


def test_two_branches_that_block_leave_the_amplifier_dead() -> None:
    (one,) = found(shared(), splitter("block", "block"))
    assert one.verdict is Verdict.FAIL
    assert "sp blocks it" in one.text


def test_a_branch_that_does_not_say_blocks_the_verdict_and_is_named() -> None:
    plan, catalog = shared(), splitter("pass", None)
    (one,) = found(plan, catalog)
    assert one.verdict is Verdict.INCOMPLETE
    assert "split_2.dc" in one.text
    blocking = {p.id for p in sample_assessment(plan, catalog).open_points if p.blocking}
    assert "split_2.dc" in blocking


def test_no_source_at_all_fails_where_every_port_says_so() -> None:
    (one,) = found(amplified_plan(feed_v=NO_FEED), amplified_catalog())
    assert (one.verdict, "has no source" in one.text) == (Verdict.FAIL, True)


def test_a_port_that_says_nothing_of_a_feed_is_an_open_point_and_no_failure() -> None:
    plan = amplified_plan(feed_v=None)
    assert found(plan, amplified_catalog()) == []
    points = {
        point.id: point.blocking
        for point in sample_assessment(plan, amplified_catalog()).open_points
    }
    assert points["nav1.gnss.feed"] is False


def test_an_antenna_without_amplifier_needs_no_source() -> None:
    catalog = amplified_catalog(amplifier_db=ById({"all": Range(NONE, NONE)}), supply_v=None)
    assert found(amplified_plan(feed_v=NO_FEED), catalog) == []


def test_a_bulkhead_that_says_nothing_passes_direct_current() -> None:
    through = InlinePart("bulkhead", "invented", "through", ("tnc", "tnc"), sources=SOURCES)
    catalog = amplified_catalog()
    catalog = replace(catalog, inline_parts=catalog.inline_parts.having("split_2", through))
    plan = amplified_plan()
    there = plan.installation
    fitted = replace(
        there,
        parts=ById({"bh": Part("split_2", "rf1")}),
        paths=there.paths.having("gnss1", Path(("nav1.gnss", "bh", "w11", "gnss1"))),
    )
    assert found(replace(plan, design=fitted), catalog) == []
