# SPDX-License-Identifier: Apache-2.0
"""Labels that keep apart and stay in order."""

from __future__ import annotations

import itertools

from hypothesis import given
from hypothesis import strategies as st

from rfplan.reports.drawings.spreading import spread


@given(st.lists(st.floats(0.0, 200.0), max_size=20).map(sorted), st.floats(1.0, 9.0))
def test_spread_labels_keep_their_gap_and_their_order(targets: list[float], gap: float) -> None:
    places = spread(targets, gap, 0.0, 200.0)
    assert len(places) == len(targets)
    for one, other in itertools.pairwise(places):
        assert other - one >= gap - 1e-9
    assert all(place >= -1e-9 for place in places)


def test_labels_with_room_enough_stay_where_they_belong() -> None:
    assert spread([10.0, 30.0, 50.0], 5.0, 0.0, 100.0) == [10.0, 30.0, 50.0]


def test_labels_of_one_place_stand_round_it() -> None:
    assert spread([50.0, 50.0, 50.0], 4.0, 0.0, 100.0) == [46.0, 50.0, 54.0]
