# SPDX-License-Identifier: Apache-2.0
"""Free space: distances, losses and links."""

from __future__ import annotations

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from rfplan.physics import free_space

FREQUENCIES = st.floats(1.0e6, 1.0e10)
DISTANCES = st.floats(0.1, 1.0e7)


@given(FREQUENCIES, DISTANCES, st.floats(0.0, 40.0))
def test_a_distance_ratio_costs_its_decibels(f: float, d: float, difference: float) -> None:
    far = d * free_space.distance_ratio(difference)
    near_db = free_space.free_space_loss_db(f, d)
    assert free_space.free_space_loss_db(f, far) - near_db == pytest.approx(difference, abs=1e-9)


@given(FREQUENCIES, DISTANCES)
def test_frequency_and_distance_can_be_exchanged(f: float, d: float) -> None:
    assert free_space.free_space_loss_db(f, d) == pytest.approx(
        free_space.free_space_loss_db(f * 2.0, d / 2.0), abs=1e-9
    )


@given(FREQUENCIES)
def test_four_quarter_waves_are_a_wavelength(f: float) -> None:
    wave = free_space.wavelength_m(f)
    assert 4.0 * free_space.quarter_wave_m(f) == pytest.approx(wave)
    assert 2.0 * np.pi * free_space.near_field_radius_m(f) == pytest.approx(wave)


@given(FREQUENCIES, st.floats(0.4, 1.0))
def test_a_wave_is_shorter_in_a_cable(f: float, velocity: float) -> None:
    in_cable = free_space.wavelength_m(f, velocity)
    assert in_cable == pytest.approx(velocity * free_space.wavelength_m(f))


def test_loss_turns_zero_where_the_near_field_begins_twice_over() -> None:
    radius = free_space.near_field_radius_m(1e9)
    assert free_space.free_space_loss_db(1e9, radius / 2.0) == pytest.approx(0.0, abs=1e-9)


def test_a_link_is_eirp_less_loss_plus_gain() -> None:
    eirp = free_space.eirp_dbm(10.0, 1.0, 2.15)
    received = free_space.received_power_dbm(eirp, 127.5e6, np.array([10.0, 100.0]), 2.15)
    assert eirp == pytest.approx(41.15)
    assert np.diff(received) == pytest.approx(-20.0)
    loss = free_space.free_space_loss_db(127.5e6, np.array([10.0, 100.0]))
    np.testing.assert_allclose(received, 41.15 - loss + 2.15)


@pytest.mark.parametrize(("f", "d"), [(0.0, 1.0), (1e9, 0.0), (-1e9, 1.0), (1e9, np.nan)])
def test_no_frequency_and_no_distance_are_refused(f: float, d: float) -> None:
    with pytest.raises(ValueError, match="must be positive"):
        free_space.free_space_loss_db(f, d)
