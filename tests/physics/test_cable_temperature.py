# SPDX-License-Identifier: Apache-2.0
"""Attenuation over temperature: the conductor moves, the dielectric stays."""

from __future__ import annotations

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from rfplan.physics import cable_temperature as t

TEMPERATURES = st.floats(-60.0, 200.0)


def test_every_factor_is_one_at_room_temperature() -> None:
    assert t.temperature_factor_ratio(20.0) == 1.0
    assert t.resistance_factor_ratio(20.0) == 1.0
    assert t.empirical_temperature_factor_ratio(20.0) == 1.0


@given(TEMPERATURES, TEMPERATURES)
def test_a_warmer_cable_never_loses_less(first: float, second: float) -> None:
    cold, warm = sorted((first, second))
    assert t.temperature_factor_ratio(cold) <= t.temperature_factor_ratio(warm)


@given(TEMPERATURES)
def test_the_factor_is_the_root_of_the_resistance(temperature: float) -> None:
    squared = t.temperature_factor_ratio(temperature) ** 2
    assert squared == pytest.approx(t.resistance_factor_ratio(temperature))


@given(st.floats(-40.0, 60.0))
def test_physics_and_cable_television_agree_within_one_percent(temperature: float) -> None:
    ratio = t.temperature_factor_ratio(temperature)
    assert ratio == pytest.approx(t.empirical_temperature_factor_ratio(temperature), rel=0.01)


@given(TEMPERATURES)
def test_the_slope_is_the_derivative_of_the_factor(temperature: float) -> None:
    step = 1e-3
    above, below = (t.temperature_factor_ratio(temperature + s) for s in (step, -step))
    numeric = (above - below) / (2 * step) / t.temperature_factor_ratio(temperature)
    assert t.temperature_slope_per_k(temperature) == pytest.approx(numeric, rel=1e-6)


@given(st.floats(0.0, 1.0), st.floats(0.0, 1.0), TEMPERATURES)
def test_only_the_conductor_part_moves(conductor: float, dielectric: float, at: float) -> None:
    whole = t.attenuation_at_temperature_db_per_m(conductor + dielectric, dielectric, at)
    moved = conductor * t.temperature_factor_ratio(at)
    assert whole - dielectric == pytest.approx(moved, abs=1e-9)


def test_loss_that_is_all_dielectric_does_not_move() -> None:
    found = t.attenuation_at_temperature_db_per_m(0.3, 0.3, np.array([-55.0, 70.0]))
    np.testing.assert_array_equal(found, [0.3, 0.3])


def test_a_dielectric_part_above_the_whole_is_refused() -> None:
    with pytest.raises(ValueError, match="conductor_db_per_m"):
        t.attenuation_at_temperature_db_per_m(0.3, 0.31, 20.0)


def test_temperatures_where_the_straight_line_ends_are_refused() -> None:
    with pytest.raises(ValueError, match="temperature_c must be at least -200"):
        t.temperature_factor_ratio(-273.0)
