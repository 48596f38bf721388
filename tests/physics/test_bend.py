# SPDX-License-Identifier: Apache-2.0
"""Bends: the radius that fits a corner."""

from __future__ import annotations

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from rfplan.physics.bend import largest_bend_radius_m, least_bend_radius_m

STRAIGHTS = st.floats(0.01, 5.0)
TURNS = st.floats(0.01, 3.1)


@given(STRAIGHTS, TURNS)
def test_the_arc_touches_both_straights_in_their_middle(straight: float, turn: float) -> None:
    radius = float(largest_bend_radius_m(straight, turn))
    t = straight / 2.0
    towards = np.array([np.cos(turn), np.sin(turn)])
    start, end = np.array([-t, 0.0]), t * towards
    centre = np.array([-t, radius])
    assert np.linalg.norm(start - centre) == pytest.approx(radius)
    assert np.linalg.norm(end - centre) == pytest.approx(radius, rel=1e-6)
    assert np.dot(end - centre, towards) == pytest.approx(0.0, abs=1e-6 * max(1.0, radius))


@given(STRAIGHTS, TURNS, TURNS)
def test_a_sharper_turn_needs_a_tighter_bend(straight: float, first: float, second: float) -> None:
    easy, sharp = sorted((first, second))
    assert largest_bend_radius_m(straight, sharp) <= largest_bend_radius_m(straight, easy)


def test_a_right_angle_fits_half_the_straight() -> None:
    assert largest_bend_radius_m(0.2, np.pi / 2) == pytest.approx(0.1)


def test_several_corners_are_computed_at_once() -> None:
    radii = largest_bend_radius_m(np.array([0.2, 0.4]), np.pi / 2)
    np.testing.assert_allclose(radii, [0.1, 0.2])


@pytest.mark.parametrize("turn", [0.0, -0.1, np.pi, 3.2, np.nan])
def test_a_turn_that_is_none_or_all_the_way_back_is_refused(turn: float) -> None:
    with pytest.raises(ValueError, match="_rad must be positive"):
        largest_bend_radius_m(0.2, turn)


def test_a_bend_rule_counts_diameters() -> None:
    np.testing.assert_allclose(least_bend_radius_m(0.005, np.array([6.0, 10.0])), [0.03, 0.05])
