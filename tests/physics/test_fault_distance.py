# SPDX-License-Identifier: Apache-2.0
"""Range and resolution of a sweep."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from rfplan.physics.fault_distance import fault_range_m, fault_resolution_m


@given(st.integers(1, 10_000), st.floats(0.5, 1.0), st.floats(1e6, 1e10))
def test_the_range_has_one_cell_an_interval(intervals: int, velocity: float, span: float) -> None:
    cell = fault_resolution_m(velocity, span)
    assert fault_range_m(intervals, velocity, span) == pytest.approx(intervals * cell)


def test_a_wider_sweep_sees_finer_and_less_far() -> None:
    assert fault_resolution_m(0.7, 2e9) < fault_resolution_m(0.7, 1e9)
    assert fault_range_m(256, 0.7, 2e9) < fault_range_m(256, 0.7, 1e9)


def test_a_sweep_without_steps_is_refused() -> None:
    with pytest.raises(ValueError, match="intervals"):
        fault_range_m(0, 0.7, 1e9)
