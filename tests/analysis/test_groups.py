# SPDX-License-Identifier: Apache-2.0
"""How far apart the assemblies of a group are: of their nominals, and with their tolerances."""

from __future__ import annotations

import math

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from sample import refitted, sample_facts, sample_plan

from rfplan.analysis.groups import Spread, spreads
from rfplan.model.plan import Group
from rfplan.model.record import ById

LENGTHS = st.floats(0.5, 6.0)


def spread(*lengths_m: float, tolerance_m: float = 0.0) -> Spread:
    plan = sample_plan(groups=ById({"all": Group()}))
    for id, length_m in zip(("w11", "w21", "w31"), lengths_m, strict=False):
        lying = {"length_m": length_m, "tolerance_m": tolerance_m, "retermination_m": None}
        plan = refitted(plan, "cables", id, group="all", **lying)
    ((_, found),) = spreads(sample_facts(plan))
    return found


@settings(max_examples=20, deadline=None)
@given(LENGTHS, LENGTHS, LENGTHS)
def test_a_spread_is_that_of_the_longest_and_the_shortest(a: float, b: float, c: float) -> None:
    one = spread(a, b, c)
    apart = max(a, b, c) - min(a, b, c)
    assert one.length_m == pytest.approx((apart, apart), abs=1e-12)
    assert one.delay_s[0] == pytest.approx(apart / (0.695 * 299792458.0), abs=1e-18)


def test_both_tolerances_count_and_a_nominal_spread_has_none() -> None:
    assert spread(3.0, 3.1, tolerance_m=0.01).length_m == pytest.approx((0.1, 0.12))
    assert spread(3.0, 3.0, tolerance_m=0.01).length_m == pytest.approx((0.0, 0.02))


def test_the_allowance_for_new_plugs_is_not_used_up_in_a_match() -> None:
    plan = sample_plan(groups=ById({"all": Group()}))
    for id, spare_m in (("w11", 0.0), ("w21", 0.5)):
        changes = {"length_m": 3.0, "tolerance_m": 0.0, "retermination_m": spare_m}
        plan = refitted(plan, "cables", id, group="all", **changes)
    ((_, one),) = spreads(sample_facts(plan))
    assert one.length_m == (0.0, 0.0)


def test_phase_belongs_to_the_highest_frequency_of_the_paths() -> None:
    one = spread(3.0, 3.1)
    assert one.frequency_hz == 1587.42e6
    assert one.phase_rad[0] == pytest.approx(2 * math.pi * 1587.42e6 * one.delay_s[0])


def test_a_cable_in_no_path_has_no_band_and_so_no_phase() -> None:
    plan = sample_plan(groups=ById({"all": Group()}))
    plan = refitted(plan, "cables", "w11", group="all")
    assert list(spreads(sample_facts(plan))) == []
