# SPDX-License-Identifier: Apache-2.0
"""RF312: cables of transmitters beside those of receivers."""

from __future__ import annotations

from dataclasses import replace

import pytest
from rooms import findings
from sample import IN, refitted, sample_plan, with_port

from rfplan.model.findings import Verdict
from rfplan.model.plan import Plan
from rfplan.units import NONE, Range


def together() -> Plan:
    """Return the sample whose COM cable is sent over the left door post, beside that of GNSS."""
    return refitted(sample_plan(), "cables", "w21", via=("apl",))


def test_cables_on_ways_of_their_own_are_fine() -> None:
    assert findings("RF312") == []


def test_a_shared_way_is_told_with_its_length() -> None:
    (one,) = findings("RF312", together())
    assert one.objects == ("w21", "w11")
    assert one.value == pytest.approx(30 * IN)  # p1-apl
    assert (one.limit, one.unit, one.verdict) == (0.5, "m", Verdict.ADVICE)


def test_a_transmitter_is_one_by_its_bands_although_its_power_is_not_given() -> None:
    assert len(findings("RF312", with_port(together(), "nav1", "com", power_w=None))) == 1


def test_a_port_whose_power_is_none_is_a_receiver() -> None:
    receiving = with_port(together(), "nav1", "com", power_w=Range(NONE, NONE))
    assert findings("RF312", receiving) == []


def test_two_transmitters_may_share() -> None:
    plan = refitted(sample_plan(), "cables", "w31", via=("apr", "p1"))  # beside w21, which sends
    assert findings("RF312", plan) == []


def test_half_a_metre_is_let_be() -> None:
    airframe = sample_plan().airframe
    segment = airframe.route.segments["p1-apl"]
    short = airframe.route.segments.having("p1-apl", replace(segment, length_m=0.5))
    plan = together()
    plan = replace(plan, airframe=replace(airframe, route=replace(airframe.route, segments=short)))
    assert findings("RF312", plan) == []
