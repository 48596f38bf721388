# SPDX-License-Identifier: Apache-2.0
"""A piece of another impedance: best and worst lengths, against the chain that reflects."""

from __future__ import annotations

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from rfplan.physics import odd_piece
from rfplan.physics.chain import chain_loss_db
from rfplan.physics.free_space import wavelength_m
from rfplan.physics.mismatch import mismatch_loss_db
from rfplan.physics.two_port import LineSection

OHMS = st.floats(25.0, 100.0)
LENGTH_M = st.floats(0.0, 5.0)
HZ, VELOCITY = 1.09e9, 0.66


@given(OHMS, LENGTH_M)
def test_a_piece_without_loss_is_the_line_of_the_chain(ohms: float, length_m: float) -> None:
    alone = chain_loss_db(np.array([HZ]), [LineSection(0.0, VELOCITY, ohms, length_m)])
    expected = odd_piece.odd_piece_loss_db(ohms, 50.0, HZ, length_m, VELOCITY)
    assert float(expected) == pytest.approx(float(alone[0]), abs=1e-9)  # type: ignore[index]


@given(OHMS, LENGTH_M)
def test_at_its_best_length_a_piece_loses_nothing_and_at_its_worst_the_most(
    ohms: float, length_m: float
) -> None:
    best_m = odd_piece.best_piece_length_m(length_m, HZ, VELOCITY)
    worst_m = odd_piece.worst_piece_length_m(length_m, HZ, VELOCITY)
    most_db = mismatch_loss_db(odd_piece.odd_piece_worst_vswr(ohms, 50.0))

    def loss_db(at_m: object) -> float:
        return float(odd_piece.odd_piece_loss_db(ohms, 50.0, HZ, at_m, VELOCITY))  # type: ignore[arg-type]

    assert loss_db(best_m) == pytest.approx(0.0, abs=1e-9)
    assert loss_db(worst_m) == pytest.approx(float(most_db), abs=1e-9)
    assert loss_db(length_m) <= float(most_db) + 1e-9


@given(LENGTH_M)
def test_best_and_worst_lengths_lie_within_half_a_wavelength(length_m: float) -> None:
    half_m = float(wavelength_m(HZ, VELOCITY)) / 2.0
    assert abs(odd_piece.worst_piece_length_m(length_m, HZ, VELOCITY) - length_m) <= half_m
    assert abs(odd_piece.best_piece_length_m(length_m, HZ, VELOCITY) - length_m) <= half_m + 1e-12


def test_a_piece_of_the_same_impedance_never_shows() -> None:
    assert odd_piece.odd_piece_worst_vswr(50.0, 50.0) == 1.0
    assert odd_piece.odd_piece_loss_db(50.0, 50.0, HZ, 0.3, VELOCITY) == 0.0


@pytest.mark.parametrize(
    ("ohms", "length_m", "name"), [(0.0, 1.0, "piece_ohm"), (75.0, -1.0, "length_m")]
)
def test_what_cannot_be_is_refused(ohms: float, length_m: float, name: str) -> None:
    with pytest.raises(ValueError, match=name):
        odd_piece.odd_piece_loss_db(ohms, 50.0, HZ, length_m, VELOCITY)
