# SPDX-License-Identifier: Apache-2.0
"""Monopoles on a hull by rays against the exact cylinder: never optimistic, and how far off."""

from __future__ import annotations

from functools import cache

import numpy as np
import pytest

from rfplan.physics import skin_coupling
from rfplan.physics.coupling import friis_isolation_db, least_isolation_db
from rfplan.physics.cylinder_monopoles import cylinder_isolation_db
from rfplan.physics.mutual_impedance import HALF_WAVE_OHM, side_by_side_ohm
from rfplan.physics.surface_ray import Way, cylinder_way

UNIT_HZ = np.array([299_792_458.0 / (2.0 * np.pi)])
"""Frequency at which lengths are in units of 1/k."""


def both_ways(ka: float, phi: np.ndarray, kz: np.ndarray) -> Way:
    """Return the ways in both directions round a cylinder, in units of 1/k."""
    turns = ka * np.stack([phi, 2.0 * np.pi - phi], axis=-1)
    return cylinder_way(np.hypot(turns, kz[:, None]), ka, np.arctan2(kz[:, None], turns))


@cache
def points(ka: float) -> tuple[np.ndarray, np.ndarray, np.ndarray]:
    """Return places that nothing was fitted on, from kt = 2, and their exact isolation."""
    draw = np.random.default_rng(11)
    phi = draw.uniform(0.0, np.pi, 24)
    kz = draw.choice([0.0, 1.0], 24) * draw.uniform(0.0, 8.0, 24)
    far = np.hypot(ka * phi, kz) > 2.0
    phi, kz = phi[far], kz[far]
    return phi, kz, np.asarray(cylinder_isolation_db(ka, phi, kz))


@pytest.mark.parametrize(
    ("ka", "low_db", "high_db"),
    [(1.2, 6.0, 17.0), (3.3, 1.6, 9.0), (6.5, 0.5, 3.8)],
)
def test_the_model_for_pass_and_fail_is_never_optimistic(
    ka: float, low_db: float, high_db: float
) -> None:
    phi, kz, exact_db = points(ka)
    said = skin_coupling.skin_isolation(UNIT_HZ, both_ways(ka, phi, kz))
    better_db = exact_db - said.least_db
    assert np.min(better_db) > low_db
    assert np.max(better_db - said.phases_db) < high_db


@pytest.mark.parametrize("ka", [3.3, 6.5])
def test_the_best_estimate_errs_on_both_sides_by_little(ka: float) -> None:
    phi, kz, exact_db = points(ka)
    better = exact_db - skin_coupling.fitted_isolation_db(UNIT_HZ, both_ways(ka, phi, kz), ka)
    assert better.min() < 0.0
    assert np.sqrt(np.mean(better**2)) < 0.8


def test_the_quick_model_is_for_ranking_only() -> None:
    phi, kz = np.array([np.pi]), np.array([40.0])
    said = skin_coupling.shaded_isolation_db(UNIT_HZ, both_ways(8.0, phi, kz))
    assert cylinder_isolation_db(8.0, phi, kz) < said - 3.0


def test_two_equal_rays_give_six_decibels_less_than_one() -> None:
    ways = both_ways(14.0, np.array([np.pi]), np.array([0.0]))
    one = Way(*(np.asarray(part)[..., :1] for part in ways))
    both = skin_coupling.skin_isolation(UNIT_HZ, ways)
    alone = skin_coupling.skin_isolation(UNIT_HZ, one)
    assert alone.least_db - both.least_db == pytest.approx(6.02, abs=0.01)
    assert both.phases_db == pytest.approx(0.0, abs=1e-9)


def test_on_a_flat_skin_the_ray_is_the_plane() -> None:
    length = np.array([[3.0]])
    flat = Way(length, 0.0 * length, 0.0 * length)
    ratio = np.abs(side_by_side_ohm(3.0 / (2.0 * np.pi))) / HALF_WAVE_OHM.real
    said = skin_coupling.skin_isolation(UNIT_HZ, flat)
    assert said.least_db == pytest.approx(np.array([least_isolation_db(ratio)]), abs=0.002)


def test_pairs_and_frequencies_are_computed_at_once() -> None:
    frequency_hz = np.linspace(1.2e8, 1.6e9, 10)[:, None]
    ways = cylinder_way(np.full((7, 1, 2), 1.5), 0.6, 0.3)
    assert np.shape(skin_coupling.skin_isolation(frequency_hz, ways)) == (2, 7, 10)
    assert np.shape(skin_coupling.fitted_isolation_db(frequency_hz, ways, 0.6)) == (7, 10)
    assert np.shape(skin_coupling.shaded_isolation_db(frequency_hz, ways)) == (7, 10)


@cache
def along(ka: float) -> tuple[np.ndarray, np.ndarray, np.ndarray]:
    """Return places along and round a cylinder as far as an aircraft is long, and the exact."""
    phi, kz = (
        grid.ravel()
        for grid in np.meshgrid(np.radians([0.0, 10.0, 40.0, 100.0, 180.0]), [0.0, 3.0, 9.0, 26.0])
    )
    far = np.hypot(ka * phi, kz) > 1.2
    phi, kz = phi[far], kz[far]
    return phi, kz, np.asarray(cylinder_isolation_db(ka, phi, kz))


@pytest.mark.parametrize("ka", [0.9, 1.3, 2.4, 5.5])
def test_the_straight_line_is_no_bound_on_a_thin_hull_until_what_it_guides_is_taken_off(
    ka: float,
) -> None:
    phi, kz, exact_db = along(ka)
    distance = np.hypot(2.0 * ka * np.sin(phi / 2.0), kz)
    line_db = friis_isolation_db(UNIT_HZ, distance)
    guided_db = skin_coupling.guided_db(UNIT_HZ, both_ways(ka, phi, kz), distance)
    assert np.max(line_db - exact_db) > 2.0
    assert np.max(line_db - guided_db - exact_db) < 0.0


def test_a_wide_hull_guides_next_to_nothing_and_the_far_side_takes_nothing_off() -> None:
    near = skin_coupling.guided_db(UNIT_HZ, both_ways(400.0, np.zeros(1), np.full(1, 5.0)), 5.0)
    across = skin_coupling.guided_db(UNIT_HZ, both_ways(20.0, np.full(1, 3.0), np.zeros(1)), 39.9)
    assert float(near[0]) < 0.1
    assert float(across[0]) == 0.0
