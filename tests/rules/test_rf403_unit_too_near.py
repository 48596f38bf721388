# SPDX-License-Identifier: Apache-2.0
"""RF403: antennas nearer to their unit than the port allows."""

from __future__ import annotations

import math

import pytest
from rooms import assert_same_everywhere, findings
from sample import IN, inch, refitted, sample_plan, with_port

from rfplan.model.findings import Verdict
from rfplan.model.plan import Plan
from rfplan.rules import rf403_unit_too_near

# nav1 stands at (62, -4, 50), gnss1 at (80, 0) on the roof at WL 75
AWAY_IN = math.sqrt(18**2 + 4**2 + 25**2)


def needs(distance_in: float) -> Plan:
    """Return the sample whose GNSS port asks for a distance."""
    return with_port(sample_plan(), "nav1", "gnss", distance_m=inch(distance_in))


def test_an_antenna_as_far_as_its_port_asks_is_fine() -> None:
    assert findings("RF403") == []
    assert findings("RF403", needs(AWAY_IN)) == []


def test_a_nearer_antenna_fails_with_the_straight_line() -> None:
    (one,) = findings("RF403", needs(36))
    assert one.objects == ("gnss1", "nav1")
    assert one.value == pytest.approx(AWAY_IN * IN)
    assert one.limit == pytest.approx(36 * IN)
    assert (one.unit, one.verdict) == ("m", Verdict.FAIL)
    assert "invented sheet" in one.source


def test_a_unit_without_a_place_is_no_distance_away() -> None:
    assert findings("RF403", refitted(needs(36), "units", "nav1", at=None, node="p1")) == []


def test_room_is_the_same_at_many_places_and_at_the_present_one() -> None:
    assert_same_everywhere(rf403_unit_too_near, needs(36), "gnss1")
