# SPDX-License-Identifier: Apache-2.0
"""What is kept: found again for the same objects, worked out anew for any other."""

from __future__ import annotations

from rfplan.analysis.kept import MOST_KEPT, kept
from rfplan.units import Range


def test_the_same_objects_are_worked_out_once_and_equal_ones_for_themselves() -> None:
    asked: list[Range] = []

    @kept
    def width(span: Range, share: float) -> object:
        asked.append(span)
        return span, share

    one, equal, half = Range(1.0, 2.0), Range(1.0, 2.0), 0.5
    assert width(one, half) is width(one, half)
    assert len(asked) == 1
    assert width(equal, half) is not width(one, half)
    assert asked[1] is equal and one == equal


def test_an_object_that_is_gone_leaves_nothing_to_one_that_takes_its_place() -> None:
    @kept
    def first(items: list[int]) -> int:
        return items[0]

    assert [first([number]) for number in range(10 * MOST_KEPT)] == list(range(10 * MOST_KEPT))
