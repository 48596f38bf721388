# SPDX-License-Identifier: Apache-2.0
"""Reflections and the bounds of two of them."""

from __future__ import annotations

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from rfplan.physics import mismatch

VSWR = st.floats(1.0, 20.0)
LOSS = st.floats(0.0, 30.0)


@given(VSWR)
def test_a_vswr_survives_the_way_to_a_reflection_and_back(vswr: float) -> None:
    reflection = mismatch.reflection_ratio(vswr)
    assert mismatch.vswr_from_reflection(reflection) == pytest.approx(vswr)


@given(st.floats(1.001, 20.0))
def test_a_vswr_survives_the_way_to_a_return_loss_and_back(vswr: float) -> None:
    returned = mismatch.return_loss_db(vswr)
    assert mismatch.vswr_from_return_loss(returned) == pytest.approx(vswr)


def test_a_perfect_match_returns_nothing() -> None:
    assert mismatch.return_loss_db(1.0) == np.inf
    assert mismatch.mismatch_loss_db(1.0) == 0.0


@given(VSWR, VSWR)
def test_without_line_loss_the_bounds_are_the_product_and_the_quotient(
    s1: float, s2: float
) -> None:
    low, high = mismatch.mismatch_bounds_db(s1, s2, 0.0)
    assert high == pytest.approx(mismatch.mismatch_loss_db(s1 * s2), abs=1e-9)
    assert low == pytest.approx(mismatch.mismatch_loss_db(max(s1, s2) / min(s1, s2)), abs=1e-9)


@given(VSWR, VSWR, LOSS)
def test_the_bounds_do_not_care_which_end_is_which(s1: float, s2: float, loss: float) -> None:
    assert mismatch.mismatch_bounds_db(s1, s2, loss) == pytest.approx(
        mismatch.mismatch_bounds_db(s2, s1, loss)
    )


@given(VSWR, VSWR, LOSS)
def test_the_ripple_is_the_distance_of_the_bounds(s1: float, s2: float, loss: float) -> None:
    low, high = mismatch.mismatch_bounds_db(s1, s2, loss)
    assert mismatch.mismatch_ripple_db(s1, s2, loss) == pytest.approx(high - low, abs=1e-9)


@given(VSWR, VSWR, LOSS, LOSS)
def test_a_lossier_line_ripples_less(s1: float, s2: float, first: float, second: float) -> None:
    less, more = sorted((first, second))
    ripple = mismatch.mismatch_ripple_db
    assert ripple(s1, s2, more) <= ripple(s1, s2, less) + 1e-12


@given(VSWR, LOSS)
def test_a_matched_end_leaves_no_ripple(vswr: float, loss: float) -> None:
    low, high = mismatch.mismatch_bounds_db(vswr, 1.0, loss)
    assert low == high == pytest.approx(loss + mismatch.mismatch_loss_db(vswr))


@given(VSWR, VSWR, LOSS, st.floats(0.0, 2.0 * np.pi))
def test_no_phase_of_the_echo_leaves_the_bounds(
    s1: float, s2: float, loss: float, phase: float
) -> None:
    r1, r2 = mismatch.reflection_ratio(s1), mismatch.reflection_ratio(s2)
    echo = r1 * r2 * 10.0 ** (-loss / 10.0) * np.exp(1j * phase)
    through = 10.0 ** (-loss / 10.0) * (1 - r1**2) * (1 - r2**2) / abs(1.0 - echo) ** 2
    low, high = mismatch.mismatch_bounds_db(s1, s2, loss)
    assert low - 1e-9 <= -10.0 * np.log10(through) <= high + 1e-9


def test_an_echo_in_phase_reaches_the_bound_after_one_round_trip() -> None:
    r, loss = 0.5, 3.0
    echo = r * r * 10.0 ** (-2.0 * loss / 20.0)
    low, high = mismatch.mismatch_bounds_db(3.0, 3.0, loss)
    middle = loss + 2.0 * mismatch.mismatch_loss_db(3.0)
    assert high == pytest.approx(middle + 20.0 * np.log10(1.0 + echo))
    assert low == pytest.approx(middle + 20.0 * np.log10(1.0 - echo))


def test_bounds_broadcast_over_frequency() -> None:
    low, high = mismatch.mismatch_bounds_db(1.5, np.array([1.5, 2.0, 3.0]), 1.0)
    assert np.shape(low) == np.shape(high) == (3,)


@pytest.mark.parametrize("vswr", [0.99, 0.0, -1.0, np.nan, np.inf])
def test_a_vswr_below_one_or_unknown_is_refused(vswr: float) -> None:
    with pytest.raises(ValueError, match="vswr must be at least 1"):
        mismatch.reflection_ratio(vswr)


def test_a_total_reflection_has_no_vswr() -> None:
    with pytest.raises(ValueError, match="absorbed_ratio"):
        mismatch.vswr_from_reflection(1.0)


def test_a_negative_line_loss_is_refused() -> None:
    with pytest.raises(ValueError, match="loss_db"):
        mismatch.mismatch_bounds_db(1.5, 1.5, -0.1)
