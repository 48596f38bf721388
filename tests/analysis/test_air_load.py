# SPDX-License-Identifier: Apache-2.0
"""The drag of antennas that came down or went up: area, shape and the never-exceed speed."""

from __future__ import annotations

from dataclasses import replace
from typing import Any

import pytest
from sample import place, refitted, sample_catalog, sample_plan, with_airframe, with_entry

from rfplan.analysis.air_load import air_loads
from rfplan.model.air_load import AirLoad
from rfplan.model.airframe import Speeds
from rfplan.model.plan import Plan, State

FOOT2_M2 = 0.3048**2
MPH_M_PER_S = 0.44704
LBF_N = 4.4482216


def loads(plan: Plan | None = None, **type: Any) -> dict[tuple[str, bool], AirLoad]:
    """Return the loads of a plan by antenna and side; `type` changes that of the COM antenna."""
    catalog = with_entry(sample_catalog(), "antennas", "com_whip", **type)
    return {(one.id, one.installed): one for one in air_loads(plan or sample_plan(), catalog)}


def com_moved() -> Plan:
    return refitted(sample_plan(), "antennas", "com1", at=place(140, 0))


def test_what_stays_or_comes_from_inside_the_skin_is_not_listed() -> None:
    # gnss1 was found under the glareshield, com1 and xpdr1 stay where they are
    assert set(loads()) == {("gnss1", True)}
    assert loads(sample_plan(state=State.FOUND)) == {}


def test_an_antenna_that_moves_comes_down_in_one_place_and_goes_up_in_another() -> None:
    told = loads(com_moved())
    assert set(told) == {("gnss1", True), ("com1", False), ("com1", True)}
    assert told["com1", False].fs_m == pytest.approx(130 * 0.0254)
    assert told["com1", True].fs_m == pytest.approx(140 * 0.0254)


def test_a_blade_has_the_drag_of_the_advisory_circulars_example() -> None:
    plan = with_airframe(com_moved(), speeds=Speeds(250 * MPH_M_PER_S))
    blade = loads(plan, frontal_area_m2=0.135 * FOOT2_M2, shape="streamlined")["com1", True]
    assert blade.drag_n is not None
    assert blade.drag_n / LBF_N == pytest.approx(2.759, abs=0.001)


@pytest.mark.parametrize("shape", ["bluff", None])
def test_what_is_bluff_or_of_no_stated_shape_has_ten_times_that(shape: str | None) -> None:
    blade = loads(com_moved(), shape="streamlined")["com1", True].drag_n
    assert blade is not None
    assert loads(com_moved(), shape=shape)["com1", True].drag_n == pytest.approx(10 * blade)


def test_without_a_speed_or_an_area_no_drag_is_guessed() -> None:
    still = with_airframe(com_moved(), speeds=None)
    assert loads(still)["com1", True].drag_n is None
    assert loads(com_moved(), frontal_area_m2=None)["com1", True].drag_n is None


def test_an_antenna_taken_out_only_comes_down() -> None:
    plan = sample_plan()
    left = {id: one for id, one in plan.design.antennas.items() if id != "com1"}
    gone = replace(plan, design=replace(plan.design, antennas=type(plan.design.antennas)(left)))
    assert ("com1", False) in loads(gone)
    assert ("com1", True) not in loads(gone)
