# SPDX-License-Identifier: Apache-2.0
"""The placement sheet: places, distances and regions as numbers, and the drawing of the same."""

from __future__ import annotations

import pytest
from demo_plans import DEMOS, assessed
from sheet_tables import cells_of, rows_of

from rfplan.reports.context import Context
from rfplan.reports.drawings.placement import placement
from rfplan.reports.sheet import Sheet
from rfplan.reports.sheets import placement as placement_sheet


def sheet(demo: str, context: Context) -> Sheet:
    return placement_sheet.build(assessed(demo), context)


@pytest.mark.parametrize("demo", DEMOS)
def test_the_drawing_of_the_sheet_is_the_placement_drawing(demo: str, context: Context) -> None:
    assert sheet(demo, context).pictures == placement(assessed(demo), context)


@pytest.mark.parametrize("demo", DEMOS)
def test_every_antenna_is_listed_where_it_stands(demo: str, context: Context) -> None:
    rows = {row["antenna"].text: row for row in cells_of(sheet(demo, context), "places")}
    for antenna in assessed(demo).antennas:
        found = [rows[antenna.id][line].value for line in ("fs", "bl", "wl")]
        assert found == pytest.approx([one / 0.0254 for one in antenna.point_m])


def test_distances_are_told_with_what_they_are_measured_from(context: Context) -> None:
    rows = {row["antenna"]: row for row in rows_of(sheet("amphibian", context), "distances")}
    assert rows["gnss1"] == {
        "number": "1",
        "antenna": "gnss1",
        "along": "6.0",
        "along_at": "aft of fs92",
        "also_along": "-",
        "also_along_at": "-",
        "across": "13.0",
        "across_at": "left of the centre line",
        "zone": "3.7",
        "zone_at": "clear of Z3 windshield",
    }
    assert rows["mkr_w"]["along_at"] == "aft of the leading edge of wing"
    assert rows["mkr_w"]["also_along_at"] == "ahead of the trailing edge of wing"
    assert (rows["nav"]["across"], rows["nav"]["zone"]) == ("-", "-")


def test_a_region_is_told_from_end_to_end(context: Context) -> None:
    rows = {row["id"]: row for row in rows_of(sheet("amphibian", context), "regions")}
    deck = rows["bow_deck"]
    assert (deck["tag"], deck["fs_from"], deck["fs_to"]) == ("Z2", "0.0", "64.0")
    assert (deck["wl_from"], deck["radius"]) == ("-", "-")
    compass = rows["compass"]
    assert (compass["fs_from"], compass["fs_to"], compass["radius"]) == ("70.0", "94.0", "12.0")
    assert rows["foil_com1"]["what"] == "copper_foil"
