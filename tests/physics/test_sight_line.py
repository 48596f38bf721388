# SPDX-License-Identifier: Apache-2.0
"""What stands in a straight line: the hull, a plate, and the detour over its edge."""

from __future__ import annotations

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from rfplan.physics.sight_line import passes_clear, plate_detours_m
from rfplan.physics.skin_geometry import Hull, point_at_angle_m

TUBE = Hull(np.array([0.0, 8.0]), *(np.full(2, r) for r in (0.6, -0.6, 0.6, 2.0)))
FIN = np.array([[[3.0, 0.0, 0.0], [3.0, 0.0, 1.5], [4.0, 0.0, 1.5], [4.0, 0.0, 0.0]]])
"""Upright on the centre line from its root at WL 0 up to 1.5 m."""


def line(a: tuple[float, ...], b: tuple[float, ...]) -> tuple[np.ndarray, np.ndarray]:
    """Return one line."""
    return np.array([a]), np.array([b])


def test_a_line_through_a_round_hull_is_not_clear_and_one_above_it_is() -> None:
    top, belly = (point_at_angle_m(TUBE, np.array([2.0]), np.array([at])) for at in (0.0, np.pi))
    above = np.array([[6.0, 0.0, 2.0]])
    assert not passes_clear(TUBE, top, belly)[0]
    assert passes_clear(TUBE, top, above)[0]


def test_two_points_on_the_top_line_of_a_tube_see_each_other() -> None:
    a, b = (point_at_angle_m(TUBE, np.array([at]), np.array([0.0])) for at in (1.0, 5.0))
    assert passes_clear(TUBE, a, b)[0]


def test_a_line_beside_a_plate_needs_no_detour() -> None:
    assert plate_detours_m(*line((1.0, 1.0, 1.0), (6.0, 0.5, 1.0)), FIN)[0, 0] == 0.0
    assert plate_detours_m(*line((3.5, 1.0, 2.0), (3.5, -1.0, 2.0)), FIN)[0, 0] == 0.0


def test_the_detour_leads_over_the_nearest_free_edge() -> None:
    a, b = line((3.5, 1.0, 1.2), (3.5, -1.0, 1.2))
    assert plate_detours_m(a, b, FIN)[0, 0] == pytest.approx(2.0 * np.hypot(1.0, 0.3) - 2.0)


def test_no_way_leads_over_the_root() -> None:
    a, b = line((3.5, 1.0, 0.1), (3.5, -1.0, 0.1))
    round_the_front = 2.0 * np.hypot(1.0, 0.5) - 2.0
    assert plate_detours_m(a, b, FIN)[0, 0] == pytest.approx(round_the_front)


@given(st.floats(0.05, 0.95), st.floats(0.05, 1.45), st.floats(0.2, 3.0), st.floats(0.2, 3.0))
def test_the_detour_is_the_least_over_points_of_the_edges(
    along: float, up: float, right: float, left: float
) -> None:
    a, b = line((3.0 + along, right, up), (3.0 + along, -left, up))
    edges = [
        FIN[0, i] + np.linspace(0.0, 1.0, 401)[:, None] * (FIN[0, i + 1] - FIN[0, i])
        for i in range(3)
    ]
    ways = [np.linalg.norm(e - a, axis=1) + np.linalg.norm(e - b, axis=1) for e in edges]
    least = min(way.min() for way in ways) - np.linalg.norm(b - a)
    assert plate_detours_m(a, b, FIN)[0, 0] == pytest.approx(least, abs=1e-4)


def test_every_line_is_tried_against_every_plate() -> None:
    a = np.array([[3.5, 1.0, 1.0], [3.5, 1.0, 5.0], [0.5, 1.0, 1.0]])
    b = a * np.array([1.0, -1.0, 1.0])
    found = plate_detours_m(a, b, np.concatenate([FIN, FIN - [3.0, 0.0, 0.0]]))
    assert found.shape == (3, 2)
    assert (found > 0.0).tolist() == [[True, False], [False, False], [False, True]]


def test_an_aircraft_without_plates_blocks_nothing() -> None:
    assert plate_detours_m(*line((0, 0, 0), (1, 1, 1)), np.zeros((0, 4, 3))).shape == (1, 0)
