# SPDX-License-Identifier: Apache-2.0
"""From mutual impedance to isolation: limits, order of the bounds, and NEC2 values kept."""

from __future__ import annotations

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from rfplan.physics import coupling
from rfplan.physics.free_space import wavelength_m
from rfplan.physics.mutual_impedance import HALF_WAVE_OHM, side_by_side_ohm

NEC_SELF_OHM = 42.529 + 24.632j
"""A quarter-wave monopole of radius wavelength/1000 by NEC2, 21 segments."""

NEC_MATCHED_DB = {(1090e6, 1.0): 28.871, (1090e6, 3.0): 38.379, (125e6, 0.5): 7.64}


@pytest.mark.parametrize("place", NEC_MATCHED_DB)
def test_the_matched_isolation_of_nec2_is_met(place: tuple[float, float]) -> None:
    frequency_hz, distance_m = place
    mutual_ohm = 0.5 * side_by_side_ohm(distance_m / wavelength_m(frequency_hz))
    scaled_ohm = mutual_ohm * NEC_SELF_OHM.real / (0.5 * HALF_WAVE_OHM.real)
    found = coupling.matched_isolation_db(NEC_SELF_OHM, scaled_ohm)
    assert found == pytest.approx(NEC_MATCHED_DB[place], abs=0.08)


@given(st.floats(1.0, 72.0), st.floats(-3.1, 3.1), st.floats(-200.0, 200.0))
def test_no_match_gives_less_than_the_least_isolation(
    size: float, phase: float, reactance: float
) -> None:
    mutual_ohm, resistance_ohm = size * np.exp(1j * phase), 73.0
    least = coupling.least_isolation_db(size / resistance_ohm)
    matched = coupling.matched_isolation_db(resistance_ohm + 1j * reactance, mutual_ohm)
    ports = coupling.port_isolation_db(resistance_ohm + 1j * reactance, mutual_ohm)
    assert least <= matched + 1e-6
    assert matched <= ports + 1e-6


def test_a_real_mutual_impedance_reaches_the_least_isolation() -> None:
    matched = coupling.matched_isolation_db(73.0, 40.0 + 0.0j)
    assert matched == pytest.approx(float(coupling.least_isolation_db(40.0 / 73.0)))


def test_weak_coupling_is_half_the_ratio_squared() -> None:
    assert coupling.least_isolation_db(1e-4) == pytest.approx(20.0 * np.log10(2e4), abs=1e-6)


def test_coupling_never_exceeds_all_of_the_power() -> None:
    assert coupling.least_isolation_db(np.array([1.0, 3.0, 100.0])).tolist() == [0.0, 0.0, 0.0]


def test_no_coupling_is_a_number_nevertheless() -> None:
    assert np.isfinite(coupling.least_isolation_db(0.0))


def test_two_monopoles_on_one_skin_have_dipole_gains() -> None:
    """5.16 dBi each, the gain towards the sky, would be 6 dB too strong."""
    exact = coupling.matched_isolation_db(HALF_WAVE_OHM / 2, 0.5 * side_by_side_ohm(26.275))
    assert coupling.friis_isolation_db(1575.42e6, 5.0) == pytest.approx(float(exact), abs=0.02)


def test_up_close_friis_understates_the_isolation() -> None:
    for spacing_wl, short_db in ((1.0, 0.4), (0.63, 0.6), (0.33, 2.0)):
        distance_m = spacing_wl * float(wavelength_m(330e6))
        emf = coupling.matched_isolation_db(HALF_WAVE_OHM / 2, 0.5 * side_by_side_ohm(spacing_wl))
        assert coupling.friis_isolation_db(330e6, distance_m) < float(emf) - short_db / 2


def test_inside_the_near_field_the_distance_counts_no_further() -> None:
    near, nearer = coupling.friis_isolation_db(125e6, np.array([0.3, 0.01]))
    assert near == nearer


def test_an_antenna_without_resistance_is_refused() -> None:
    with pytest.raises(ValueError, match="own_ohm"):
        coupling.matched_isolation_db(0.0 + 10.0j, 1.0)
