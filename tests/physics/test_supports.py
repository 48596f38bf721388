# SPDX-License-Identifier: Apache-2.0
"""Clamps and marks along a run."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from rfplan.physics.supports import mark_count, support_count

INCH = 0.0254


@given(st.floats(0.05, 30.0), st.floats(0.1, 1.0))
def test_no_span_is_longer_than_allowed_and_no_clamp_is_spare(length: float, most: float) -> None:
    spans = support_count(length, most) - 1
    assert length / spans <= most * (1.0 + 1e-8)
    assert spans == 1 or length / (spans - 1) > most * (1.0 - 1e-8)


@given(st.integers(1, 60))
def test_a_run_of_whole_spans_needs_no_clamp_more(spans: int) -> None:
    assert support_count(spans * 24 * INCH, 24 * INCH) == spans + 1


@pytest.mark.parametrize(("inches", "marks"), [(2.9, 0), (3.0, 1), (7.0, 1), (7.1, 2), (15.1, 3)])
def test_short_cables_carry_fewer_marks(inches: float, marks: int) -> None:
    assert mark_count(inches * INCH, 15 * INCH, unmarked_m=3 * INCH, single_m=7 * INCH) == marks


def test_a_run_without_length_is_refused() -> None:
    with pytest.raises(ValueError, match="length_m"):
        support_count(0.0, 0.6)


def test_limits_of_marking_in_the_wrong_order_are_refused() -> None:
    with pytest.raises(ValueError, match="single_m"):
        mark_count(1.0, 0.4, unmarked_m=0.2, single_m=0.1)
