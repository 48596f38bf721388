# SPDX-License-Identifier: Apache-2.0
"""Decibels: round trips, sums and refusals."""

from __future__ import annotations

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from rfplan.physics import decibel

LEVELS = st.floats(-200.0, 100.0)
POWERS = st.floats(1.0e-18, 1.0e6)


@given(LEVELS)
def test_a_level_survives_the_way_to_watts_and_back(level: float) -> None:
    assert decibel.dbm_from_w(decibel.w_from_dbm(level)) == pytest.approx(level, abs=1e-9)
    assert decibel.dbw_from_w(decibel.w_from_dbw(level)) == pytest.approx(level, abs=1e-9)


@given(POWERS)
def test_dbm_stands_thirty_above_dbw(power: float) -> None:
    level = decibel.dbm_from_dbw(decibel.dbw_from_w(power))
    assert level == pytest.approx(decibel.dbm_from_w(power), abs=1e-9)


@given(POWERS, POWERS)
def test_exchanging_power_and_reference_turns_the_sign(first: float, second: float) -> None:
    forth, back = decibel.power_ratio_db(first, second), decibel.power_ratio_db(second, first)
    assert forth == pytest.approx(-back, abs=1e-9)


@given(st.lists(LEVELS, min_size=2, max_size=6))
def test_a_sum_of_powers_lies_above_its_largest_part(levels: list[float]) -> None:
    total = decibel.power_sum_dbm(np.array(levels))
    assert max(levels) - 1e-9 <= total <= max(levels) + 10.0 * np.log10(len(levels)) + 1e-9


def test_powers_are_summed_along_the_last_axis() -> None:
    totals = decibel.power_sum_dbm(np.array([[0.0, 0.0], [10.0, 10.0]]))
    np.testing.assert_allclose(totals, [3.0103, 13.0103], atol=1e-4)


@pytest.mark.parametrize("power", [0.0, -1.0, np.nan, np.inf])
def test_a_power_that_is_not_positive_is_refused_by_name(power: float) -> None:
    with pytest.raises(ValueError, match="power_w must be positive"):
        decibel.dbm_from_w(power)


def test_one_bad_power_in_an_array_is_refused() -> None:
    with pytest.raises(ValueError, match="power_w"):
        decibel.dbm_from_w(np.array([1.0, 0.0]))


def test_a_voltage_level_grows_with_the_resistance() -> None:
    assert decibel.dbuv_from_dbm(0.0, 75.0) - decibel.dbuv_from_dbm(0.0, 50.0) == pytest.approx(
        10.0 * np.log10(1.5)
    )
