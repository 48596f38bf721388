# SPDX-License-Identifier: Apache-2.0
"""Limits by corners, levels along the way, noise rise."""

from __future__ import annotations

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from rfplan.physics import gnss_interference

CORNER_HZ = np.array([700.0, 1e4, 1e5, 1e6, 2e7])
CORNER_DBM = np.array([-120.5, -113.57, -110.5, -110.5, -97.5])


def test_between_corners_a_mask_is_straight_in_decibels() -> None:
    corners = np.array([1525.0e6, 1565.42e6]), np.array([-12.0, -120.5])
    assert gnss_interference.piecewise_level_db(1545.0e6, *corners) == pytest.approx(
        -65.69, abs=0.01
    )


def test_beyond_its_ends_a_mask_keeps_the_level_of_the_end() -> None:
    corners = np.array([1.0e9, 2.0e9]), np.array([-10.0, 20.0])
    found = gnss_interference.piecewise_level_db(np.array([1.0e8, 9.0e9]), *corners)
    assert found.tolist() == [-10.0, 20.0]


@pytest.mark.parametrize(
    ("bandwidth_hz", "printed_dbm"),
    [(2000.0, -120.5 + 6 * np.log10(2000 / 700)), (5e4, -113.5 + 3 * np.log10(5.0))],
)
def test_below_a_megahertz_the_limit_follows_the_printed_formulas(
    bandwidth_hz: float, printed_dbm: float
) -> None:
    found = gnss_interference.noise_like_limit_dbm(bandwidth_hz, CORNER_HZ, CORNER_DBM)
    assert found == pytest.approx(printed_dbm, abs=0.04)


def test_above_a_megahertz_the_limit_is_straight_in_the_bandwidth() -> None:
    found = gnss_interference.noise_like_limit_dbm(10.0e6, CORNER_HZ, CORNER_DBM)
    assert found == pytest.approx(-104.342, abs=1e-3)


@given(st.floats(10.0, 3e7), st.floats(1.0, 1e7))
def test_wider_noise_may_be_stronger(bandwidth_hz: float, wider_hz: float) -> None:
    one, other = gnss_interference.noise_like_limit_dbm(
        np.array([bandwidth_hz, bandwidth_hz + wider_hz]), CORNER_HZ, CORNER_DBM
    )
    assert other >= one - 1e-9


def test_corners_that_fall_back_are_refused() -> None:
    with pytest.raises(ValueError, match="corners must rise"):
        gnss_interference.piecewise_level_db(1e9, np.array([2e9, 1e9]), np.array([0.0, 1.0]))


@given(st.floats(-20.0, 60.0), st.floats(0.0, 120.0), st.floats(0.0, 100.0), st.floats(-130.0, 0.0))
def test_the_suppression_that_is_needed_meets_the_limit_exactly(
    power: float, spare: float, isolation: float, limit: float
) -> None:
    needed = gnss_interference.needed_below_carrier_db(power, limit, isolation)
    arriving = gnss_interference.interference_dbm(power, needed + spare, isolation)
    assert arriving == pytest.approx(limit - spare)


def test_interference_as_strong_as_the_noise_costs_three_decibels() -> None:
    rise = gnss_interference.noise_rise_db(np.array([-10.0, -6.0, 0.0, 40.0]))
    assert rise == pytest.approx([0.414, 0.973, 3.010, 40.0], abs=1e-3)


@given(st.floats(-20.0, 20.0))
def test_what_may_stand_over_the_noise_lifts_it_by_what_is_borne(over_noise_db: float) -> None:
    rise = gnss_interference.noise_rise_db(over_noise_db)
    found = gnss_interference.bearable_over_noise_db(rise)
    assert found == pytest.approx(over_noise_db, abs=1e-6)


def test_a_rise_of_nothing_lets_nothing_be_borne() -> None:
    with pytest.raises(ValueError, match="rise_db"):
        gnss_interference.bearable_over_noise_db(0.0)
