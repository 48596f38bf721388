# SPDX-License-Identifier: Apache-2.0
"""Impedance, capacitance and velocity of a cable agree with each other."""

from __future__ import annotations

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from rfplan.physics import coax
from rfplan.physics.constants import SPEED_OF_LIGHT_M_PER_S

CENTRES = st.floats(0.1e-3, 2.0e-3)
RATIOS = st.floats(1.1, 10.0)
PERMITTIVITIES = st.floats(1.0, 4.0)


@given(CENTRES, RATIOS, PERMITTIVITIES)
def test_geometry_and_electrics_give_one_capacitance(d: float, ratio: float, er: float) -> None:
    geometric = coax.geometric_capacitance_f_per_m(d, ratio * d, er)
    impedance = coax.coax_impedance_ohm(d, ratio * d, er)
    electric = coax.coax_capacitance_f_per_m(impedance, coax.velocity_ratio(er))
    assert geometric == pytest.approx(electric)


@given(CENTRES, RATIOS, PERMITTIVITIES, st.floats(0.5, 2.0))
def test_impedance_does_not_care_about_the_size(
    d: float, ratio: float, er: float, k: float
) -> None:
    small, large = (coax.coax_impedance_ohm(s * d, s * ratio * d, er) for s in (1.0, k))
    assert small == pytest.approx(large)


@given(st.floats(0.4, 1.0))
def test_a_velocity_survives_the_way_to_a_delay_and_back(velocity: float) -> None:
    delay = coax.delay_s(1.0, velocity)
    assert coax.velocity_ratio_from_delay(delay) == pytest.approx(velocity)


@given(st.floats(20.0, 100.0), st.floats(0.5, 1.0))
def test_impedance_comes_back_from_inductance_and_capacitance(z: float, velocity: float) -> None:
    capacitance = coax.coax_capacitance_f_per_m(z, velocity)
    inductance = z / (velocity * SPEED_OF_LIGHT_M_PER_S)
    assert coax.lossless_impedance_ohm(inductance, capacitance) == pytest.approx(z)


def test_a_thicker_cable_has_a_lower_cutoff_and_less_of_it_is_usable() -> None:
    thin, thick = (coax.te11_cutoff_hz(d, 3.3 * d, 2.1) for d in (0.5e-3, 2.0e-3))
    assert thick == pytest.approx(thin / 4.0)
    assert coax.highest_usable_hz(thick) < thick


def test_a_bridge_reading_is_divided_by_the_length() -> None:
    readings = coax.measured_capacitance_f_per_m(np.array([101e-12, 202e-12]), 2.0)
    np.testing.assert_allclose(readings, [50.5e-12, 101e-12])


def test_a_centre_as_thick_as_the_shield_is_refused() -> None:
    with pytest.raises(ValueError, match="wall_m"):
        coax.coax_impedance_ohm(3e-3, 3e-3, 2.1)


def test_a_wave_faster_than_light_is_refused() -> None:
    with pytest.raises(ValueError, match=r"velocity_ratio must lie in 0 .. 1"):
        coax.delay_s(1.0, 1.2)
    with pytest.raises(ValueError, match="permittivity"):
        coax.velocity_ratio(0.9)
