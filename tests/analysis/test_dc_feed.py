# SPDX-License-Identifier: Apache-2.0
"""A path as a way for direct current: what it resists, what it carries, what blocks it."""

from __future__ import annotations

import math
from dataclasses import replace

import pytest
from amplified import amplified_catalog, amplified_plan
from sample import refitted, sample_facts, with_entry

from rfplan.analysis.dc_feed import Supply, feeds
from rfplan.model.catalog import Catalog
from rfplan.model.plan import Part, Path, Plan
from rfplan.model.record import ById
from rfplan.units import NONE, UNKNOWN, Range


def supply(plan: Plan | None = None, catalog: Catalog | None = None) -> Supply:
    facts = sample_facts(plan or amplified_plan(), catalog or amplified_catalog())
    return facts.supplies["gnss1"]


def through_a_pad(**part: object) -> tuple[Plan, Catalog]:
    plan = amplified_plan()
    there = plan.installation
    fitted = replace(
        there,
        parts=ById({"pad1": Part("pad_3db", "p1")}),
        paths=there.paths.having("gnss1", Path(("nav1.gnss", "pad1", "w11", "gnss1"))),
    )
    return replace(plan, design=fitted), with_entry(
        amplified_catalog(), "inline_parts", "pad_3db", **part
    )


def test_only_a_port_that_sends_volts_is_a_way() -> None:
    assert set(sample_facts(amplified_plan(), amplified_catalog()).supplies) == {"gnss1"}
    assert not feeds(Range(NONE, NONE))
    assert feeds(Range(UNKNOWN, UNKNOWN))
    assert feeds(Range(4.7, 5.3))


def test_a_part_adds_its_resistance_at_either_temperature() -> None:
    bare = supply()
    plan, catalog = through_a_pad(dc="pass", resistance_ohm=2.0)
    cold, hot = (
        with_pad - without
        for with_pad, without in zip(
            supply(plan, catalog).resistance_ohm, bare.resistance_ohm, strict=True
        )
    )
    assert cold == pytest.approx(2.0 * (1.0 - 0.00393 * 75.0))
    assert hot == pytest.approx(2.0 * (1.0 + 0.00393 * 50.0))


def test_a_part_that_states_no_resistance_may_be_anything() -> None:
    one = supply(*through_a_pad(dc="pass", resistance_ohm=None))
    assert one.resistance_ohm[1] == math.inf
    assert one.unknown == ("pad_3db.resistance",)
    assert one.antenna_v[0] == -math.inf


@pytest.mark.parametrize(
    ("dc", "carries", "blocked"),
    [("pass", True, ()), ("block", False, ("pad1",)), (None, None, ())],
)
def test_a_part_passes_blocks_or_does_not_say(
    dc: str | None, carries: bool | None, blocked: tuple[str, ...]
) -> None:
    one = supply(*through_a_pad(dc=dc, resistance_ohm=0.1))
    assert one.carries is carries
    assert one.blocked_by == blocked
    assert one.silent == (("pad_3db.dc",) if dc is None else ())


def test_volts_fall_as_the_cable_grows() -> None:
    volts = [
        supply(refitted(amplified_plan(), "cables", "w11", length_m=length_m)).antenna_v[0]
        for length_m in (1.0, 5.0, 20.0)
    ]
    assert volts == sorted(volts, reverse=True)
    assert volts[0] < 4.7


def test_the_port_of_a_blocked_branch_sees_its_load() -> None:
    one = replace(supply(), blocked_by=("sp",), load_ohm=200.0)
    assert one.seen_a == pytest.approx((4.7 / 200.0, 5.3 / 200.0))
    assert replace(one, load_ohm=None).seen_a == (0.0, math.inf)
    assert supply().seen_a == (0.020, 0.045)


def test_an_unknown_cable_resists_anything_and_is_named() -> None:
    one = supply(refitted(amplified_plan(), "cables", "w11", type="?"))
    assert one.resistance_ohm == (0.0, math.inf)
    assert "w11.type" in one.unknown


def test_no_current_drops_no_volts_however_little_is_known() -> None:
    catalog = amplified_catalog(current_a=Range(0.0, 0.0))
    one = supply(refitted(amplified_plan(), "cables", "w11", type="?"), catalog)
    assert one.antenna_v == (4.7, 5.3)
