# SPDX-License-Identifier: Apache-2.0
"""Skin effect, and the bound that it sets to a cable of a size."""

from __future__ import annotations

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from rfplan.physics import skin_effect
from rfplan.physics.coax import coax_impedance_ohm

FREQUENCIES = st.floats(1.0e6, 1.0e10)


@given(FREQUENCIES, st.floats(1.0e6, 7.0e7))
def test_depth_halves_at_four_times_the_frequency(frequency: float, conductivity: float) -> None:
    depth = skin_effect.skin_depth_m(frequency, conductivity)
    assert skin_effect.skin_depth_m(4.0 * frequency, conductivity) == pytest.approx(depth / 2.0)


@given(FREQUENCIES, st.floats(1.0e6, 7.0e7))
def test_the_skin_carries_the_current_of_one_depth(frequency: float, conductivity: float) -> None:
    depth = skin_effect.skin_depth_m(frequency, conductivity)
    resistance = skin_effect.surface_resistance_ohm(frequency, conductivity)
    assert resistance * conductivity * depth == pytest.approx(1.0)


@given(st.floats(0.0, 1.0e-4), st.floats(1.0e-7, 1.0e-4))
def test_roughness_raises_the_loss_and_at_most_doubles_it(rough: float, depth: float) -> None:
    assert 1.0 <= skin_effect.roughness_factor_ratio(rough, depth) <= 2.0


@pytest.mark.parametrize(
    ("frequency_hz", "table_db_per_100_m", "diameter_m", "velocity"),
    [(50e6, 10.83, 2.95e-3, 0.66), (850e6, 58.23, 2.95e-3, 0.66), (1.05e9, 89.4, 1.52e-3, 0.695)],
)
def test_opened_tables_lie_above_the_bound_of_smooth_copper(
    frequency_hz: float, table_db_per_100_m: float, diameter_m: float, velocity: float
) -> None:
    least = skin_effect.smooth_copper_attenuation_db_per_m(frequency_hz, 50.0, diameter_m, velocity)
    assert 0.4 < 100.0 * least / table_db_per_100_m < 1.0


def test_no_other_ratio_of_diameters_loses_less() -> None:
    best = skin_effect.least_loss_diameter_ratio()
    outer_m = 3.0e-3
    ratios = np.array([0.9 * best, best, 1.1 * best])
    impedances = coax_impedance_ohm(outer_m / ratios, outer_m, 1.0)
    losses = skin_effect.smooth_copper_attenuation_db_per_m(1e9, impedances, outer_m, 1.0)
    assert np.argmin(losses) == 1


def test_a_frequency_of_zero_has_no_skin() -> None:
    with pytest.raises(ValueError, match="frequency_hz"):
        skin_effect.skin_depth_m(0.0, 5.8e7)
