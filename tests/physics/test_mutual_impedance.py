# SPDX-License-Identifier: Apache-2.0
"""Mutual impedance against quadrature of field times current, and its symmetries."""

from __future__ import annotations

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from rfplan.physics import mutual_impedance
from rfplan.physics.constants import VACUUM_IMPEDANCE_OHM

LENGTHS = st.floats(0.1, 0.9)
SPACINGS = st.floats(0.05, 3.0)
STAGGERS = st.floats(-2.0, 2.0)


def quadrature_ohm(length_a: float, length_b: float, spacing: float, stagger: float) -> complex:
    """Return the impedance by Gauss quadrature of the field of one along the other."""
    k, half_a, half_b = 2.0 * np.pi, length_a / 2.0, length_b / 2.0
    node, weight = np.polynomial.legendre.leggauss(60)
    total = 0.0j
    for start, stop in ((stagger - half_b, stagger), (stagger, stagger + half_b)):
        z = (start + stop) / 2.0 + (stop - start) / 2.0 * node
        waves = [np.hypot(spacing, z - at) for at in (half_a, -half_a, 0.0)]
        field = sum(np.exp(-1j * k * r) / r for r in waves[:2])
        field -= 2.0 * np.cos(k * half_a) * np.exp(-1j * k * waves[2]) / waves[2]
        current = np.sin(k * (half_b - np.abs(z - stagger)))
        total += complex(np.sum(field * current * weight) * (stop - start) / 2.0)
    ends = np.sin(k * half_a) * np.sin(k * half_b)
    return 1j * VACUUM_IMPEDANCE_OHM / (4.0 * np.pi) * total / ends


@pytest.mark.parametrize(
    "place", [(0.5, 0.5, 0.3, 0.0), (0.46, 0.63, 0.3, 0.41), (0.3, 0.7, 0.5, -0.9)]
)
def test_the_closed_form_is_the_integral(place: tuple[float, float, float, float]) -> None:
    expected = quadrature_ohm(*place)
    assert mutual_impedance.dipole_mutual_ohm(*place) == pytest.approx(expected, rel=1e-9)


@given(LENGTHS, LENGTHS, SPACINGS, STAGGERS)
def test_which_dipole_sends_does_not_matter(a: float, b: float, d: float, s: float) -> None:
    there = mutual_impedance.dipole_mutual_ohm(a, b, d, s)
    assert mutual_impedance.dipole_mutual_ohm(b, a, d, -s) == pytest.approx(
        complex(there), rel=1e-7
    )


@given(SPACINGS)
def test_side_by_side_is_the_general_form_without_stagger(spacing: float) -> None:
    general = mutual_impedance.dipole_mutual_ohm(0.5, 0.5, spacing)
    assert mutual_impedance.side_by_side_ohm(spacing) == pytest.approx(complex(general), rel=1e-9)


def test_at_no_distance_it_is_the_self_impedance() -> None:
    near = complex(mutual_impedance.side_by_side_ohm(1e-6))
    assert near == pytest.approx(mutual_impedance.HALF_WAVE_OHM, abs=1e-3)


def test_far_away_it_falls_like_one_over_the_distance() -> None:
    near, far = np.abs(mutual_impedance.side_by_side_ohm(np.array([50.0, 100.0])))
    assert near / far == pytest.approx(2.0, rel=1e-3)


def test_far_coupling_is_that_of_two_gains_of_a_half_wave_dipole() -> None:
    """P2/P1 = (G wavelength / 4 pi d)^2 with G = eta / (pi R)."""
    spacing, resistance = 200.0, mutual_impedance.HALF_WAVE_OHM.real
    coupled = abs(mutual_impedance.side_by_side_ohm(spacing)) / (2.0 * resistance)
    gain = VACUUM_IMPEDANCE_OHM / (np.pi * resistance)
    assert 10.0 * np.log10(gain) == pytest.approx(2.15, abs=0.005)
    assert coupled == pytest.approx(gain / (4.0 * np.pi * spacing), rel=1e-4)


def test_a_monopole_has_half_the_impedance_of_its_dipole() -> None:
    monopole = mutual_impedance.monopole_mutual_ohm(0.25, 0.2, 0.7)
    dipole = mutual_impedance.dipole_mutual_ohm(0.5, 0.4, 0.7)
    assert monopole == pytest.approx(complex(dipole) / 2.0)


def test_pairs_and_frequencies_are_computed_at_once() -> None:
    spacing = np.linspace(0.2, 3.0, 12).reshape(4, 3)
    assert mutual_impedance.dipole_mutual_ohm(0.5, 0.4, spacing).shape == (4, 3)


def test_dipoles_without_length_or_with_a_negative_distance_are_refused() -> None:
    with pytest.raises(ValueError, match="length_a_wl"):
        mutual_impedance.dipole_mutual_ohm(0.0, 0.5, 1.0)
    with pytest.raises(ValueError, match="spacing_wl"):
        mutual_impedance.dipole_mutual_ohm(0.5, 0.5, -1.0)
