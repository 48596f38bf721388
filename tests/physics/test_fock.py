# SPDX-License-Identifier: Apache-2.0
"""Surface Fock functions: series, residues and table agree, and with mpmath."""

from __future__ import annotations

from math import pi, sqrt
from typing import Any

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from rfplan.physics import fock

XI = np.concatenate([np.linspace(0.0, 3.0, 61), np.linspace(3.5, 30.0, 54)])


def test_the_zeros_are_those_of_the_airy_functions() -> None:
    from scipy.special import airy

    for zero in fock.AIRY_ZEROS:
        assert airy(-zero)[0] == pytest.approx(0.0, abs=1e-13)
    for zero in fock.AIRY_SLOPE_ZEROS:
        assert airy(-zero)[1] == pytest.approx(0.0, abs=1e-13)


def test_the_first_zeros_are_the_printed_ones() -> None:
    printed = (1.01879297, 3.24819758, 4.82009921, 6.16330736)
    assert fock.AIRY_SLOPE_ZEROS[:4] == pytest.approx(printed, abs=5e-9)
    assert fock.AIRY_ZEROS[0] == pytest.approx(2.33810741, abs=5e-9)


def test_the_first_terms_of_the_series_are_those_remembered_from_print() -> None:
    hard, soft = fock.fock_series()
    assert hard[:4] == pytest.approx([1.0, -sqrt(pi) / 4, 7 / 60, -7 * sqrt(pi) / 512])
    assert soft[:4] == pytest.approx([1.0, -sqrt(pi) / 2, 5 / 12, -5 * sqrt(pi) / 64])


def test_the_terms_in_the_sixth_power_are_not_the_rounded_ones_often_quoted() -> None:
    hard, soft = fock.fock_series()
    assert hard[4] == pytest.approx(4.3981e-3, abs=1e-7) and hard[4] != pytest.approx(4.141e-3)
    assert soft[4] == pytest.approx(3.6541e-2, abs=1e-6) and soft[4] != pytest.approx(3.701e-2)


def test_series_and_residues_meet_where_one_takes_over() -> None:
    below, above = fock.SERIES_UP_TO - 1e-12, fock.SERIES_UP_TO + 1e-12
    for function in (fock.hard_fock, fock.soft_fock):
        assert abs(function(below) - function(above)) < 1e-9
    for one, other in zip(fock.hard_fock_terms(below), fock.hard_fock_terms(above), strict=True):
        assert abs(one - other) < 1e-9


def test_both_functions_are_the_residue_sums_of_mpmath() -> None:
    mp: Any = pytest.importorskip("mpmath", reason="mpmath is not installed")
    turn = mp.e ** (-1j * mp.pi / 3)
    slopes = [-mp.airyaizero(n, derivative=1) * turn for n in range(1, 31)]
    zeros = [-mp.airyaizero(n) * turn for n in range(1, 31)]
    quarter = mp.e ** (1j * mp.pi / 4)
    for xi in (0.8, 1.0, 1.7, 2.5, 6.0):
        hard = mp.sqrt(mp.pi * xi) / quarter * sum(mp.e ** (-1j * xi * t) / t for t in slopes)
        soft = 2 * quarter * mp.sqrt(mp.pi) * xi**1.5 * sum(mp.e ** (-1j * xi * t) for t in zeros)
        assert abs(fock.hard_fock(xi) - complex(hard)) < 1e-8
        assert abs(fock.soft_fock(xi) - complex(soft)) < 1e-6


def test_the_table_is_as_good_as_it_says() -> None:
    xi = np.linspace(0.0, 60.0, 4001)
    table, x = fock.fock_pair(xi), np.exp(0.25j * pi) * xi**1.5
    hard, soft = fock.hard_fock(xi), fock.soft_fock(xi)
    assert np.max(np.abs(table.hard / hard - 1.0)) < 4e-6
    assert np.max(np.abs((table.hard + x * table.slope - soft) / hard)) < 4e-6


def test_the_difference_over_x_is_finite_on_the_axis() -> None:
    assert fock.fock_pair(0.0).slope == pytest.approx(-sqrt(pi) / 4)


@given(st.floats(0.0, 20.0), st.floats(1e-3, 5.0))
def test_waves_fade_deeper_in_the_shade(xi: float, further: float) -> None:
    assert abs(fock.hard_fock(xi + further)) < abs(fock.hard_fock(xi))
    assert abs(fock.soft_fock(xi)) <= abs(fock.hard_fock(xi)) + 1e-12


def test_logarithmic_slopes_are_those_of_differences() -> None:
    step = 1e-4
    for xi in (0.4, 1.2, 1.9, 2.6, 5.0):
        x = np.exp(0.25j * pi) * xi**1.5
        first, second, rest = fock.hard_fock_terms(xi)
        ups = fock.hard_fock(xi * np.exp(step * np.array([-1.0, 0.0, 1.0])))
        assert x * first == pytest.approx((ups[2] - ups[0]) / (2 * step), abs=1e-6)
        assert x * second == pytest.approx((ups[2] - 2 * ups[1] + ups[0]) / step**2, abs=1e-4)
        further = fock.hard_fock_terms(xi + step)[2]
        middle = xi + step / 2
        assert (rest - further) / step == pytest.approx(
            sqrt(middle) * fock.hard_fock(middle), abs=1e-6
        )


def test_a_negative_shade_is_refused() -> None:
    for function in (fock.hard_fock, fock.soft_fock, fock.fock_pair, fock.hard_fock_terms):
        with pytest.raises(ValueError, match="xi"):
            function(-0.1)
