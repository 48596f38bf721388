# SPDX-License-Identifier: Apache-2.0
"""The loft of superellipses: points, normals, gaps and ways, against closed forms."""

from __future__ import annotations

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from rfplan.physics.skin_geometry import (
    Hull,
    base_gap_m,
    girth_angle_rad,
    point_at_angle_m,
    section_at,
    skin_distance_m,
    skin_normal,
    skin_point_m,
    superellipse_offset_m,
)

SIDES = ("top", "belly", "left", "right")


def hull(*rows: tuple[float, float, float, float, float]) -> Hull:
    """Return a hull from rows of station, half width, bottom, top and roundness."""
    return Hull(*np.array(rows).T)


def cylinder(half_width: float, half_height: float, roundness: float = 2.0) -> Hull:
    """Return a hull of one section from FS 0 to 10 round WL 1."""
    section = (half_width, 1.0 - half_height, 1.0 + half_height, roundness)
    return hull((0.0, *section), (10.0, *section))


TAPERED = hull((0.0, 0.2, 0.8, 1.4, 2.2), (2.0, 0.6, 0.5, 1.9, 3.0), (6.0, 0.1, 1.2, 1.5, 2.0))
STATIONS = st.floats(0.0, 6.0)
SHARES = st.floats(-0.999, 0.999)


def point(one: Hull, on: str, fs_m: float, share: float) -> np.ndarray:
    """Return the point of a side at a share of its reach across."""
    half_width, middle, half_height, _ = section_at(one, np.array([fs_m]))
    across = middle + share * half_height if on in ("left", "right") else share * half_width
    return skin_point_m(one, on, np.array([fs_m]), across)


# ----- sections and points


def test_between_two_sections_all_four_numbers_run_straight() -> None:
    # half way from (0.2; 0.8 .. 1.4; 2.2) to (0.6; 0.5 .. 1.9; 3.0)
    found = section_at(TAPERED, np.array([1.0]))
    np.testing.assert_allclose(np.ravel(found), [0.4, (0.65 + 1.65) / 2, 0.5, 2.6])


def test_ahead_of_the_first_and_aft_of_the_last_section_there_is_no_hull() -> None:
    half_width = section_at(TAPERED, np.array([-0.001, 0.0, 6.0, 6.001]))[0]
    np.testing.assert_array_equal(np.isnan(half_width), [True, False, False, True])


@settings(max_examples=60, deadline=None)
@given(st.sampled_from(SIDES), STATIONS, SHARES)
def test_every_point_of_the_skin_lies_on_its_superellipse(
    on: str, fs_m: float, share: float
) -> None:
    ((x, y, z),) = point(TAPERED, on, fs_m, share)
    half_width, middle, half_height, n = (
        float(v[0]) for v in section_at(TAPERED, np.array([fs_m]))
    )
    assert x == fs_m
    assert abs(y / half_width) ** n + abs((z - middle) / half_height) ** n == pytest.approx(1.0)


@pytest.mark.parametrize(
    ("on", "axis", "sign"), [("top", 2, 1), ("belly", 2, -1), ("left", 1, -1), ("right", 1, 1)]
)
def test_each_side_is_the_half_it_says(on: str, axis: int, sign: int) -> None:
    centre = np.array([0.0, 0.0, 1.0])
    for share in (-0.7, 0.0, 0.7):
        (found,) = point(cylinder(0.5, 0.8), on, 5.0, share)
        assert (found - centre)[axis] * sign > 0.0


def test_an_ellipse_has_its_closed_form() -> None:
    # z = 0.8 sqrt(1 - (y / 0.5)^2): at y = 0.3 it is 0.64
    (found,) = skin_point_m(cylinder(0.5, 0.8), "top", np.array([5.0]), np.array([0.3]))
    np.testing.assert_allclose(found, [5.0, 0.3, 1.64])
    (side,) = skin_point_m(cylinder(0.5, 0.8), "left", np.array([5.0]), np.array([1.64]))
    np.testing.assert_allclose(side, [5.0, -0.3, 1.64])


def test_a_larger_exponent_fills_the_corner() -> None:
    reach = superellipse_offset_m(
        np.array(0.8), np.array(1.0), np.array(1.0), np.array([2.0, 4.0, 50.0])
    )
    np.testing.assert_allclose(reach, [0.6, (1 - 0.8**4) ** 0.25, 1.0], atol=1e-6)


def test_beyond_its_half_axis_there_is_no_skin() -> None:
    one = cylinder(0.5, 0.8)
    found = skin_point_m(one, "top", np.array([5.0, 5.0, -1.0]), np.array([0.5, 0.51, 0.0]))
    np.testing.assert_array_equal(np.isnan(found).any(axis=-1), [False, True, True])


def test_a_side_that_is_none_is_refused() -> None:
    with pytest.raises(ValueError, match="no side 'roof'"):
        skin_point_m(cylinder(0.5, 0.8), "roof", np.array([5.0]), np.array([0.0]))


# ----- normals


@settings(max_examples=60, deadline=None)
@given(st.sampled_from(SIDES), st.floats(1.0, 9.0), st.floats(-0.9, 0.9))
def test_normals_of_an_elliptic_cylinder_are_its_gradient(
    on: str, fs_m: float, share: float
) -> None:
    a, b = 0.5, 0.8
    one = cylinder(a, b)
    ((_, y, z),) = point(one, on, fs_m, share)
    gradient = np.array([0.0, y / a**2, (z - 1.0) / b**2])
    across = z if on in ("left", "right") else y
    (normal,) = skin_normal(one, on, np.array([fs_m]), np.array([across]))
    np.testing.assert_allclose(normal, gradient / np.linalg.norm(gradient), atol=2e-5)


def test_a_cone_tilts_its_normals_forward_or_aft() -> None:
    # radius falls by 0.1 a metre: the normal leans aft by the same slope
    cone = hull((0.0, 1.0, 0.0, 2.0, 2.0), (5.0, 0.5, 0.5, 1.5, 2.0))
    (normal,) = skin_normal(cone, "top", np.array([2.5]), np.array([0.0]))
    np.testing.assert_allclose(normal, np.array([0.1, 0.0, 1.0]) / np.hypot(0.1, 1.0), atol=1e-5)


def test_at_the_last_station_the_normal_is_still_found() -> None:
    (normal,) = skin_normal(cylinder(0.5, 0.8), "top", np.array([10.0]), np.array([0.0]))
    np.testing.assert_allclose(normal, [0.0, 0.0, 1.0], atol=1e-9)


# ----- flat bases


@pytest.mark.parametrize(("radius", "width"), [(0.5, 0.05), (0.5, 0.10), (0.2, 0.05)])
def test_the_gap_on_a_round_tube_is_the_sagitta_of_the_width(radius: float, width: float) -> None:
    # r - sqrt(r^2 - (w / 2)^2); the length lies along the tube and leaves no gap
    place = (np.array([5.0]), np.array([0.0]))
    (gap,) = base_gap_m(cylinder(radius, radius), "top", place, (0.3, width))
    assert gap == pytest.approx(radius - np.sqrt(radius**2 - (width / 2) ** 2), rel=1e-6)


def test_a_bulge_along_the_hull_adds_its_own_sagitta() -> None:
    # a crease at FS 1: the roof falls 0.2 a metre either way, 0.1 m ahead and aft of it 0.02
    roof = hull((0.0, 9.0, 0.0, 1.8, 2.0), (1.0, 9.0, 0.0, 2.0, 2.0), (2.0, 9.0, 0.0, 1.8, 2.0))
    place = (np.array([1.0]), np.array([0.0]))
    (gap,) = base_gap_m(roof, "top", place, (0.2, 1e-6))
    assert gap == pytest.approx(0.02, rel=1e-6)


def test_a_base_that_reaches_beyond_the_skin_has_no_known_gap() -> None:
    (gap,) = base_gap_m(cylinder(0.5, 0.5), "top", (np.array([5.0]), np.array([0.49])), (0.1, 0.1))
    assert np.isnan(gap)


# ----- ways along the skin


@settings(max_examples=60, deadline=None)
@given(STATIONS, st.floats(-3.1, 3.1))
def test_a_point_at_an_angle_is_found_at_that_angle_for_ellipses(fs_m: float, angle: float) -> None:
    one = cylinder(0.5, 0.8)
    found = point_at_angle_m(one, np.array([fs_m]), np.array([angle]))
    np.testing.assert_allclose(girth_angle_rad(one, found), [angle], atol=1e-9)


@settings(max_examples=60, deadline=None)
@given(STATIONS, st.floats(-3.1, 3.1))
def test_a_point_at_an_angle_lies_on_the_skin(fs_m: float, angle: float) -> None:
    ((_, y, z),) = point_at_angle_m(TAPERED, np.array([fs_m]), np.array([angle]))
    half_width, middle, half_height, n = (
        float(v[0]) for v in section_at(TAPERED, np.array([fs_m]))
    )
    assert abs(y / half_width) ** n + abs((z - middle) / half_height) ** n == pytest.approx(1.0)


def on_tube(radius: float, fs_m: float, angle: float) -> np.ndarray:
    """Return a point of a round tube round WL 1."""
    return np.array([fs_m, radius * np.sin(angle), 1.0 + radius * np.cos(angle)])


@settings(max_examples=60, deadline=None)
@given(st.floats(0.0, 10.0), st.floats(0.0, 10.0), st.floats(-3.1, 3.1), st.floats(-3.1, 3.1))
def test_on_a_round_tube_the_way_is_a_helix(a: float, b: float, one: float, other: float) -> None:
    radius = 0.6
    turn = abs(one - other)
    helix = np.hypot(b - a, radius * min(turn, 2 * np.pi - turn))
    found = skin_distance_m(
        cylinder(radius, radius), on_tube(radius, a, one), on_tube(radius, b, other)
    )
    # 16 chords of at most pi / 16 each are up to 0.17 % shorter than the arc
    assert 0.9983 * helix - 1e-9 <= found <= helix + 1e-9


def test_more_steps_come_nearer_to_the_arc() -> None:
    ends = on_tube(0.6, 0.0, 0.0), on_tube(0.6, 0.0, np.pi)
    one = cylinder(0.6, 0.6)
    coarse, fine = (float(skin_distance_m(one, *ends, steps=steps)) for steps in (17, 257))
    assert coarse < fine < 0.6 * np.pi
    assert fine == pytest.approx(0.6 * np.pi, rel=1e-5)


def test_the_shorter_way_round_is_taken() -> None:
    # from 170 deg right to 170 deg left it is 20 deg under the belly, not 340 over the top
    right, left = np.deg2rad(170.0), np.deg2rad(-170.0)
    found = skin_distance_m(cylinder(0.6, 0.6), on_tube(0.6, 1.0, right), on_tube(0.6, 1.0, left))
    assert found == pytest.approx(0.6 * np.deg2rad(20.0), rel=2e-3)


@settings(max_examples=60, deadline=None)
@given(STATIONS, STATIONS, st.floats(-3.1, 3.1), st.floats(-3.1, 3.1))
def test_a_way_is_never_shorter_than_the_straight_line_and_the_same_both_ways(
    a: float, b: float, one: float, other: float
) -> None:
    start = point_at_angle_m(TAPERED, np.array(a), np.array(one))
    end = point_at_angle_m(TAPERED, np.array(b), np.array(other))
    there = float(skin_distance_m(TAPERED, start, end))
    assert there >= np.linalg.norm(end - start) - 1e-9
    assert there == pytest.approx(float(skin_distance_m(TAPERED, end, start)), abs=1e-9)


def test_pairs_are_measured_at_once_as_they_are_alone() -> None:
    rng = np.random.default_rng(5)
    a, b = (
        point_at_angle_m(TAPERED, rng.uniform(0, 6, (3, 4)), rng.uniform(-3, 3, (3, 4)))
        for _ in range(2)
    )
    together = skin_distance_m(TAPERED, a, b)
    assert together.shape == (3, 4)
    for index in np.ndindex(3, 4):
        assert together[index] == pytest.approx(float(skin_distance_m(TAPERED, a[index], b[index])))


def test_a_point_off_the_hull_has_no_way() -> None:
    nowhere = np.array([np.nan, np.nan, np.nan])
    assert np.isnan(skin_distance_m(cylinder(0.6, 0.6), nowhere, on_tube(0.6, 1.0, 0.0)))
