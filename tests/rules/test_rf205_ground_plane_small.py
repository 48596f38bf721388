# SPDX-License-Identifier: Apache-2.0
"""RF205: conducting skin round an antenna that is smaller than it needs."""

from __future__ import annotations

from dataclasses import replace
from typing import Any

import pytest
from rooms import assert_same_everywhere, findings, room_of
from sample import (
    IN,
    MHZ,
    SOURCES,
    inch,
    place,
    refitted,
    sample_catalog,
    sample_facts,
    sample_plan,
    with_airframe,
    with_entry,
    with_port,
)

from rfplan.model.airframe import Panel, Zone
from rfplan.model.catalog import Catalog
from rfplan.model.findings import Verdict
from rfplan.model.plan import GroundPlane, Plan
from rfplan.model.record import ById
from rfplan.model.source import Source
from rfplan.rules import rf205_ground_plane_small as rf205
from rfplan.units import Range

QUARTER_M = 299_792_458.0 / (117.975 * MHZ) / 4


def glass(*, foil_in: tuple[float, float] | None = None) -> Plan:
    """Return the sample in glass, with foil under the roof from the one station to the other."""
    plan = with_airframe(sample_plan(), skin=ById({"hull": Panel("all", "glass", source="sheet")}))
    if foil_in is None:
        return plan
    plane = GroundPlane(
        "copper foil", "top", Range(*inch(*foil_in)), Range(*inch(-28, 28)), "P. One"
    )
    return replace(plan, design=replace(plan.design, ground_planes=ById({"foil": plane})))


def seamed(kind: str) -> Plan:
    """Return the sample with a zone 10 in ahead of the COM antenna at FS 130."""
    zone = Zone(kind, "top", Range(*inch(110, 120)), Range(*inch(-9, 9)), source="sheet")
    return with_airframe(sample_plan(), zones=ById({"seam": zone}))


def only(plan: Plan, catalog: Catalog | None = None) -> Any:
    """Return the one finding about the COM antenna."""
    (one,) = [f for f in findings("RF205", plan, catalog) if f.objects == ("com1",)]
    return one


def test_a_metal_hull_with_a_quarter_wave_round_the_antenna_is_fine() -> None:
    assert findings("RF205") == []


def test_glass_skin_is_no_ground_plane_and_only_advised_against() -> None:
    one = only(glass())
    assert one.value == 0.0
    assert one.limit == pytest.approx(QUARTER_M)
    assert (one.unit, one.verdict) == ("m", Verdict.ADVICE)
    assert one.source_class == "from memory"


def test_foil_counts_as_far_as_it_reaches_in_the_shortest_direction() -> None:
    # FS 120 .. 160 round FS 130: 10 in ahead; marched in fortieths of the need
    one = only(glass(foil_in=(120, 160)))
    step_m = QUARTER_M / 40
    assert one.value == pytest.approx(int(10 * IN / step_m) * step_m)
    assert 10 * IN - step_m < one.value <= 10 * IN


def test_foil_of_a_quarter_wave_all_round_is_enough() -> None:
    found = findings("RF205", glass(foil_in=(104, 156)))
    assert [one.objects for one in found] == [("xpdr1",)]  # the belly has none


@pytest.mark.parametrize("kind", ["hatch", "door", "removable", "window", "windshield"])
def test_a_seam_ends_the_ground_plane(kind: str) -> None:
    one = only(seamed(kind))
    assert 10 * IN - QUARTER_M / 40 <= one.value < 10 * IN


def test_a_zone_without_a_seam_does_not() -> None:
    assert findings("RF205", seamed("fuel")) == []


def test_a_ground_plane_stated_by_the_port_is_required() -> None:
    plan = with_port(glass(), "nav1", "com", ground_plane_m=inch(20))
    one = only(plan)
    assert one.limit == pytest.approx(20 * IN)
    assert one.verdict is Verdict.FAIL
    assert "invented sheet" in one.source


def test_a_ground_plane_stated_by_the_antenna_is_required_unless_from_memory() -> None:
    catalog = with_entry(sample_catalog(), "antennas", "com_whip", ground_plane_radius_m=inch(12))
    assert only(glass(), catalog).verdict is Verdict.FAIL
    memory = SOURCES.having("sheet", Source("assumed", read="memory"))
    remembered = with_entry(catalog, "antennas", "com_whip", sources=memory)
    assert only(glass(), remembered).verdict is Verdict.ADVICE


def test_antennas_that_need_none_are_not_asked() -> None:
    assert room_of(rf205, sample_facts(glass()), "gnss1") is None
    inside = refitted(glass(), "antennas", "com1", on="cabin")
    assert room_of(rf205, sample_facts(inside), "com1") is None


def test_beyond_the_end_of_the_hull_nothing_conducts() -> None:
    plan = refitted(
        sample_plan(),
        "antennas",
        "com1",
        at=replace(sample_plan().design.antennas["com1"].at, fs_m=inch(230)),
    )
    assert only(plan).value < 10 * IN


def test_room_is_one_rule_for_many_places_and_the_present_one() -> None:
    assert_same_everywhere(rf205, glass(foil_in=(120, 160)), "com1")


def test_a_seam_round_a_place_ends_the_skin_where_it_is_and_not_everywhere() -> None:
    """The COM antenna stands at FS 130; the rim of the opening is 10 in ahead of it."""
    seam = Zone("hatch", "top", at=place(114, 0), radius_m=inch(6), source="sheet")
    plan = with_airframe(sample_plan(), zones=ById({"seam": seam}))
    one = only(plan)
    assert 9.0 * IN <= one.value <= 10.0 * IN
    far = with_airframe(sample_plan(), zones=ById({"seam": replace(seam, at=place(60, 0))}))
    assert not [f for f in findings("RF205", far) if f.objects == ("com1",)]
