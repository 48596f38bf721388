# SPDX-License-Identifier: Apache-2.0
"""Shortest ways on the loft: exact on a cylinder, no longer than straight ones, and an oracle."""

from __future__ import annotations

import os
from importlib import import_module
from itertools import combinations
from typing import Any

import numpy as np
import pytest
from drawn_aircraft import HULL
from hypothesis import given, settings
from hypothesis import strategies as st

from rfplan.physics.geodesic import girth_m, skin_ways
from rfplan.physics.skin_geometry import Hull, point_at_angle_m, skin_distance_m
from rfplan.physics.surface_ray import cylinder_way, helix_rad

RADIUS_M = 0.6
CYLINDER = Hull(
    np.array([0.0, 8.0]), *(np.full(2, r) for r in (RADIUS_M, -RADIUS_M, RADIUS_M, 2.0))
)
ROWS = np.array(HULL, dtype=float)
LOFT = Hull(*(ROWS[:, :4].T * 0.0254), ROWS[:, 4])

STATIONS = st.floats(0.5, 7.5)
TURNS = st.floats(-3.1, 3.1)


def on(hull: Hull, fs_m: object, angle_rad: object) -> np.ndarray:
    """Return skin points from stations and girth angles."""
    return point_at_angle_m(hull, np.asarray(fs_m, float), np.asarray(angle_rad, float))


def scattered(count: int, seed: int = 1) -> np.ndarray:
    """Return points all over the loft."""
    draw = np.random.default_rng(seed)
    fs = draw.uniform(LOFT.fs_m[0] + 0.05, LOFT.fs_m[-1] - 0.05, count)
    return on(LOFT, fs, draw.uniform(-np.pi, np.pi, count))


def all_pairs(points: np.ndarray) -> tuple[np.ndarray, np.ndarray]:
    """Return both ends of every pair."""
    first, second = np.array(list(combinations(range(len(points)), 2))).T
    return points[first], points[second]


@settings(max_examples=30)
@given(STATIONS, STATIONS, TURNS, TURNS)
def test_on_a_cylinder_both_ways_are_helices(a: float, b: float, start: float, end: float) -> None:
    turn = (end - start + np.pi) % (2.0 * np.pi) - np.pi
    turns = np.array([turn, turn - np.copysign(2.0 * np.pi, turn)])
    length = np.hypot(RADIUS_M * turns, b - a)
    if length.min() < 1e-3:
        return
    found = skin_ways(CYLINDER, on(CYLINDER, a, start), on(CYLINDER, b, end))
    helix = np.arctan2(abs(b - a), RADIUS_M * np.abs(turns))
    exact = cylinder_way(length, RADIUS_M, helix)
    assert found.length_m == pytest.approx(exact.length_m, rel=2e-4)
    assert found.bend_m13 == pytest.approx(exact.bend_m13, rel=1e-3, abs=1e-4)
    assert found.twist_rad == pytest.approx(exact.twist_rad, rel=2e-3, abs=1e-4)


def test_the_helix_angle_comes_out_of_the_way() -> None:
    ways = skin_ways(CYLINDER, on(CYLINDER, 1.0, 0.0), on(CYLINDER, 3.0, 1.0))
    assert helix_rad(ways)[0] == pytest.approx(np.arctan2(2.0, 0.6), abs=1e-3)


def test_no_way_is_longer_than_the_straight_one_in_station_and_angle() -> None:
    a, b = all_pairs(scattered(12))
    found = np.min(skin_ways(LOFT, a, b).length_m, axis=-1)
    straight = skin_distance_m(LOFT, a, b, steps=65)
    assert (found <= straight * (1.0 + 3e-3)).all()
    assert (found < straight * 0.99).any()
    assert (found >= np.linalg.norm(b - a, axis=-1) * (1.0 - 1e-9)).all()


def test_the_way_back_is_as_long_as_the_way_there() -> None:
    a, b = all_pairs(scattered(8, seed=4))
    there, back = skin_ways(LOFT, a, b), skin_ways(LOFT, b, a)
    assert there.length_m[:, 0] == pytest.approx(back.length_m[:, 0], rel=2e-3)


def test_more_nodes_hardly_change_the_shorter_way() -> None:
    a, b = all_pairs(scattered(10, seed=2))
    coarse, fine = (np.min(skin_ways(LOFT, a, b, n).length_m, axis=-1) for n in (17, 49))
    assert np.abs(coarse / fine - 1.0).max() < 4e-3
    assert np.median(np.abs(coarse / fine - 1.0)) < 5e-4


def test_a_pair_on_the_centre_line_of_a_symmetric_hull_has_two_equal_ways() -> None:
    ways = skin_ways(LOFT, on(LOFT, 2.8, 0.0), on(LOFT, 2.8, np.pi))
    assert ways.length_m[0] == pytest.approx(ways.length_m[1], rel=1e-6)
    assert ways.length_m[0] == pytest.approx(girth_of(2.8) / 2.0, rel=2e-3)
    assert np.all(ways.twist_rad < 1e-3)


def girth_of(fs_m: float) -> float:
    """Return the girth at a station of the loft between two equal sections."""
    return float(np.interp(fs_m, LOFT.fs_m, girth_m(LOFT)))


def test_a_way_along_the_top_of_a_tube_bends_nowhere_and_twists() -> None:
    ways = skin_ways(CYLINDER, on(CYLINDER, 1.0, 0.0), on(CYLINDER, 4.0, 0.0))
    assert ways.bend_m13[0] == pytest.approx(0.0, abs=1e-9)
    assert ways.twist_rad[0] == pytest.approx(3.0 / RADIUS_M, rel=1e-3)


def test_a_point_with_itself_has_no_way_and_the_girth() -> None:
    here = on(CYLINDER, 2.0, 0.3)
    ways = skin_ways(CYLINDER, here, here)
    assert ways.length_m == pytest.approx([0.0, 2.0 * np.pi * RADIUS_M], rel=1e-3, abs=1e-9)


def test_shapes_of_pairs_are_kept() -> None:
    a = on(CYLINDER, np.full((3, 1), 1.0), np.zeros((3, 1)))
    b = on(CYLINDER, np.full((3, 4), 2.0), np.ones((3, 4)))
    assert skin_ways(CYLINDER, a, b).length_m.shape == (3, 4, 2)


def test_an_even_number_of_nodes_is_refused() -> None:
    with pytest.raises(ValueError, match="odd"):
        skin_ways(CYLINDER, on(CYLINDER, 1.0, 0.0), on(CYLINDER, 2.0, 0.0), nodes=16)


@pytest.mark.thorough
@pytest.mark.skipif(os.environ.get("RFPLAN_THOROUGH") != "1", reason="RFPLAN_THOROUGH is not 1")
def test_the_shorter_way_is_within_half_a_per_cent_of_an_exact_geodesic() -> None:
    library: Any = import_module("pygeodesic.geodesic")  # of the extra [oracles]
    stations = np.unique(np.concatenate([LOFT.fs_m, np.linspace(*LOFT.fs_m[[0, -1]], 70)]))
    round_ = np.linspace(-np.pi, np.pi, 72, endpoint=False)
    nodes = on(LOFT, stations[:, None], round_)
    ids = np.arange(nodes[..., 0].size).reshape(len(stations), -1)
    right = np.roll(ids, -1, axis=1)
    quads = (ids[:-1], ids[1:], right[1:]), (ids[:-1], right[1:], right[:-1])
    faces = np.concatenate([np.stack(corners, axis=-1).reshape(-1, 3) for corners in quads])
    vertices = nodes.reshape(-1, 3)
    picked = np.random.default_rng(3).choice(ids[4:-4].ravel(), 12, replace=False)
    exact = library.PyGeodesicAlgorithmExact(vertices, faces)
    for place, source in enumerate(picked[:-1]):
        targets = picked[place + 1 :]
        oracle_m, _ = exact.geodesicDistances(np.array([source]), targets)
        ends = np.broadcast_to(vertices[source], (len(targets), 3))
        found_m = np.min(skin_ways(LOFT, ends, vertices[targets]).length_m, axis=-1)
        assert np.abs(found_m / oracle_m - 1.0).max() < 5e-3
