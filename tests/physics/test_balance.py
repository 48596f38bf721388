# SPDX-License-Identifier: Apache-2.0
"""Weight and balance of a small change."""

from __future__ import annotations

import math
from itertools import product

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from rfplan.physics.balance import (
    cg_bounds_m,
    is_negligible,
    mass_to_reach_kg,
    moment_change_kg_m,
    negligible_mass_kg,
    new_cg_m,
    on_mac_ratio,
)

POUND = 0.45359237

masses = st.floats(0.01, 50.0)
arms = st.floats(-2.0, 12.0)


@given(st.floats(300.0, 5000.0), arms, masses, arms)
def test_the_cg_lies_between_where_it_was_and_where_mass_was_put(
    empty: float, cg: float, mass: float, arm: float
) -> None:
    after = float(new_cg_m(empty, cg, mass, mass * arm))
    assert min(cg, arm) - 1e-9 <= after <= max(cg, arm) + 1e-9


@given(st.floats(300.0, 5000.0), arms, masses, arms)
def test_what_is_put_in_and_taken_out_again_leaves_the_cg(
    empty: float, cg: float, mass: float, arm: float
) -> None:
    there = float(new_cg_m(empty, cg, mass, mass * arm))
    back = float(new_cg_m(empty + mass, there, -mass, -mass * arm))
    assert back == pytest.approx(cg, abs=1e-9)


@given(masses, arms, arms)
def test_an_item_that_moves_brings_the_moment_of_its_way(
    mass: float, old: float, new: float
) -> None:
    moved = moment_change_kg_m(np.array([-mass, mass]), np.array([old, new]))
    assert moved == pytest.approx(mass * (new - old), abs=1e-9)


def test_no_items_have_no_moment_and_lists_have_to_pair_up() -> None:
    assert moment_change_kg_m(np.array([]), np.array([])) == 0.0
    with pytest.raises(ValueError, match="pair up"):
        moment_change_kg_m(np.array([1.0]), np.array([1.0, 2.0]))


@pytest.mark.parametrize(
    ("empty_lb", "line_lb"), [(4999.9, 1.0), (5000.1, 2.0), (50000.0, 2.0), (50001.0, 5.0)]
)
def test_the_negligible_weight_rises_in_steps(empty_lb: float, line_lb: float) -> None:
    assert negligible_mass_kg(empty_lb * POUND) == pytest.approx(line_lb * POUND)


@pytest.mark.parametrize(
    ("change_lb", "shift_in", "negligible"),
    [
        (0.9, 0.01, True),
        (1.1, 0.01, False),
        (0.9, 0.0443, False),
        (-0.9, -0.01, True),
        (-1.1, 0, False),
    ],
)
def test_a_change_is_negligible_only_where_both_criteria_hold(
    change_lb: float, shift_in: float, negligible: bool
) -> None:
    told = is_negligible(1600 * POUND, change_lb * POUND, shift_in * 0.0254, 58.8 * 0.0254)
    assert told is negligible


@given(st.floats(300.0, 5000.0), st.floats(1.0, 5.0), st.floats(0.01, 1.0), st.floats(0.1, 8.0))
def test_the_mass_that_reaches_a_limit_just_reaches_it(
    empty: float, cg: float, margin: float, beyond: float
) -> None:
    limit = cg + margin
    arm = limit + beyond
    mass = mass_to_reach_kg(empty, cg, limit, arm)
    assert float(new_cg_m(empty, cg, mass, mass * arm)) == pytest.approx(limit, abs=1e-9)


def test_no_mass_ahead_of_a_limit_reaches_it() -> None:
    assert mass_to_reach_kg(1000.0, 2.0, 2.5, 2.4) == math.inf
    assert mass_to_reach_kg(1000.0, 2.0, 1.5, 1.6) == math.inf
    assert mass_to_reach_kg(1000.0, 2.0, 1.5, 1.0) == pytest.approx(1000.0)


def test_a_station_on_the_chord_is_told_from_its_leading_edge() -> None:
    assert on_mac_ratio(3.0, 2.0, 4.0) == 0.25
    with pytest.raises(ValueError, match="mac_m"):
        on_mac_ratio(3.0, 2.0, 0.0)


def test_an_aircraft_that_weighs_nothing_is_refused() -> None:
    with pytest.raises(ValueError, match="mass_after_kg"):
        new_cg_m(10.0, 1.0, -10.0, 0.0)
    with pytest.raises(ValueError, match="empty_kg"):
        negligible_mass_kg(0.0)


@given(
    st.lists(
        st.tuples(st.floats(-2.0, 2.0), st.floats(0.0, 2.0), st.floats(0.0, 12.0)),
        min_size=1,
        max_size=6,
    )
)
def test_bounded_masses_move_the_balance_no_further_than_the_worst_of_all_their_ends(
    items: list[tuple[float, float, float]],
) -> None:
    least, arms = (np.array([item[column] for item in items]) for column in (0, 2))
    most = least + np.array([item[1] for item in items])
    every = [
        new_cg_m(300.0, 4.0, sum(masses), float(np.dot(masses, arms)))
        for masses in product(*zip(least, most, strict=True))
    ]
    foremost, aftmost = cg_bounds_m(300.0, 4.0, least, most, arms)
    assert (foremost, aftmost) == (pytest.approx(min(every)), pytest.approx(max(every)))


def test_a_mass_that_could_outweigh_the_aircraft_has_no_balance() -> None:
    with pytest.raises(ValueError, match="least_mass_kg"):
        cg_bounds_m(1.0, 2.0, np.array([-1.0]), np.array([0.0]), np.array([3.0]))
