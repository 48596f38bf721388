# SPDX-License-Identifier: Apache-2.0
"""Noise of stages in a row."""

from __future__ import annotations

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from rfplan.physics import noise

FIGURES = st.floats(0.0, 20.0)


@given(st.lists(st.floats(0.0, 10.0), min_size=1, max_size=5))
def test_pads_at_290_kelvin_add_in_decibels(losses: list[float]) -> None:
    pads = np.array(losses)
    assert noise.cascade_noise_figure_db(pads, -pads) == pytest.approx(sum(losses), abs=1e-9)


@given(FIGURES, FIGURES, st.floats(0.0, 40.0), st.floats(0.0, 20.0))
def test_more_cable_behind_an_amplifier_never_helps(
    first: float, last: float, gain: float, loss: float
) -> None:
    figures, gains = np.array([first, loss, last]), np.array([gain, -loss, 0.0])
    without = noise.cascade_noise_figure_db(figures[[0, 2]], gains[[0, 2]])
    assert noise.cascade_noise_figure_db(figures, gains) >= without - 1e-9


def test_cable_ahead_of_the_amplifier_costs_all_of_its_loss() -> None:
    figures, gains = np.array([3.0, 1.5]), np.array([-3.0, 30.0])
    assert noise.cascade_noise_figure_db(figures, gains) == pytest.approx(4.5)


def test_chains_at_several_corners_are_computed_at_once() -> None:
    figures = np.array([[2.0, 6.0], [3.0, 6.0]])
    together = noise.cascade_noise_figure_db(figures, np.full((2, 2), 25.0))
    assert np.shape(together) == (2,)


@given(FIGURES, st.floats(50.0, 400.0))
def test_a_noise_figure_survives_the_way_to_kelvin_and_back(figure: float, at: float) -> None:
    temperature = noise.noise_temperature_k(figure, at)
    assert noise.noise_figure_db(temperature, at) == pytest.approx(figure, abs=1e-9)


@given(st.floats(0.0, 30.0))
def test_a_cold_pad_is_quieter_than_its_loss(loss: float) -> None:
    assert noise.passive_noise_figure_db(loss, 100.0) <= loss + 1e-9
    assert noise.passive_noise_figure_db(loss) == pytest.approx(loss, abs=1e-9)


def test_ten_times_the_bandwidth_is_ten_decibels_of_noise() -> None:
    one, ten = (noise.thermal_noise_dbm(290.0, bandwidth) for bandwidth in (1e6, 1e7))
    assert ten - one == pytest.approx(10.0)


def test_a_noisier_receiver_hears_less() -> None:
    quiet, loud = (noise.carrier_to_noise_dbhz(-128.5, 100.0, figure) for figure in (1.5, 4.0))
    assert quiet > loud
    assert noise.carrier_to_noise_dbhz(-128.5, 290.0, 0.0) == pytest.approx(
        -128.5 + 173.975, abs=0.01
    )


def test_a_stage_without_a_gain_is_refused() -> None:
    with pytest.raises(ValueError, match="every stage"):
        noise.cascade_noise_figure_db(np.array([1.0, 2.0]), np.array([10.0]))


def test_a_noise_figure_below_zero_is_refused() -> None:
    with pytest.raises(ValueError, match="noise_figures_db"):
        noise.cascade_noise_figure_db(np.array([-0.1]), np.array([10.0]))
