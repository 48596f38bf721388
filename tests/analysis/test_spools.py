# SPDX-License-Identifier: Apache-2.0
"""Cutting pieces from spools: whole pieces, no spool over-full, few spools."""

from __future__ import annotations

import math
from itertools import permutations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from rfplan.analysis.spools import cut_from_spools, spools_to_hold

SPOOL_M = 30.0
PIECES = st.dictionaries(st.from_regex(r"w[0-9]{1,3}", fullmatch=True), st.floats(0.01, SPOOL_M))


@given(PIECES)
def test_each_piece_is_cut_once_and_whole_from_a_spool_that_holds_it(
    pieces_m: dict[str, float],
) -> None:
    spools = cut_from_spools(pieces_m, SPOOL_M)
    assert sorted(id for spool in spools for id in spool) == sorted(pieces_m)
    for spool in spools:
        assert math.fsum(pieces_m[id] for id in spool) <= SPOOL_M + 1e-6


@given(PIECES)
def test_there_are_never_fewer_spools_than_the_sum_asks_for_and_not_many_more(
    pieces_m: dict[str, float],
) -> None:
    spools = len(cut_from_spools(pieces_m, SPOOL_M))
    least = spools_to_hold(math.fsum(pieces_m.values()), SPOOL_M)
    # any two spools hold more than one spool, else the pieces of the second were cut from the first
    assert least <= spools <= 2 * least


@given(PIECES)
def test_the_order_of_the_pieces_in_the_plan_does_not_matter(pieces_m: dict[str, float]) -> None:
    turned = dict(reversed(pieces_m.items()))
    assert cut_from_spools(turned, SPOOL_M) == cut_from_spools(pieces_m, SPOOL_M)


@given(st.lists(st.integers(1, 10), min_size=1, max_size=6))
def test_it_takes_at_most_one_spool_more_than_the_best_way_to_cut(lengths: list[int]) -> None:
    pieces_m = {f"w{number}": float(length) for number, length in enumerate(lengths)}
    best = min(_in_turn(order) for order in permutations(lengths))
    assert best <= len(cut_from_spools(pieces_m, 10.0)) <= best + 1


def _in_turn(lengths: tuple[int, ...]) -> int:
    """Count spools of 10 that are used up one after the other, no piece put back."""
    spools, left = 1, 10
    for length in lengths:
        if length > left:
            spools, left = spools + 1, 10
        left -= length
    return spools


def test_a_short_piece_goes_where_it_leaves_least() -> None:
    pieces_m = {"w1": 7.0, "w2": 6.0, "w3": 3.0, "w4": 4.0}
    assert cut_from_spools(pieces_m, 10.0) == (("w1", "w3"), ("w2", "w4"))


def test_pieces_that_use_a_spool_up_exactly_fit() -> None:
    assert len(cut_from_spools({f"w{n}": 0.1 for n in range(10)}, 1.0)) == 1
    assert spools_to_hold(math.fsum([0.1] * 10), 1.0) == 1


def test_a_piece_longer_than_a_spool_is_refused() -> None:
    with pytest.raises(ValueError, match="w2 is longer than a spool"):
        cut_from_spools({"w1": 1.0, "w2": 10.1}, 10.0)


def test_no_pieces_need_no_spool() -> None:
    assert cut_from_spools({}, 10.0) == ()
    assert spools_to_hold(0.0, 10.0) == 0
