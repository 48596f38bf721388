# SPDX-License-Identifier: Apache-2.0
"""Names of VHF channels and their carriers."""

from __future__ import annotations

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from rfplan.physics.channel_raster import (
    carrier_hz,
    channel_names_hz,
    channels_with_harmonic_in_hz,
)

BLOCKS = st.integers(4720, 5479)
"""Blocks of 25 kHz from 118 to 137 MHz."""


@given(BLOCKS)
def test_a_block_of_25_khz_holds_four_names_and_three_carriers(block: int) -> None:
    names_khz = block * 25.0 + np.array([0.0, 5.0, 10.0, 15.0])
    carriers_khz = carrier_hz(names_khz * 1e3) / 1e3 - block * 25.0
    assert carriers_khz == pytest.approx([0.0, 0.0, 25.0 / 3.0, 50.0 / 3.0], abs=1e-4)


@given(BLOCKS)
def test_the_fifth_name_and_names_between_are_no_channels(block: int) -> None:
    names_khz = block * 25.0 + np.array([20.0, 2.5, 8.33])
    assert np.isnan(carrier_hz(names_khz * 1e3)).all()


def test_the_names_of_the_settled_example_are_read_as_it_says() -> None:
    carriers = carrier_hz(np.array([118.005e6, 118.010e6, 118.015e6])) / 1e6
    assert carriers == pytest.approx([118.0, 118.00833, 118.01667], abs=5e-6)


def test_a_radio_with_close_channels_has_four_names_for_each_block() -> None:
    wide = channel_names_hz(118.0e6, 136.975e6, close=False)
    close = channel_names_hz(118.0e6, 136.975e6, close=True)
    assert len(wide) == 760
    assert len(close) == 4 * 760 - 2  # the last two carriers lie above the end
    assert set(wide) <= set(close)


@pytest.mark.parametrize(
    ("order", "first_mhz", "last_mhz"), [(13, 121.125, 121.250), (12, 131.200, 131.350)]
)
def test_the_channels_that_hit_l1_are_those_of_two_harmonics(
    order: int, first_mhz: float, last_mhz: float
) -> None:
    names = channel_names_hz(118.0e6, 136.975e6, close=False)
    hit = channels_with_harmonic_in_hz(names, order, 1574.397e6, 1576.443e6) / 1e6
    assert (hit[0], hit[-1]) == pytest.approx((first_mhz, last_mhz))


def test_no_eleventh_harmonic_of_the_band_hits_l1() -> None:
    names = channel_names_hz(118.0e6, 136.975e6, close=True)
    assert len(channels_with_harmonic_in_hz(names, 11, 1574.397e6, 1576.443e6)) == 0
