# SPDX-License-Identifier: Apache-2.0
"""Loss of a path, its tolerance and the power that is left."""

from __future__ import annotations

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from rfplan.physics import path_loss
from rfplan.physics.mismatch import mismatch_loss_db

LOSSES = st.floats(0.0, 60.0)


@given(st.floats(0.0, 2.0), st.floats(0.0, 30.0), st.floats(0.0, 1.0), st.integers(0, 8))
def test_each_mated_pair_adds_its_own_loss_once(
    a: float, length: float, pair: float, n: int
) -> None:
    more = path_loss.path_loss_db(a, length, pair, n + 1)
    assert more - path_loss.path_loss_db(a, length, pair, n) == pytest.approx(pair, abs=1e-9)


@given(st.floats(0.01, 2.0), st.floats(0.1, 30.0))
def test_measuring_a_length_gives_its_attenuation_back(a: float, length: float) -> None:
    loss = path_loss.path_loss_db(a, length)
    assert path_loss.measured_attenuation_db_per_m(loss, length) == pytest.approx(a)


@given(st.floats(0.0, 30.0), st.floats(0.0, 1.0))
def test_ageing_is_a_share_of_the_loss_in_decibels(loss: float, share: float) -> None:
    allowance = path_loss.ageing_allowance_db(loss, share)
    assert allowance == pytest.approx(path_loss.path_loss_db(loss, share))
    assert path_loss.ageing_allowance_db(2.0 * loss, share) == pytest.approx(2.0 * allowance)


@given(st.floats(0.0, 3.0), st.floats(1.0, 3.0))
def test_heat_and_reflection_together_are_the_insertion_loss(insertion: float, vswr: float) -> None:
    heat = path_loss.pair_dissipation_db(insertion, vswr)
    total = heat + mismatch_loss_db(vswr)
    assert total == pytest.approx(max(insertion, float(mismatch_loss_db(vswr))), abs=1e-12)


@given(st.floats(0.0, 1.0e4), LOSSES)
def test_power_is_either_left_or_lost(power: float, loss: float) -> None:
    left, lost = path_loss.power_after_loss_w(power, loss), path_loss.power_lost_w(power, loss)
    assert left + lost == pytest.approx(power)
    assert 0.0 <= left <= power


@given(st.lists(LOSSES, min_size=1, max_size=6))
def test_independent_tolerances_combine_to_less_than_their_sum(parts: list[float]) -> None:
    combined = path_loss.root_sum_square_db(np.array(parts))
    assert max(parts) - 1e-9 <= combined <= sum(parts) + 1e-9


def test_a_loss_over_frequencies_keeps_their_shape() -> None:
    losses = path_loss.path_loss_db(np.array([0.4, 0.5, 0.6]), 2.0, 0.1, 2)
    np.testing.assert_allclose(losses, [1.0, 1.2, 1.4])


@pytest.mark.parametrize(
    ("arguments", "name"),
    [
        ((-0.1, 1.0), "attenuation_db_per_m"),
        ((0.1, -1.0), "length_m"),
        ((0.1, 1.0, -0.1, 1), "pair_loss_db"),
        ((0.1, 1.0, 0.1, -1), "mated_pairs"),
        ((np.nan, 1.0), "attenuation_db_per_m"),
    ],
)
def test_a_negative_or_unknown_part_is_refused_by_name(
    arguments: tuple[float, ...], name: str
) -> None:
    with pytest.raises(ValueError, match=name):
        path_loss.path_loss_db(*arguments)  # type: ignore[arg-type]
