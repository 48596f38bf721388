# SPDX-License-Identifier: Apache-2.0
"""Law, fit and interpolation of attenuation, against themselves and against two libraries."""

from __future__ import annotations

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from rfplan.physics.cable_attenuation import (
    attenuation_law_db_per_m,
    dielectric_attenuation_db_per_m,
    fit_attenuation_law,
    interpolated_attenuation_db_per_m,
    power_rating_w,
)

K1 = st.floats(0.1, 5.0)
K2 = st.floats(0.0, 0.1)
FREQUENCIES = st.floats(1.0e7, 6.0e9)
TABLE_HZ = np.array([10e6, 100e6, 400e6, 1e9, 5e9])


@given(K1, K2, FREQUENCIES, FREQUENCIES)
def test_attenuation_rises_with_frequency(k1: float, k2: float, f: float, g: float) -> None:
    low, high = sorted((f, g))
    assert attenuation_law_db_per_m(low, k1, k2) <= attenuation_law_db_per_m(high, k1, k2)


@given(K1, K2)
def test_a_fit_gives_back_the_constants_of_an_exact_table(k1: float, k2: float) -> None:
    law = fit_attenuation_law(TABLE_HZ, np.asarray(attenuation_law_db_per_m(TABLE_HZ, k1, k2)))
    assert law.k1 == pytest.approx(k1, rel=1e-9)
    assert law.k2 == pytest.approx(k2, rel=1e-7, abs=1e-12)
    assert law.worst_residual_ratio < 1e-9


@settings(max_examples=50, deadline=None)
@given(st.lists(st.floats(0.01, 3.0), min_size=5, max_size=5))
def test_the_fit_is_the_constrained_least_squares_of_scipy(table: list[float]) -> None:
    nnls = pytest.importorskip("scipy.optimize").nnls
    values, megahertz = np.array(table), TABLE_HZ / 1e6
    per_100_m = 100.0 * values[:, np.newaxis]
    best, _ = nnls(np.stack([np.sqrt(megahertz), megahertz], axis=1) / per_100_m, np.ones(5))
    law = fit_attenuation_law(TABLE_HZ, values)
    np.testing.assert_allclose([law.k1, law.k2], best, rtol=1e-6, atol=1e-9)


def test_a_fit_through_a_line_steeper_than_frequency_drops_the_root() -> None:
    law = fit_attenuation_law(TABLE_HZ, (TABLE_HZ / 1e9) ** 2)
    assert law.k1 == 0.0
    assert law.k2 > 0.0


def test_the_worst_residual_is_that_of_the_worst_row() -> None:
    table = np.asarray(attenuation_law_db_per_m(TABLE_HZ, 1.0, 0.01))
    law = fit_attenuation_law(TABLE_HZ, table * np.array([1.0, 1.0, 1.1, 1.0, 1.0]))
    residuals = attenuation_law_db_per_m(TABLE_HZ, law.k1, law.k2) / table
    assert law.worst_residual_ratio == pytest.approx(abs(residuals[2] / 1.1 - 1.0))


def test_one_frequency_is_not_enough_for_a_fit() -> None:
    with pytest.raises(ValueError, match="two different frequencies"):
        fit_attenuation_law(np.array([1e9, 1e9]), np.array([0.5, 0.6]))


def test_the_law_is_the_attenuation_of_scikit_rf() -> None:
    skrf = pytest.importorskip("skrf")
    points = skrf.Frequency(50, 3000, 101, unit="MHz")
    for k1, k2 in ((1.418, 0.02004), (1.3459, 0.00691), (0.6504, 0.0073)):
        ours = np.asarray(attenuation_law_db_per_m(points.f, k1, k2))
        media = skrf.media.Coaxial.from_attenuation_VF(
            points, z0_port=50, z0=50, att=100.0 * ours, unit="dB/100m", VF=0.695
        )
        theirs = -20.0 * np.log10(np.abs(media.line(5.0, "m").s[:, 1, 0]))
        np.testing.assert_allclose(5.0 * ours, theirs, atol=1e-9)


@given(st.floats(10e6, 5e9))
def test_interpolation_stays_between_the_rows_around_it(frequency: float) -> None:
    table = np.array([0.0459, 0.1608, 0.3773, 0.6562, 1.9685])
    row = min(int(np.searchsorted(TABLE_HZ, frequency, side="right")), 4)
    found = interpolated_attenuation_db_per_m(frequency, TABLE_HZ, table)
    assert table[row - 1] - 1e-12 <= found <= table[row] + 1e-12


@given(st.floats(0.3, 1.0), st.floats(10e6, 5e9))
def test_interpolation_is_exact_for_a_power_law(power: float, frequency: float) -> None:
    found = interpolated_attenuation_db_per_m(frequency, TABLE_HZ, (TABLE_HZ / 1e9) ** power)
    assert found == pytest.approx((frequency / 1e9) ** power, rel=1e-9)


def test_the_rows_of_a_table_come_back_unchanged() -> None:
    table = np.array([0.0459, 0.1608, 0.3773, 0.6562, 1.9685])
    found = interpolated_attenuation_db_per_m(TABLE_HZ, TABLE_HZ, table)
    np.testing.assert_allclose(found, table, rtol=1e-12)


@pytest.mark.parametrize("frequency", [9.99e6, 5.01e9, np.nan])
def test_a_table_is_never_extrapolated(frequency: float) -> None:
    with pytest.raises(ValueError, match="frequency_hz must"):
        interpolated_attenuation_db_per_m(frequency, TABLE_HZ, np.linspace(0.1, 1.0, 5))


def test_a_table_that_does_not_rise_is_refused() -> None:
    with pytest.raises(ValueError, match="rising"):
        interpolated_attenuation_db_per_m(2e8, np.array([4e8, 1e8]), np.array([0.3, 0.1]))


@given(FREQUENCIES, st.floats(0.5, 1.0), st.floats(0.0, 0.01))
def test_the_dielectric_part_is_9_10_in_the_units_of_the_trade(
    frequency: float, velocity: float, tangent: float
) -> None:
    exact = 100.0 * dielectric_attenuation_db_per_m(frequency, velocity, tangent)
    assert exact == pytest.approx(9.10 / velocity * tangent * frequency / 1e6, rel=5e-4)


def test_a_rating_at_its_own_frequency_is_unchanged_and_halves_at_four_times() -> None:
    ratings = power_rating_w(100.0, 1e9, np.array([1e9, 4e9]))
    np.testing.assert_allclose(ratings, [100.0, 50.0])


def test_a_negative_constant_is_refused() -> None:
    with pytest.raises(ValueError, match="k2 must be at least 0"):
        attenuation_law_db_per_m(1e9, 1.0, -0.001)
