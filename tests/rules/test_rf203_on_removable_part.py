# SPDX-License-Identifier: Apache-2.0
"""RF203: antennas on parts that open or come off."""

from __future__ import annotations

import pytest
from rooms import assert_same_everywhere, findings
from sample import IN, inch, place, refitted, sample_plan, with_airframe

from rfplan.model.airframe import Zone
from rfplan.model.findings import Verdict
from rfplan.model.plan import Plan
from rfplan.model.record import ById
from rfplan.rules import rf203_on_removable_part as rf203
from rfplan.units import Range


def panelled(kind: str = "removable") -> Plan:
    """Return the sample with a panel FS 60 .. 77 on the roof, ahead of the GNSS antenna."""
    panel = Zone(kind, "top", Range(*inch(60, 77)), Range(*inch(-9, 9)), source="sheet")
    return with_airframe(sample_plan(), zones=ById({"panel": panel}))


def test_an_antenna_on_fixed_skin_is_fine() -> None:
    assert findings("RF203", panelled()) == []


def test_an_antenna_that_reaches_onto_a_removable_part_is_advised_against() -> None:
    # the edge of the base is 1.5 in ahead of its middle: 78 - 1.5 - 77
    plan = refitted(panelled(), "antennas", "gnss1", at=place(78, 0))
    (one,) = findings("RF203", plan)
    assert set(one.objects) == {"gnss1", "panel"}
    assert one.value == pytest.approx(-0.5 * IN)
    assert (one.limit, one.unit, one.verdict) == (0.0, "m", Verdict.ADVICE)
    assert "invented sheet" in one.source


def test_other_kinds_of_zones_are_not_of_this_rule() -> None:
    plan = refitted(panelled("fuel"), "antennas", "gnss1", at=place(70, 0))
    assert findings("RF203", plan) == []
    assert (
        len(findings("RF203", refitted(panelled("door"), "antennas", "gnss1", at=place(70, 0))))
        == 1
    )


def test_room_is_one_rule_for_many_places_and_the_present_one() -> None:
    plan = refitted(panelled(), "antennas", "gnss1", at=place(78, 0))
    assert_same_everywhere(rf203, plan, "gnss1")
