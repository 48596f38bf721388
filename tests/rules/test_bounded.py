# SPDX-License-Identifier: Apache-2.0
"""A quantity between bounds: it passes, fails, or hangs on what is not known."""

from __future__ import annotations

import math

import pytest
from hypothesis import given
from hypothesis import strategies as st

from rfplan.model.findings import Verdict
from rfplan.rules.bounded import Bounds, at_least, at_most, ends_of, judged
from rfplan.units import NONE, UNKNOWN, Missing, Range

ENDS = st.floats(-50.0, 50.0)


def known(least: float, most: float) -> Bounds:
    return Bounds(least, most, (least, most))


@given(ENDS, ENDS, ENDS, ENDS)
def test_with_all_known_it_passes_exactly_inside_the_window(
    a: float, b: float, c: float, d: float
) -> None:
    (low, high), (least, most) = sorted((a, b)), sorted((c, d))
    outcome = judged(Range(low, high), known(least, most), "name")
    inside = least >= low - 1e-9 and most <= high + 1e-9
    assert (outcome.verdict is Verdict.PASS) == inside
    assert outcome.undecided_by == ()


def test_a_limit_that_is_met_exactly_passes() -> None:
    assert judged(Range(1.0, 2.0), known(1.0, 2.0), "name").verdict is Verdict.PASS


@pytest.mark.parametrize(
    ("least", "most", "value", "limit", "side"),
    [(0.5, 1.5, 0.5, 1.0, "below"), (1.5, 2.5, 2.5, 2.0, "above")],
)
def test_a_failure_tells_the_end_that_made_it_and_its_limit(
    least: float, most: float, value: float, limit: float, side: str
) -> None:
    outcome = judged(Range(1.0, 2.0), known(least, most), "name")
    assert (outcome.value, outcome.limit, outcome.side) == (value, limit, side)
    assert outcome.margins == pytest.approx((least - 1.0, 2.0 - most))


def test_what_is_not_known_blocks_only_where_it_decides() -> None:
    loose = Bounds(-math.inf, 1.5, (1.2, 1.5), unknown_least=("gain",))
    assert judged(at_least(1.0), loose, "name").undecided_by == ("gain",)
    assert judged(at_most(2.0), loose, "name").verdict is Verdict.PASS
    surely_less = Bounds(-math.inf, 0.8, (0.8, 0.8), unknown_least=("gain",))
    assert judged(at_least(1.0), surely_less, "name").verdict is Verdict.FAIL


@pytest.mark.parametrize(("end", "word"), [(UNKNOWN, "INCOMPLETE"), (NONE, "PASS")])
def test_an_unknown_limit_blocks_and_one_that_is_not_stated_does_not(
    end: Missing, word: str
) -> None:
    outcome = judged(Range(end, 5.0), known(1.0, 2.0), "port.net_gain")
    assert outcome.verdict == word
    assert outcome.undecided_by == (("port.net_gain",) if end is UNKNOWN else ())
    assert outcome.margins == (None, 3.0)


def test_ends_that_are_missing_are_none() -> None:
    assert ends_of(Range(UNKNOWN, 3.0)) == (None, 3.0)
    assert ends_of(None) == (None, None)
    assert Bounds(-math.inf, 2.0, (0.0, 0.0)).ends == (None, 2.0)
