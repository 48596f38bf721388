# SPDX-License-Identifier: Apache-2.0
"""RF316: cables that cannot reach, and proposals that do not offer what they cannot reach."""

from __future__ import annotations

import math

import pytest
from demo_plans import EVERY_STATE, assessed
from rooms import findings
from sample import IN, inch, refitted, sample_facts, sample_plan

from rfplan.model.findings import Verdict
from rfplan.model.plan import Plan, State
from rfplan.units import UNKNOWN


def straight_m() -> float:
    """Return how far the unit and the antenna of the sample's GNSS cable are apart."""
    facts = sample_facts()
    unit = facts.installation.units["nav1"].at
    assert unit is not None
    base = facts.scene.fitted["gnss1"].point_m
    return math.dist((unit.fs_m, unit.bl_m, unit.wl_m or 0.0), base)


def long(length_m: object) -> Plan:
    """Return the sample with this stated length of its GNSS cable."""
    return refitted(sample_plan(), "cables", "w11", length_m=length_m)


@pytest.mark.parametrize("over_in", [0.0, -0.4, 40.0])
def test_a_cable_as_long_as_its_straight_line_reaches(over_in: float) -> None:
    assert findings("RF316", long(straight_m() + inch(over_in))) == []


def test_a_cable_that_is_shorter_fails_whatever_its_loss() -> None:
    (one,) = findings("RF316", long(straight_m() - inch(12.0)))
    assert set(one.objects) == {"w11", "nav1", "gnss1"}
    assert one.limit == pytest.approx(straight_m())
    assert one.value == pytest.approx(straight_m() - 12.0 * IN)
    assert (one.verdict, one.unit) == (Verdict.FAIL, "m")
    assert "gnss1" in one.paths


@pytest.mark.parametrize("length_m", [None, UNKNOWN])
def test_a_length_that_is_not_stated_follows_the_way(length_m: object) -> None:
    assert findings("RF316", long(length_m)) == []


@pytest.mark.parametrize(("demo", "state"), EVERY_STATE)
def test_every_cable_of_the_demo_aircraft_reaches(demo: str, state: State) -> None:
    assert not [one for one in assessed(demo, state).findings if one.rule == "RF316"]
