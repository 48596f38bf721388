# SPDX-License-Identifier: Apache-2.0
"""Rays over a curved skin against the exact cylinder, the axis series and the plane."""

from __future__ import annotations

from functools import cache

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from rfplan.physics import surface_ray
from rfplan.physics.cylinder_exact import dipole_field
from rfplan.physics.fock import hard_fock
from rfplan.physics.surface_ray import Way, cylinder_way, ray_ratio

UNIT_HZ = 299_792_458.0 / (2.0 * np.pi)
"""Frequency at which lengths are in units of 1/k."""

PHI_RAD = np.radians([0, 5, 20, 45, 75, 100, 140, 180])
KZ = np.array([0.0, 2.5, 6.0, 15.0])


def both_ways(ka: float, phi: np.ndarray, kz: np.ndarray) -> Way:
    """Return the ways in both directions round a cylinder, in units of 1/k."""
    turns = ka * np.stack([phi, 2.0 * np.pi - phi], axis=-1)
    return cylinder_way(np.hypot(turns, kz[:, None]), ka, np.arctan2(kz[:, None], turns))


def error_db(ka: float, phi: np.ndarray, kz: np.ndarray) -> np.ndarray:
    """Return how much stronger the rays together are than the exact field."""
    ways = both_ways(ka, phi, kz)
    length = np.asarray(ways.length_m)
    rays = np.sum(ray_ratio(UNIT_HZ, ways) * np.exp(-1j * length) / length, axis=-1)
    return 20.0 * np.log10(np.abs(rays) / exact(ka, tuple(phi), tuple(kz)))


@cache
def exact(ka: float, phi: tuple[float, ...], kz: tuple[float, ...]) -> np.ndarray:
    """Return the magnitude of the exact field."""
    return np.abs(dipole_field(ka, np.array(phi), np.array(kz)))


def everywhere(ka: float) -> tuple[np.ndarray, np.ndarray]:
    """Return angles and distances along the cylinder, none too near."""
    phi, kz = (grid.ravel() for grid in np.meshgrid(PHI_RAD, KZ))
    far = np.hypot(ka * phi, kz) >= 2.5
    return phi[far], kz[far]


@pytest.mark.parametrize(
    ("ka", "low_db", "high_db"), [(2, -0.7, 0.7), (8, -0.15, 0.5), (15, -0.1, 0.55)]
)
def test_rays_are_within_half_a_decibel_of_the_exact_cylinder(
    ka: float, low_db: float, high_db: float
) -> None:
    error = error_db(ka, *everywhere(ka))
    assert low_db < error.min() and error.max() < high_db


def test_the_weight_that_was_recalled_is_optimistic(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(surface_ray, "TWIST_TERM", 1.0)
    assert error_db(8, *everywhere(8)).min() < -1.0


def test_without_the_curvature_term_thin_hulls_are_underrated(
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    with_it = error_db(2, *everywhere(2)).min()
    monkeypatch.setattr(surface_ray, "CURVATURE_TERM", 0.0)
    assert error_db(2, *everywhere(2)).min() < with_it - 0.8


@pytest.mark.parametrize("ka", [4.0, 8.0])
def test_long_axial_ways_are_never_underrated(ka: float) -> None:
    error = error_db(ka, np.zeros(3), ka**2 * np.array([1.25, 5.0, 20.0]))
    assert error.min() > -0.02
    assert error[:2].max() < 0.1 and error[2] < 0.8


def test_without_the_last_term_long_axial_ways_are(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(surface_ray, "_long_axis", lambda *_: 0.0)
    assert error_db(8.0, np.zeros(1), np.array([320.0]))[0] < -0.8


def test_rays_on_the_axis_follow_the_series() -> None:
    kt, ka = np.array([40.0, 100.0, 300.0]), 60.0
    ray = ray_ratio(UNIT_HZ, cylinder_way(kt, ka, np.pi / 2))
    assert np.abs(ray + 1j / kt - surface_ray.axis_series(kt, ka)).max() < 1.2e-3


def test_the_short_form_stays_near_the_full_one() -> None:
    for helix in np.radians([0.0, 30.0, 60.0, 89.0, 90.0]):
        short = surface_ray.cylinder_ray_ratio(30.0, 15.0, helix)
        full = surface_ray.full_cylinder_ray_ratio(30.0, 15.0, helix)
        assert abs(short - full) < 0.01


def test_a_flat_way_is_the_plane() -> None:
    kt = np.array([1.2, 5.0, 80.0])
    q = 1j / kt
    assert ray_ratio(UNIT_HZ, Way(kt, 0.0 * kt, 0.0 * kt)) == pytest.approx(1.0 - q + q**2)


def test_far_round_a_large_cylinder_only_the_hard_wave_is_left() -> None:
    way = cylinder_way(np.array(400.0), 400.0, 0.0)
    xi = surface_ray.shade_parameter(UNIT_HZ, way.bend_m13)
    assert ray_ratio(UNIT_HZ, way) == pytest.approx(complex(hard_fock(xi)), rel=0.03)


@given(st.floats(0.05, 20.0), st.floats(0.2, 2.0), st.floats(0.01, np.pi / 2 - 0.01))
def test_a_way_tells_its_helix_and_its_cylinder(length: float, radius: float, helix: float) -> None:
    way = cylinder_way(length, radius, helix)
    assert surface_ray.helix_rad(way) == pytest.approx(helix, abs=1e-6)
    assert surface_ray.mean_curvature_per_m(way) == pytest.approx(1.0 / radius)


def test_arrays_broadcast_and_give_what_single_calls_give() -> None:
    ways = cylinder_way(np.array([[0.5], [1.5]]), 0.6, 0.4)
    frequency_hz = np.array([125e6, 330e6, 1090e6])
    together = ray_ratio(frequency_hz, ways)
    assert together.shape == (2, 3)
    alone = ray_ratio(330e6, cylinder_way(1.5, 0.6, 0.4))
    assert together[1, 1] == pytest.approx(complex(alone))


def test_a_way_without_length_is_refused() -> None:
    with pytest.raises(ValueError, match="length_m"):
        ray_ratio(1e9, Way(0.0, 0.0, 0.0))
