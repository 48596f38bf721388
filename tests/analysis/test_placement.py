# SPDX-License-Identifier: Apache-2.0
"""Antennas on their surfaces, what skin is there, and how far regions are from a base."""

from __future__ import annotations

import math
from dataclasses import replace
from typing import Any

import numpy as np
import pytest
from sample import (
    IN,
    inch,
    place,
    sample_airframe,
    sample_antenna,
    sample_catalog,
    sample_facts,
    sample_plan,
    with_antenna,
    with_port,
)

from rfplan.analysis.placement import (
    Places,
    clearances_m,
    covers,
    covers_point,
    half_base_m,
    hull_of,
    lies_on,
    panel_at,
    snap,
)
from rfplan.model.airframe import Airframe, Panel, Plate, Zone
from rfplan.model.catalog import Base
from rfplan.model.plan import Antenna, GroundPlane
from rfplan.model.record import ById
from rfplan.units import UNKNOWN, Range


def snapped(on: str, *rows: tuple[float, ...], airframe: Airframe | None = None) -> Places:
    """Return places of the sample airframe from inches."""
    one = airframe or sample_airframe()
    return snap(one, hull_of(one), on, [place(*row) for row in rows])


# ----- snapping


def test_on_the_roof_the_skin_gives_the_water_line() -> None:
    # FS 80 and 100 lie in the straight part, 30 in half wide from WL 30 to 75
    found = snapped("top", (80, 0), (100, 15))
    rise = 22.5 * (1 - 0.5**3) ** (1 / 3)
    np.testing.assert_allclose(found.point_m, [inch(80, 0, 75), inch(100, 15, 52.5 + rise)])
    assert found.normal[0] == pytest.approx((0, 0, 1), abs=1e-6)
    assert not found.inside


def test_a_stated_water_line_does_not_lift_an_antenna_off_the_roof() -> None:
    np.testing.assert_allclose(snapped("top", (80, 0, 99)).point_m, snapped("top", (80, 0)).point_m)


def test_on_a_side_the_skin_gives_the_butt_line() -> None:
    found = snapped("left", (80, 0, 52.5))
    np.testing.assert_allclose(found.point_m, [inch(80, -30, 52.5)])
    assert found.normal[0] == pytest.approx((0, -1, 0), abs=1e-6)
    assert found.across_m[0] == pytest.approx(inch(52.5))
    assert snapped("top", (80, 7)).across_m[0] == pytest.approx(inch(7))


def test_a_place_on_a_side_without_a_water_line_is_nowhere() -> None:
    assert np.isnan(snapped("left", (80, 0)).point_m).any()


def test_off_the_hull_there_is_no_place() -> None:
    found = snapped("top", (80, 31), (10, 0), (80, 0))
    np.testing.assert_array_equal(np.isnan(found.point_m).any(axis=-1), [True, True, False])


def test_inside_an_antenna_stands_where_it_is_said_to() -> None:
    found = snapped("glareshield", (58, -7, 54))
    np.testing.assert_allclose(found.point_m, [inch(58, -7, 54)])
    assert found.inside
    np.testing.assert_array_equal(found.normal, [[0, 0, 1]])


def test_on_a_plate_the_normal_is_that_of_the_plate_and_points_up() -> None:
    # the tip is 4 in higher over 100 in of span
    root = (place(84, 0, 77), place(138, 0, 77))
    tip = (place(88, 100, 81), place(124, 100, 81))
    airframe = sample_airframe(plates=ById({"wing": Plate(root, tip, inch(7))}))
    found = snapped("wing", (100, 50, 79), airframe=airframe)
    assert found.normal[0] == pytest.approx(np.array([0, -4, 100]) / math.hypot(4, 100))
    assert not found.inside


# ----- antennas as they stand


def test_an_antenna_has_the_ports_and_radios_of_its_paths() -> None:
    fitted = sample_facts().scene.fitted
    assert fitted["gnss1"].radios == {"gnss_l1"}
    assert fitted["gnss1"].families == {"gnss"}
    assert [port.radio for port in fitted["com1"].ports] == ["vhf_com"]
    assert fitted["com1"].most_power_w == 16.0
    assert fitted["gnss1"].most_power_w == 0.0
    assert fitted["gnss1"].radius_m == pytest.approx(inch(1.5))
    assert fitted["gnss1"].point_m == pytest.approx(inch(80, 0, 75))


def test_an_antenna_without_a_path_has_the_radios_of_its_type() -> None:
    spare = Antenna("com_whip", "top", place(100, 0))
    fitted = sample_facts(with_antenna(sample_plan(), "com2", spare)).scene.fitted["com2"]
    assert (fitted.ports, fitted.radios) == ((), {"vhf_com"})


def test_a_power_without_an_upper_end_is_no_known_power() -> None:
    plan = with_port(sample_plan(), "nav1", "com", power_w=Range(16.0, UNKNOWN))
    assert sample_facts(plan).scene.fitted["com1"].most_power_w == 0.0


def test_antennas_snapped_together_stand_where_each_stands_alone() -> None:
    plan = with_antenna(sample_plan(), "gnss2", Antenna("gnss_active", "top", place(95, 8)))
    together = sample_facts(plan).scene.fitted
    for id, antenna in plan.design.antennas.items():
        alone = snap(plan.airframe, hull_of(plan.airframe), antenna.on, [antenna.at])
        np.testing.assert_allclose(together[id].places.point_m, alone.point_m)
        np.testing.assert_allclose(together[id].places.normal, alone.normal)


def test_a_base_counts_by_half_its_length_and_half_its_width() -> None:
    one = sample_antenna("x", "gnss_l1", base=Base(*inch(4.0, 1.0)))
    np.testing.assert_allclose(half_base_m(one), inch(2.0, 0.5))
    np.testing.assert_array_equal(half_base_m(replace(one, base=None)), [0, 0])


# ----- regions


@pytest.mark.parametrize(
    ("on", "surface", "lies"),
    [
        ("top", "top", True),
        ("top", "belly", False),
        ("all", "belly", True),
        (None, "belly", True),
        ("side", "left", True),
        ("side", "right", True),
        ("side", "top", False),
    ],
)
def test_a_region_lies_on_the_surfaces_it_names(on: str | None, surface: str, lies: bool) -> None:
    assert lies_on(on, surface) is lies


def zone(**changes: Any) -> Zone:
    """Return a zone of the roof from FS 60 to 76, 9 in to either side."""
    fields = {
        "is_": "hatch",
        "on": "top",
        "fs_m": Range(*inch(60, 76)),
        "bl_m": Range(*inch(-9, 9)),
    }
    return Zone(**{**fields, **changes})


def test_a_region_covers_its_spans_with_their_ends() -> None:
    places = snapped("top", (60, 9), (76, -9), (76.1, 0), (70, 9.1))
    assert covers(zone(), places).tolist() == [True, True, False, False]
    assert not covers(zone(on="belly"), places).any()
    assert covers(Panel("all", "glass"), places).all()


def test_an_end_that_is_open_or_no_span_at_all_covers_without_end() -> None:
    places = snapped("top", (30, 0), (150, 0))
    assert covers(zone(fs_m=Range(UNKNOWN, inch(76))), places).tolist() == [True, False]
    assert covers(zone(fs_m=None), places).tolist() == [True, True]


def test_a_region_of_a_side_is_bounded_by_water_lines() -> None:
    places = snapped("left", (70, 0, 50), (70, 0, 40))
    side = zone(on="side", bl_m=None, wl_m=Range(*inch(45, 60)))
    assert covers(side, places).tolist() == [True, False]


def test_off_the_hull_nothing_is_covered() -> None:
    assert not covers(zone(bl_m=None), snapped("top", (70, 40))).any()


def test_the_first_panel_that_fits_is_the_skin() -> None:
    skin = ById(
        {
            "spar": Panel("top", "carbon", Range(*inch(98, 108))),
            "roof": Panel("top", "glass"),
        }
    )
    airframe = sample_airframe(skin=skin)
    places = snapped("top", (90, 0), (100, 0), airframe=airframe)
    assert panel_at(airframe, places) == ["roof", "spar"]
    assert panel_at(airframe, snapped("belly", (90, 0), airframe=airframe)) == [None]


def clearance_in(
    region: Zone | GroundPlane, places: Places, base_in: tuple[float, float]
) -> list[float]:
    """Return the clearance of a base of these half measures from one region, in inches."""
    (row,) = clearances_m([region], places, np.array(inch(*base_in)))
    return [value / 0.0254 for value in row]


def test_the_clearance_is_that_of_the_edge_of_the_base() -> None:
    places = snapped("top", (80, 0), (80, 12), (56, 0))
    found = clearance_in(zone(), places, (1.5, 1.0))
    assert found == pytest.approx([2.5, math.hypot(2.5, 2.0), 2.5])


def test_inside_a_region_the_clearance_is_negative_by_the_shortest_way_out() -> None:
    # at FS 74: 2 in to the aft end and half the length; at BL 8: 1 in and half the width
    found = clearance_in(zone(), snapped("top", (74, 0), (68, 8)), (1.5, 1.0))
    assert found == pytest.approx([-3.5, -2.0])


def test_a_base_that_only_touches_has_no_clearance() -> None:
    assert clearance_in(zone(), snapped("top", (77.5, 0)), (1.5, 1.0)) == pytest.approx([0.0])


def test_on_a_side_the_width_of_the_base_lies_along_the_water_lines() -> None:
    side = zone(on="left", bl_m=None, wl_m=Range(*inch(45, 60)))
    found = clearance_in(side, snapped("left", (70, 0, 42), (70, 0, 50)), (1.5, 1.0))
    assert found == pytest.approx([2.0, -6.0])


def test_off_the_hull_the_clearance_is_not_known() -> None:
    assert math.isnan(clearance_in(zone(), snapped("top", (80, 40)), (0, 0))[0])


def test_several_regions_are_measured_at_once() -> None:
    plane = GroundPlane("copper foil", "top", Range(*inch(90, 100)), Range(*inch(-5, 5)))
    places = snapped("top", (80, 0), (85, 0))
    both = clearances_m([zone(), plane], places, np.zeros(2))
    np.testing.assert_allclose(both, [inch(4, 9), inch(10, 5)])


def test_a_material_is_known_by_its_name() -> None:
    scene = sample_facts(catalog=sample_catalog()).scene
    carbon = scene.material("carbon")
    assert carbon is not None and carbon.skin == "lossy"
    assert scene.material("unobtainium") is None


@pytest.mark.parametrize("wl_in", [50.0, math.nan])
def test_one_point_lies_where_many_places_do(wl_in: float) -> None:
    zones = [
        Zone("window", on="top", fs_m=Range(*inch(60, 120)), bl_m=Range(*inch(-12, 12))),
        Zone("hatch", on="top", fs_m=Range(*inch(60, 120))),
        Zone("fuel", on="top", wl_m=Range(*inch(40, 60))),
        Zone("door", on="top"),
    ]
    for zone in zones:
        for fs_in, bl_in in ((80, 0), (60, 12), (130, 0), (80, 13)):
            point = (fs_in * IN, bl_in * IN, wl_in * IN)
            places = Places("top", np.array([point]), np.array([[0.0, 0.0, 1.0]]))
            assert covers_point(zone, point) == covers(zone, places)[0]
