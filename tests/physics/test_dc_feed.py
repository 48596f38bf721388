# SPDX-License-Identifier: Apache-2.0
"""Direct current through a coaxial cable."""

from __future__ import annotations

import math

import pytest
from hypothesis import given
from hypothesis import strategies as st

from rfplan.physics import dc_feed

RESISTANCES = st.floats(0.0, 1.0)


@given(st.floats(0.0, 0.5), st.floats(0.0, 20.0), RESISTANCES, RESISTANCES)
def test_both_conductors_take_their_share(i: float, length: float, rc: float, rs: float) -> None:
    drop = dc_feed.feed_drop_v(i, length, rc, rs)
    assert drop == pytest.approx(i * length * rc + i * length * rs, abs=1e-12)


@given(st.floats(0.0, 0.5), st.floats(0.0, 20.0), RESISTANCES, st.floats(0.0, 1.0))
def test_a_shield_of_less_than_the_centre_stays_in_the_bounds(
    i: float, length: float, rc: float, part: float
) -> None:
    low, high = dc_feed.feed_drop_bounds_v(i, length, rc)
    assert low - 1e-12 <= dc_feed.feed_drop_v(i, length, rc, part * rc) <= high + 1e-12


@given(st.integers(1, 37), st.floats(0.05e-3, 2.0e-3))
def test_strands_share_the_current(strands: int, diameter: float) -> None:
    one = dc_feed.conductor_resistance_ohm_per_m(1, diameter, 1.7241e-8)
    all_of_them = dc_feed.conductor_resistance_ohm_per_m(strands, diameter, 1.7241e-8)
    assert all_of_them * strands == pytest.approx(one)


def test_a_negative_current_is_refused() -> None:
    with pytest.raises(ValueError, match="current_a"):
        dc_feed.feed_drop_v(-0.1, 1.0, 0.03, 0.01)


@given(st.floats(0.001, 2.0), st.floats(25.0, 100.0))
def test_the_bound_by_loss_is_the_resistance_that_would_explain_it(
    per_m: float, ohm: float
) -> None:
    loop = dc_feed.most_loop_resistance_ohm_per_m(per_m, ohm)
    assert 20.0 / math.log(10.0) * loop / (2.0 * ohm) == pytest.approx(per_m)
