# SPDX-License-Identifier: Apache-2.0
"""Counted pairs of channels against lists of all of them, and against a count by hand."""

from __future__ import annotations

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st
from numpy.typing import NDArray

from rfplan.physics.channel_pairs import channel_pair_count, nearest_channel_pair
from rfplan.physics.channel_raster import carrier_hz, channel_names_hz

Floats = NDArray[np.float64]
Weight = tuple[int, int]

ALL = channel_names_hz(118.0e6, 136.975e6, close=False)
CLOSE = np.unique(np.asarray(carrier_hz(channel_names_hz(118.0e6, 136.995e6, close=True))))
VOR = (108.0e6, 117.975e6)

STEPS = st.lists(st.integers(1, 40), min_size=1, max_size=9, unique=True).map(sorted)
TIMES = st.integers(-6, 6).filter(bool)
WEIGHTS = st.lists(st.tuples(TIMES, TIMES), min_size=1, max_size=4)


def every_pair(
    first: list[int], second: list[int], weights: list[Weight], low: int, high: int
) -> set[tuple[int, int]]:
    """Return the pairs with a product in a band, one after the other, in whole numbers."""
    return {
        (a, b)
        for a in first
        for b in second
        for n, m in weights
        if low <= abs(n * a + m * b) <= high
    }


def in_khz(values: list[int]) -> Floats:
    return np.array(values) * 1e3


@given(STEPS, STEPS, WEIGHTS, st.integers(0, 120), st.integers(0, 60))
def test_the_count_is_that_of_a_list_of_all_pairs(
    first: list[int], second: list[int], weights: list[Weight], low: int, width: int
) -> None:
    listed = every_pair(first, second, weights, low, low + width)
    band_hz = (low * 1e3, (low + width) * 1e3)
    found = channel_pair_count(in_khz(first), in_khz(second), np.array(weights), *band_hz)
    assert found == len(listed)


@given(STEPS, STEPS, WEIGHTS, st.integers(0, 120), st.integers(0, 60))
def test_the_example_is_as_near_to_the_middle_as_any_pair_and_there_is_one_if_any(
    first: list[int], second: list[int], weights: list[Weight], low: int, width: int
) -> None:
    listed = every_pair(first, second, weights, low, low + width)
    band_hz = (low * 1e3, (low + width) * 1e3)
    told = nearest_channel_pair(in_khz(first), in_khz(second), np.array(weights), *band_hz)
    assert (told is None) == (not listed)
    if told is None:
        return
    a, b = first[told.first], second[told.second]
    lands = told.weight[0] * a + told.weight[1] * b
    assert (a, b) in listed
    assert told.lands_hz == pytest.approx(lands * 1e3)
    middle = low + width / 2
    nearest = min(
        abs(abs(n * x + m * y) - middle) for x in first for y in second for n, m in weights
    )
    assert abs(lands - middle) == pytest.approx(nearest)


def test_third_order_pairs_into_vor_are_those_counted_by_hand() -> None:
    """2 f1 - f2 in steps of 25 kHz above 118 MHz: 2 i - j from -400 to -1, i and j from 0 to 759.

    180 first channels with 400 second ones each, then 399, 397, ... 1: 72000 + 40000; the same
    again with the two exchanged, and no pair does both.
    """
    third = np.array([[2, -1], [1, -2]])
    assert channel_pair_count(ALL, ALL, third, *VOR) == 2 * (180 * 400 + 200 * 200)


def test_two_wanted_channels_reach_75_mhz_only_at_the_seventh_order() -> None:
    """4 x 118.000 - 3 x 132.325 = 75.025 MHz."""
    seventh = np.array([[4, -3], [3, -4]])
    assert channel_pair_count(ALL, ALL, seventh, 74.8e6, 75.2e6) > 0
    at = np.flatnonzero(np.isclose(ALL, 132.325e6))
    assert channel_pair_count(ALL[:1], ALL[at], seventh, 75.0249e6, 75.0251e6) == 1
    for order in range(2, 7):
        less = np.array([[n, n - order] for n in range(1, order)])
        assert channel_pair_count(ALL, ALL, less, 74.8e6, 75.2e6) == 0


def test_names_in_place_of_carriers_would_give_another_count() -> None:
    names = channel_names_hz(118.0e6, 136.995e6, close=True)
    carriers = np.asarray(carrier_hz(names))
    fourth = np.array([[4, -1]])
    band = (335.0e6, 335.02e6)
    by_name = channel_pair_count(names, names, fourth, *band)
    assert channel_pair_count(carriers, carriers, fourth, *band) != by_name


def test_a_carrier_on_the_edge_is_in_the_band_though_it_is_a_third_of_25_khz() -> None:
    edge = 2 * CLOSE[1] - CLOSE[3]
    one = np.array([[2, -1]])
    assert channel_pair_count(CLOSE[1:2], CLOSE[3:4], one, edge, edge + 1.0e6) == 1
    assert channel_pair_count(CLOSE[1:2], CLOSE[3:4], one, edge + 2.0, edge + 1.0e6) == 0


def test_a_band_without_channels_makes_no_pair() -> None:
    one = np.array([[2, -1]])
    assert channel_pair_count(ALL, ALL[:0], one, *VOR) == 0
    assert nearest_channel_pair(ALL[:0], ALL, one, *VOR) is None
