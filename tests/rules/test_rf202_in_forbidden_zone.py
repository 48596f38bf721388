# SPDX-License-Identifier: Apache-2.0
"""RF202: bases in, or too near, zones where no antenna may stand."""

from __future__ import annotations

from typing import Any

import pytest
from rooms import assert_same_everywhere, findings
from sample import IN, inch, place, refitted, sample_plan, with_airframe

from rfplan.model.airframe import Zone
from rfplan.model.findings import Verdict
from rfplan.model.plan import Plan
from rfplan.model.record import ById
from rfplan.model.rulebook import Strictness
from rfplan.rules import rf202_in_forbidden_zone as rf202
from rfplan.units import UNKNOWN, Range


def zoned(**changes: Any) -> Plan:
    """Return the sample with a hatch FS 60 .. 76; gnss1 at FS 80 has a base of 3 x 2 in."""
    hatch = {
        "is_": "hatch",
        "on": "top",
        "fs_m": Range(*inch(60, 76)),
        "bl_m": Range(*inch(-9, 9)),
        "why": "second way out",
        "source": "sheet",
    }
    return with_airframe(sample_plan(), zones=ById({"roof": Zone(**{**hatch, **changes})}))


def test_a_base_clear_of_the_zone_and_its_keep_off_is_fine() -> None:
    # the edge of the base is at 80 - 1.5 = 78.5, 2.5 in from the zone
    assert findings("RF202", zoned()) == []
    assert findings("RF202", zoned(keep_off_m=inch(2.5))) == []


def test_a_base_within_the_keep_off_fails_with_the_distance_of_its_edge() -> None:
    (one,) = findings("RF202", zoned(keep_off_m=inch(3)))
    assert set(one.objects) == {"gnss1", "roof"}
    assert one.value == pytest.approx(2.5 * IN)
    assert one.limit == pytest.approx(3.0 * IN)
    assert one.unit == "m"
    assert (one.strictness, one.verdict) == (Strictness.REQUIRED, Verdict.FAIL)
    words = "gnss1 is {value} from roof, hatch (second way out); keep off {limit}"
    assert one.text == words
    assert "invented sheet" in one.source


def test_a_base_in_the_zone_has_a_negative_distance() -> None:
    # from the middle of the base 3 in inside, and half the base length: -4.5 in
    (one,) = findings("RF202", refitted(zoned(), "antennas", "gnss1", at=place(73, 0)))
    assert one.value == pytest.approx(-4.5 * IN)
    assert one.text == "gnss1 stands on roof, hatch (second way out)"


def test_off_a_corner_the_distance_is_measured_across_it() -> None:
    # 4 - 1.5 = 2.5 along, 12 - 9 - 1 = 2 across: 3.20 in
    plan = refitted(zoned(keep_off_m=inch(4)), "antennas", "gnss1", at=place(80, 12))
    (one,) = findings("RF202", plan)
    assert one.value == pytest.approx(IN * (2.5**2 + 2.0**2) ** 0.5)


def test_a_zone_of_another_surface_or_in_space_says_nothing() -> None:
    assert findings("RF202", zoned(on="belly", keep_off_m=inch(30))) == []
    assert findings("RF202", zoned(on=None, keep_off_m=inch(30))) == []


def test_the_words_of_the_zone_decide_how_strict_it_is() -> None:
    (strap,) = findings("RF202", zoned(is_="strap", keep_off_m=inch(3)))
    assert strap.verdict is Verdict.ADVICE  # a caution of the sample's table
    (stated,) = findings("RF202", zoned(is_="strap", keep_off_m=inch(3), strict="required"))
    assert stated.verdict is Verdict.FAIL


def test_an_open_ended_zone_reaches_on_without_end() -> None:
    open_ended = zoned(fs_m=Range(UNKNOWN, inch(76)), keep_off_m=inch(3))
    (one,) = findings("RF202", open_ended)
    assert one.value == pytest.approx(2.5 * IN)


def side_antenna(wl_in: float) -> Plan:
    """Return a plan with an antenna on the left side beside a window of WL 50 .. 62."""
    window = zoned(is_="window", on="left", fs_m=Range(*inch(76, 90)), bl_m=None)
    zone = {"wl_m": Range(*inch(50, 62))}
    zones = window.airframe.zones
    merged = ById({"win": Zone(**{**_fields(zones["roof"]), **zone})})
    plan = with_airframe(window, zones=merged)
    return refitted(plan, "antennas", "gnss1", on="left", at=place(80, 0, wl_in))


def _fields(zone: Zone) -> dict[str, Any]:
    return {name: getattr(zone, name) for name in Zone.__dataclass_fields__}


def test_on_a_side_the_water_line_counts_and_not_the_butt_line() -> None:
    (one,) = findings("RF202", side_antenna(56))
    assert one.value == pytest.approx(-5.5 * IN)  # 4 in to FS 76 and half the length
    assert findings("RF202", side_antenna(40)) == []


def test_a_place_off_the_skin_is_not_known_and_incomplete() -> None:
    (one,) = findings("RF202", refitted(zoned(), "antennas", "gnss1", at=place(80, 31)))
    assert one.verdict is Verdict.INCOMPLETE
    assert one.value is None


def test_room_is_one_rule_for_many_places_and_the_present_one() -> None:
    assert_same_everywhere(rf202, zoned(keep_off_m=inch(3)), "gnss1")


def test_a_zone_round_a_place_keeps_off_by_its_radius() -> None:
    """From the edge of the base at 78.5 to the place at 70 are 8.5 in, less a radius of 6 in."""
    round_zone = {"fs_m": None, "bl_m": None, "at": place(70, 0), "radius_m": inch(6)}
    assert findings("RF202", zoned(**round_zone, keep_off_m=inch(2.5))) == []
    (one,) = findings("RF202", zoned(**round_zone, keep_off_m=inch(3)))
    assert one.value == pytest.approx(2.5 * IN)
    (inside,) = findings("RF202", zoned(**{**round_zone, "radius_m": inch(12)}))
    assert inside.text == "gnss1 stands on roof, hatch (second way out)"
    assert_same_everywhere(rf202, zoned(**round_zone, keep_off_m=inch(3)), "gnss1")


def test_a_zone_round_a_place_on_the_belly_is_none_of_the_roof() -> None:
    belly = {"on": "belly", "fs_m": None, "bl_m": None, "at": place(80, 0), "radius_m": inch(6)}
    assert findings("RF202", zoned(**belly)) == []
