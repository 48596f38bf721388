# SPDX-License-Identifier: Apache-2.0
"""RF314: drops shorter than the straight line."""

from __future__ import annotations

import pytest
from rooms import findings
from sample import IN, inch, refitted, sample_plan

from rfplan.model.findings import Verdict
from rfplan.model.plan import Plan
from rfplan.units import UNKNOWN


def dropped(at_unit_in: float) -> Plan:
    """Return the sample with this drop from p1 to the unit, which is 4 in away."""
    return refitted(sample_plan(), "cables", "w11", drops_m=inch(at_unit_in, 3))


def test_drops_as_long_as_the_straight_line_are_fine() -> None:
    assert findings("RF314") == []
    assert findings("RF314", dropped(4.0)) == []


def test_half_an_inch_less_is_the_tape_and_more_is_a_mistake() -> None:
    assert findings("RF314", dropped(3.51)) == []
    (one,) = findings("RF314", dropped(3.4))
    assert set(one.objects) == {"w11", "nav1"}
    assert one.value == pytest.approx(3.4 * IN)
    assert one.limit == pytest.approx(4.0 * IN)
    assert (one.unit, one.verdict) == ("m", Verdict.ADVICE)


def test_a_drop_that_is_not_known_or_not_stated_is_no_mistake() -> None:
    assert findings("RF314", refitted(sample_plan(), "cables", "w11", drops_m=(UNKNOWN, 0.1))) == []
    assert findings("RF314", refitted(sample_plan(), "cables", "w11", drops_m=None)) == []


def test_a_unit_without_a_place_has_no_straight_line() -> None:
    plan = refitted(dropped(1.0), "units", "nav1", at=None, node="p1")
    assert findings("RF314", plan) == []
