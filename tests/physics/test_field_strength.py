# SPDX-License-Identifier: Apache-2.0
"""Fields, densities and the antennas in them."""

from __future__ import annotations

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from rfplan.physics import field_strength
from rfplan.physics.free_space import free_space_loss_db, received_power_dbm

FREQUENCIES = st.floats(1.0e7, 1.0e10)


@given(FREQUENCIES, st.floats(1.0, 1.0e5), st.floats(-10.0, 20.0))
def test_area_and_spreading_make_the_free_space_loss(f: float, d: float, gain: float) -> None:
    spreading_db = 10.0 * np.log10(4.0 * np.pi * d**2)
    area_db = 10.0 * np.log10(field_strength.effective_area_m2(f, gain))
    assert spreading_db - area_db == pytest.approx(free_space_loss_db(f, d) - gain, abs=1e-9)


@given(FREQUENCIES, st.floats(-150.0, 0.0), st.floats(0.0, 15.0))
def test_more_gain_needs_less_field(f: float, received: float, gain: float) -> None:
    density = field_strength.received_power_density_dbw_per_m2
    difference = density(received, f) - density(received, f, gain)
    assert difference == pytest.approx(gain, abs=1e-9)


def test_the_density_around_a_transmitter_is_that_of_its_received_power() -> None:
    received_dbw = received_power_dbm(30.0, 1e9, 100.0) - 30.0
    density = field_strength.received_power_density_dbw_per_m2(received_dbw, 1e9)
    assert density == pytest.approx(-10.0 * np.log10(4.0 * np.pi * 100.0**2))


def test_ten_times_the_field_is_twenty_decibels() -> None:
    densities = field_strength.field_power_density_dbw_per_m2(np.array([1e-4, 1e-3]))
    assert np.diff(densities) == pytest.approx(20.0)


def test_no_field_is_refused() -> None:
    with pytest.raises(ValueError, match="field_v_per_m"):
        field_strength.field_power_density_dbw_per_m2(0.0)
