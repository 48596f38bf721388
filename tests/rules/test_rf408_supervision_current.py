# SPDX-License-Identifier: Apache-2.0
"""RF408: the current that a port sees against what it takes for a healthy antenna."""

from __future__ import annotations

from dataclasses import replace
from typing import Any

import pytest
from amplified import amplified_catalog, amplified_plan
from rooms import findings
from sample import refitted, sample_catalog

from rfplan.model.catalog import Catalog
from rfplan.model.findings import Finding, Verdict
from rfplan.model.plan import Part, Plan
from rfplan.units import Range


def found(antenna: Range, **port: Any) -> list[Finding]:
    catalog = amplified_catalog(current_a=antenna)
    return findings("RF408", amplified_plan(**port), catalog)


def test_a_current_inside_the_supervision_is_fine() -> None:
    assert found(Range(0.010, 0.060)) == []


@pytest.mark.parametrize(
    ("antenna", "value", "limit"),
    [(Range(0.008, 0.020), 0.008, 0.010), (Range(0.020, 0.065), 0.065, 0.060)],
)
def test_a_current_outside_looks_like_a_fault(antenna: Range, value: float, limit: float) -> None:
    (one,) = found(antenna)
    assert (one.verdict, one.unit) == (Verdict.FAIL, "A")
    assert (one.value, one.limit) == (value, limit)
    assert set(one.objects) == {"nav1.gnss", "gnss1"}


def test_without_supervision_only_what_the_port_can_give_counts() -> None:
    assert found(Range(0.001, 0.060), supervision_a=None) == []
    (one,) = found(Range(0.001, 0.070), supervision_a=None)
    assert (one.value, one.limit) == (0.070, 0.060)
    assert found(Range(0.001, 0.070), supervision_a=None, current_a=None) == []


def test_the_smaller_of_supervision_and_ability_is_the_limit() -> None:
    (one,) = found(Range(0.020, 0.050), current_a=0.040)
    assert one.limit == 0.040


def split(load_ohm: float | None) -> tuple[Plan, Catalog]:
    """Return the sample with a splitter whose branch blocks, and loads its port."""
    plan = amplified_plan()
    plan = refitted(plan, "paths", "gnss1", chain=("nav1.gnss", "w11", "sp.a", "w12", "gnss1"))
    there = plan.installation
    cables = there.cables.having("w12", there.cables["w11"])
    parts = there.parts.having("sp", Part("split_2", "rf1"))
    plan = replace(plan, design=replace(there, cables=cables, parts=parts))
    part = sample_catalog().inline_parts["split_2"]
    branch = replace(part.ports["a"], dc="block", load_ohm=load_ohm)
    catalog = amplified_catalog()
    blocked = replace(part, ports=part.ports.having("a", branch))
    return plan, replace(catalog, inline_parts=catalog.inline_parts.having("split_2", blocked))


def test_a_branch_that_blocks_shows_its_port_a_load() -> None:
    assert findings("RF408", *split(200.0)) == []
    (one,) = findings("RF408", *split(1000.0))
    assert one.verdict is Verdict.FAIL
    assert one.value == pytest.approx(4.7 / 1000.0)


def test_a_branch_that_states_no_load_leaves_it_open() -> None:
    (one,) = findings("RF408", *split(None))
    assert one.verdict is Verdict.INCOMPLETE
    assert "sp.load" in one.text
