# SPDX-License-Identifier: Apache-2.0
"""Harmonics and mixing products by interval arithmetic, against random single frequencies."""

from __future__ import annotations

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from rfplan.physics import intermodulation

COM = np.array([118.0e6, 137.0e6])
DME = np.array([1025.0e6, 1150.0e6])
UAT = np.array([977.0e6, 979.0e6])
BANDS = np.stack([COM, DME, UAT])


def test_frequencies_whose_harmonics_are_l1_are_those_worked_out_by_hand() -> None:
    for order, mhz in ((11, 143.22), (13, 121.18615), (12, 131.285)):
        band = intermodulation.subharmonic_band_hz(1575.42e6, 0.0, order) / 1e6
        assert band == pytest.approx([mhz, mhz], abs=1e-4)
    window = intermodulation.subharmonic_band_hz(1575.42e6, 10e6, 13) / 1e6
    assert window == pytest.approx([120.4169, 121.9554], abs=1e-4)


@given(st.integers(2, 7), st.integers(2, 3), st.integers(0, 10_000))
def test_every_product_of_frequencies_lies_in_its_band(order: int, size: int, seed: int) -> None:
    found = intermodulation.mixing_products(BANDS, order, size)
    draw = np.random.default_rng(seed)
    carriers = draw.uniform(BANDS[:, 0], BANDS[:, 1])
    products = np.abs(np.sum(carriers[found.who] * found.weight, axis=1))
    assert (products >= found.band_hz[:, 0] - 1.0).all()
    assert (products <= found.band_hz[:, 1] + 1.0).all()


@given(st.integers(2, 7), st.integers(2, 3))
def test_weights_add_up_to_the_order_and_none_is_listed_twice(order: int, size: int) -> None:
    found = intermodulation.mixing_products(BANDS, order, size)
    assert (np.abs(found.weight).sum(axis=1) == order).all()
    assert (found.weight[:, 0] > 0).all() and (found.weight != 0).all()
    rows = np.concatenate([found.who, found.weight], axis=1)
    assert len(np.unique(rows, axis=0)) == len(rows)


def test_two_signals_make_two_thirds_orders_each_way() -> None:
    found = intermodulation.mixing_products(np.stack([COM, DME]), 3)
    assert sorted(map(tuple, found.weight.tolist())) == [(1, -2), (1, 2), (2, -1), (2, 1)]


@pytest.mark.parametrize("lines", [(101, 128), (60, 101), (37, 101, 128)])
def test_products_are_the_lines_that_a_curved_characteristic_makes(lines: tuple[int, ...]) -> None:
    """Cosines raised to a power, and their spectrum: no line but those of that order and below.

    The lowest order at which a line shows tells which products are its own: each of them must
    have a line, and every line that is no harmonic must be one of them.
    """
    samples, known = 4096, set[int]()
    time = 2.0 * np.pi * np.arange(samples) / samples
    signal = np.sum(np.cos(np.outer(lines, time)), axis=0)
    bands = np.repeat(np.array(lines, dtype=float), 2).reshape(-1, 2)
    for order in (2, 3) if len(lines) == 3 else range(2, 8):
        spectrum = np.abs(np.fft.rfft(signal**order)) / samples
        there = set(np.flatnonzero(spectrum > 1e-9).tolist())
        products = set[int]()
        for size in range(2, min(order, len(lines)) + 1):
            found = intermodulation.mixing_products(bands, order, size)
            products |= set(np.round(found.band_hz[:, 0]).astype(int).tolist())
        harmonics = {order * line for line in lines}
        assert products | harmonics <= there
        assert there - products - harmonics <= known | {0, *lines}
        known |= there


def test_third_order_products_are_as_many_as_a_textbook_counts() -> None:
    """Differences of n signals: n (n - 1) of 2 f1 - f2, n (n - 1) (n - 2) / 2 of f1 + f2 - f3.

    The count is the one that RF_ESSENTIALS states; its own examples of it are wrong.
    """
    for count in range(3, 9):
        signals = np.repeat(np.arange(count) + 100.0, 2).reshape(-1, 2)
        for size, expected in (
            (2, count * (count - 1)),
            (3, count * (count - 1) * (count - 2) // 2),
        ):
            weight = intermodulation.mixing_products(signals, 3, size).weight
            assert (np.abs(weight.sum(axis=1)) == 1).sum() == expected


def test_transmitters_that_never_send_together_make_no_product() -> None:
    together = np.array([[True, False, True], [False, True, True], [True, True, True]])
    found = intermodulation.mixing_products(BANDS, 3, 2, together)
    assert {tuple(row) for row in found.who.tolist()} == {(0, 2), (1, 2)}
    assert len(intermodulation.mixing_products(BANDS, 3, 3, together).who) == 0


def test_a_product_that_may_be_zero_begins_at_zero() -> None:
    close = np.array([[100.0e6, 110.0e6], [100.0e6, 110.0e6]])
    found = intermodulation.mixing_products(close, 2)
    beat = found.band_hz[found.weight[:, 1] < 0]
    assert beat.tolist() == [[0.0, 10.0e6]]


def test_a_product_reaches_a_band_only_where_they_overlap() -> None:
    products = np.array([[1560.0e6, 1570.0e6], [1576.0e6, 1580.0e6], [10.0e6, 2000.0e6]])
    victims = np.array([[1574.0e6, 1577.0e6]])
    assert intermodulation.reaches(products, victims)[:, 0].tolist() == [False, True, True]


def test_orders_above_seven_are_refused() -> None:
    with pytest.raises(ValueError, match="order must be 2 to 7"):
        intermodulation.mixing_products(BANDS, 8)


@given(st.floats(-60.0, 10.0), st.floats(0.0, 40.0))
def test_a_decibel_more_of_both_signals_is_three_more_of_their_product(
    level: float, intercept: float
) -> None:
    one = intermodulation.third_order_dbm(level, level, intercept)
    more = intermodulation.third_order_dbm(level + 1.0, level + 1.0, intercept)
    assert more - one == pytest.approx(3.0)
    at_it = intermodulation.third_order_dbm(intercept, intercept, intercept)
    assert at_it == pytest.approx(intercept)
