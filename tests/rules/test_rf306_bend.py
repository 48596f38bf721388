# SPDX-License-Identifier: Apache-2.0
"""RF306: corners of a route that are too tight for the cable."""

from __future__ import annotations

from dataclasses import replace
from typing import Any

import pytest
from rooms import findings
from sample import sample_catalog, sample_facts, sample_plan, with_entry

from rfplan.model.findings import Verdict
from rfplan.model.plan import Plan


def thick(diameter_m: float, **changes: Any) -> list[Any]:
    """Return what is found of w11, at whose corner a bend of 202 mm fits."""
    catalog = with_entry(sample_catalog(), "cables", "coax_5mm", diameter_m=diameter_m, **changes)
    return [one for one in findings("RF306", catalog=catalog) if "w11" in one.objects]


def test_the_corner_of_the_sample_has_room_for_202_mm() -> None:
    bend = sample_facts().runs["w11"].bend
    assert bend is not None
    assert bend == (pytest.approx(0.2021, abs=1e-4), "apl")
    assert findings("RF306") == []


def test_below_ten_diameters_is_advised_against() -> None:
    # 10 x 21 mm = 210 mm; the floor of 6 is 126 mm
    (one,) = thick(0.021)
    assert set(one.objects) == {"w11", "apl"}
    assert one.value == pytest.approx(0.2021, abs=1e-4)
    assert one.limit == pytest.approx(0.210)
    assert (one.unit, one.verdict) == ("m", Verdict.ADVICE)
    assert "below what is advised" in one.text


def test_below_six_diameters_is_below_the_minimum() -> None:
    (one,) = thick(0.035)
    assert one.limit == pytest.approx(0.210)
    assert "below its minimum" in one.text


def test_the_minimum_of_the_cable_itself_comes_before_the_common_one() -> None:
    (one,) = thick(0.005, bend_m=0.25)
    assert one.limit == pytest.approx(0.25)
    assert "below its minimum" in one.text
    assert thick(0.005, bend_m=0.15) == []


def test_the_shop_may_ask_for_another_multiple() -> None:
    plan: Plan = sample_plan()
    plan = replace(plan, policy=replace(plan.policy, bend_od=45.0))
    assert any("w11" in one.objects for one in findings("RF306", plan))  # 225 mm


def test_a_cable_without_a_diameter_is_not_judged() -> None:
    catalog = with_entry(sample_catalog(), "cables", "coax_5mm", diameter_m=None)
    assert findings("RF306", catalog=catalog) == []
