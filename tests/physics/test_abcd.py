# SPDX-License-Identifier: Apache-2.0
"""Chain matrices: what must hold for every reciprocal two-port."""

from __future__ import annotations

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from rfplan.physics import abcd

LENGTHS = st.floats(0.0, 5.0)
LOSSES = st.floats(0.0, 40.0)
GAMMA = 0.05 + 21.0j


@given(LENGTHS, LOSSES, st.floats(1.0, 10.0))
def test_every_chain_of_passive_parts_is_reciprocal(
    length: float, loss: float, vswr: float
) -> None:
    parts = [abcd.line_abcd(GAMMA, 48.0, length), abcd.attenuator_abcd(loss)]
    chain = abcd.cascade_abcd([*parts, abcd.mismatch_abcd(vswr)])
    s = abcd.s_parameters(chain)
    assert np.linalg.det(chain) == pytest.approx(1.0, rel=1e-4)
    assert s[0, 1] == pytest.approx(s[1, 0], rel=1e-4)


@given(LENGTHS, LENGTHS)
def test_two_lengths_of_one_line_are_one_line(first: float, second: float) -> None:
    split = abcd.line_abcd(GAMMA, 50.0, first) @ abcd.line_abcd(GAMMA, 50.0, second)
    whole = abcd.line_abcd(GAMMA, 50.0, first + second)
    np.testing.assert_allclose(split, whole, rtol=1e-9, atol=1e-9)


@given(LOSSES)
def test_an_attenuator_is_matched_and_loses_what_it_says(loss: float) -> None:
    s = abcd.s_parameters(abcd.attenuator_abcd(loss))
    assert abs(s[0, 0]) == pytest.approx(0.0, abs=1e-9)
    assert -20.0 * np.log10(abs(s[1, 0])) == pytest.approx(loss, abs=1e-6)


@given(st.floats(1.0, 20.0))
def test_a_mismatch_shows_its_vswr_and_loses_no_power(vswr: float) -> None:
    s = abcd.s_parameters(abcd.mismatch_abcd(vswr))
    assert abs(s[0, 0]) == pytest.approx((vswr - 1) / (vswr + 1))
    assert abs(s[0, 0]) ** 2 + abs(s[1, 0]) ** 2 == pytest.approx(1.0)


@given(LENGTHS, LOSSES)
def test_scattering_parameters_are_those_of_scikit_rf(length: float, loss: float) -> None:
    theirs = pytest.importorskip("skrf.network").a2s
    line = abcd.line_abcd(np.array([GAMMA, 2 * GAMMA]), 75.0, length)
    chain = abcd.cascade_abcd([abcd.series_abcd(20 + 5j), line, abcd.attenuator_abcd(loss)])
    np.testing.assert_allclose(abcd.s_parameters(chain), theirs(chain), rtol=1e-4, atol=1e-9)


def test_a_resistance_in_series_reflects_and_passes_its_share() -> None:
    s = abcd.s_parameters(abcd.series_abcd(25.0))
    np.testing.assert_allclose(s, [[0.2, 0.8], [0.8, 0.2]], atol=1e-12)


def test_a_resistance_across_the_line_reflects_with_the_other_sign() -> None:
    s = abcd.s_parameters(abcd.shunt_abcd(0.01))
    np.testing.assert_allclose(s, [[-0.2, 0.8], [0.8, -0.2]], atol=1e-12)


def test_no_parts_are_a_straight_wire() -> None:
    np.testing.assert_array_equal(abcd.cascade_abcd([]), np.eye(2))


def test_parts_over_frequency_and_parts_without_are_joined() -> None:
    line = abcd.line_abcd(np.array([0.1j, 0.2j, 0.3j]), 50.0, 1.0)
    chain = abcd.cascade_abcd([abcd.series_abcd(1.0), line, abcd.shunt_abcd(0.001)])
    assert chain.shape == (3, 2, 2)


def test_a_blocking_pair_of_series_and_shunt_divides_the_voltage() -> None:
    divider = abcd.series_abcd(50.0) @ abcd.shunt_abcd(1 / 50.0)
    assert divider[0, 0] == pytest.approx(2.0)


def test_a_line_without_resistance_is_refused() -> None:
    with pytest.raises(ValueError, match="line_resistance_ohm"):
        abcd.line_abcd(GAMMA, 50j, 1.0)
