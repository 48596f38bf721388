# SPDX-License-Identifier: Apache-2.0
"""RF315: assemblies of a group against the loss, length, delay and phase they may be apart."""

from __future__ import annotations

import math
from dataclasses import replace
from typing import Any

import pytest
from rooms import findings
from sample import refitted, sample_assessment, sample_plan

from rfplan.model.findings import Finding, Verdict
from rfplan.model.plan import Group, Plan
from rfplan.model.record import ById
from rfplan.units import UNKNOWN

C, VELOCITY, TOP_HZ = 299792458.0, 0.695, 1090.0e6


def grouped(one_m: object = 3.000, other_m: object = 3.010, **limits: Any) -> Plan:
    """Return the COM and transponder cables as a group, lying there with stated lengths."""
    plan = sample_plan(groups=ById({"pair": Group(source="sheet", **limits)}))
    for id, length_m in (("w21", one_m), ("w31", other_m)):
        changes = {"length_m": length_m, "group": "pair", "tolerance_m": 0.002}
        plan = refitted(plan, "cables", id, retermination_m=None, **changes)
    return plan


def found(plan: Plan) -> list[Finding]:
    return findings("RF315", plan)


def test_a_group_within_its_limits_is_fine() -> None:
    limits = {"loss_db": 0.1, "length_m": 0.015, "delay_s": 0.1e-9, "phase_rad": math.radians(40)}
    assert found(grouped(**limits)) == []
    assert found(grouped()) == []


def test_lengths_are_apart_by_their_difference_and_both_tolerances() -> None:
    assert found(grouped(length_m=0.014)) == []
    (one,) = found(grouped(length_m=0.0139))
    assert (one.verdict, one.unit, one.limit) == (Verdict.FAIL, "m", 0.0139)
    assert one.value == pytest.approx(0.014)
    assert set(one.objects) == {"pair", "w21", "w31"}
    assert {"com1", "xpdr1"} <= set(one.paths)


@pytest.mark.parametrize(
    ("limit", "unit", "value"),
    [
        ({"delay_s": 1e-12}, "s", 0.014 / (VELOCITY * C)),
        ({"phase_rad": 0.01}, "rad", 2 * math.pi * TOP_HZ * 0.014 / (VELOCITY * C)),
    ],
)
def test_delay_and_phase_follow_from_the_length(
    limit: dict[str, float], unit: str, value: float
) -> None:
    (one,) = found(grouped(**limit))
    assert one.unit == unit
    assert one.value == pytest.approx(value)


def test_the_loss_is_that_of_the_longer_less_the_shorter_where_the_band_loses_most() -> None:
    (one,) = found(grouped(loss_db=0.001))
    assert one.value == pytest.approx(0.014 * 0.526, rel=0.02)


def test_cables_of_two_types_are_apart_by_their_figures_too() -> None:
    plan = refitted(grouped(one_m=3.0, other_m=3.0, loss_db=0.5), "cables", "w31", type="coax_3mm")
    (one,) = found(plan)
    assert one.value is not None
    assert one.value > 1.5


def test_a_member_that_is_not_known_blocks_and_is_named() -> None:
    plan = grouped(other_m=UNKNOWN, length_m=0.010)
    (one,) = found(plan)
    assert one.verdict is Verdict.INCOMPLETE
    assert "w31.length" in one.text


def test_every_group_stands_in_the_assessment() -> None:
    (group,) = sample_assessment(grouped(length_m=0.020)).groups
    assert (group.id, group.members, group.verdict) == ("pair", ("w21", "w31"), Verdict.PASS)
    assert group.length_m == pytest.approx((0.014, 0.020))
    assert group.frequency_hz == TOP_HZ
    assert group.delay_s[1] is None


def test_a_group_of_one_is_no_group() -> None:
    plan = refitted(grouped(length_m=0.001), "cables", "w31", group=None)
    assert found(plan) == []
    assert sample_assessment(plan).groups == ()


def test_phase_apart_is_waived_and_reopened_in_degrees() -> None:
    from rfplan.model.plan import Accepted, FindingRef, Waiver

    def waived(have: str) -> Verdict:
        waiver = Waiver(
            finding=FindingRef("RF315", ("pair", "w21", "w31")),
            reason="calibrated out at installation",
            who="E. Three",
            accepted=Accepted(have, "1.0 deg"),
        )
        plan = replace(grouped(phase_rad=math.radians(1.0)), waivers=ById({"v1": waiver}))
        return found(plan)[0].verdict

    degrees = math.degrees(2 * math.pi * TOP_HZ * 0.014 / (VELOCITY * C))
    assert waived(f"{degrees:.1f} deg") is Verdict.WAIVED
    assert waived(f"{degrees - 1.0:.1f} deg") is Verdict.FAIL
