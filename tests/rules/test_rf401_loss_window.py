# SPDX-License-Identifier: Apache-2.0
"""RF401: one band against its window, both sides, known and unknown."""

from __future__ import annotations

import math
from dataclasses import replace
from typing import Any

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from rooms import findings
from sample import sample_assessment, sample_plan, with_port

from rfplan.analysis.element_loss import BandGrid
from rfplan.analysis.loss_budget import BandBudget
from rfplan.model.findings import RANK, Verdict
from rfplan.model.plan import Policy, Port, StackUp
from rfplan.model.record import ById
from rfplan.rules.rf401_loss_window import Judgement, judge, loss_range
from rfplan.units import NONE, UNKNOWN, Range

INF = math.inf


def budget(least: float, nominal: float, most: float, **changes: Any) -> BandBudget:
    """Return a budget at one frequency with these corners, at 20 degC half as wide."""
    one = BandBudget(
        grid=BandGrid("rx", np.array([1.0e9])),
        items=(),
        nominal=np.array([nominal]),
        least=np.array([least]),
        most=np.array([most]),
        least_20=np.array([(least + nominal) / 2]),
        most_20=np.array([(most + nominal) / 2]),
        judged_nominal=np.array([nominal]),
        rss=(np.array([least + 0.1]), np.array([most - 0.1])),
        mismatch_db=None,
        most_if_small=most,
        least_if_large=least,
        unknown_least=(),
        unknown_most=(),
    )
    return replace(one, **changes)


def judged(one: BandBudget, low: Any, high: Any, **changes: Any) -> Judgement:
    """Return the verdict against a window; `limit_at` is of the port, all else of the policy."""
    port = Port(
        "gnss_l1", loss_db=ById({"all": Range(low, high)}), limit_at=changes.pop("limit_at", None)
    )
    return judge(one, port, Policy(**changes))


@pytest.mark.parametrize(
    ("low", "high", "word"),
    [
        (1.0, 4.0, Verdict.PASS),
        (1.0, 2.9, Verdict.FAIL_HIGH),
        (1.6, 4.0, Verdict.FAIL_LOW),
        (1.6, 2.9, Verdict.FAIL_HIGH),
        (NONE, 2.9, Verdict.FAIL_HIGH),
        (1.6, NONE, Verdict.FAIL_LOW),
        (NONE, NONE, Verdict.PASS),
        (UNKNOWN, 4.0, Verdict.INCOMPLETE),
        (1.0, UNKNOWN, Verdict.INCOMPLETE),
        (UNKNOWN, UNKNOWN, Verdict.INCOMPLETE),
        (UNKNOWN, 2.9, Verdict.FAIL_HIGH),
        (1.6, UNKNOWN, Verdict.FAIL_LOW),
    ],
)
def test_both_corners_are_judged_against_both_sides(low: Any, high: Any, word: Verdict) -> None:
    assert judged(budget(1.5, 2.0, 3.0), low, high).verdict is word


def test_a_limit_that_is_met_exactly_is_met() -> None:
    one = budget(1.5, 2.0, 3.0)
    assert judged(one, 1.5, 3.0).verdict is Verdict.PASS
    assert judged(one, 1.5 + 5e-10, 3.0 - 5e-10).verdict is Verdict.PASS
    assert judged(one, 1.5 + 2e-9, 4.0).verdict is Verdict.FAIL_LOW
    assert judged(one, 1.0, 3.0 - 2e-9).verdict is Verdict.FAIL_HIGH


def test_margins_are_positive_where_there_is_room() -> None:
    one = judged(budget(1.5, 2.0, 3.0), 1.0, 2.9)
    assert one.margin_to_min_db == pytest.approx(0.5)
    assert one.margin_to_max_db == pytest.approx(-0.1)
    bare = judged(budget(1.5, 2.0, 3.0), NONE, UNKNOWN)
    assert (bare.margin_to_min_db, bare.margin_to_max_db) == (None, None)


def test_the_verdict_of_the_nominal_stands_beside() -> None:
    one = budget(1.5, 2.0, 3.0)
    assert judged(one, 1.0, 2.5).nominal_verdict is Verdict.PASS
    assert judged(one, 1.0, 1.9).nominal_verdict is Verdict.FAIL_HIGH
    assert judged(one, 2.1, 4.0).nominal_verdict is Verdict.FAIL_LOW
    assert judged(one, UNKNOWN, 4.0).nominal_verdict is Verdict.INCOMPLETE
    assert judged(one, UNKNOWN, 1.9).nominal_verdict is Verdict.FAIL_HIGH
    lost = budget(1.5, math.nan, INF, unknown_most=("w.route",))
    assert judged(lost, 1.0, 4.0).nominal_verdict is Verdict.INCOMPLETE


# ----- near


@pytest.mark.parametrize(
    ("high", "near"),
    [(3.6, False), (3.51, False), (3.49, True), (3.0, True)],
)
def test_within_half_a_decibel_of_a_limit_is_near(high: float, near: bool) -> None:
    one = judged(budget(1.5, 2.0, 3.0), NONE, high)
    assert (one.verdict, one.near) == (Verdict.PASS, near)


@pytest.mark.parametrize(("margin", "near"), [(0.21, False), (0.19, True)])
def test_in_a_narrow_window_a_tenth_of_it_is_near(margin: float, near: bool) -> None:
    # window 2 dB wide: a tenth is 0.2, less than 0.5
    high = 3.0 + margin
    assert judged(budget(1.9, 2.5, 3.0), high - 2.0, high).near is near


@pytest.mark.parametrize(("margin", "near"), [(0.31, False), (0.29, True)])
def test_the_shop_may_ask_for_less_than_half_a_decibel(margin: float, near: bool) -> None:
    assert judged(budget(1.5, 2.0, 3.0), NONE, 3.0 + margin, near_db=0.3).near is near


def test_near_counts_on_the_lower_side_too_and_never_where_no_limit_is() -> None:
    assert judged(budget(1.2, 2.0, 3.0), 1.0, 9.0).near
    assert not judged(budget(1.2, 2.0, 3.0), NONE, 9.0).near


def test_near_never_hides_a_fail() -> None:
    one = judged(budget(1.2, 2.0, 3.0), 1.0, 2.9)
    assert (one.verdict, one.near) == (Verdict.FAIL_HIGH, False)


# ----- datum and stack-up


def test_a_limit_at_room_temperature_is_judged_there_and_heat_gives_near_at_most() -> None:
    # 1.75 .. 2.5 at 20 degC, 1.5 .. 3.0 from cold to hot
    hot_above = judged(budget(1.5, 2.0, 3.0), NONE, 2.8, limit_at="room")
    assert (hot_above.verdict, hot_above.near) == (Verdict.PASS, True)
    assert hot_above.margin_to_max_db == pytest.approx(0.3)
    assert judged(budget(1.5, 2.0, 3.0), NONE, 2.8, limit_at="range").verdict is Verdict.FAIL_HIGH
    assert judged(budget(1.5, 2.0, 3.0), NONE, 2.4, limit_at="room").verdict is Verdict.FAIL_HIGH
    cold_below = judged(budget(1.5, 2.0, 3.0), 1.6, 9.0, limit_at="room")
    assert (cold_below.verdict, cold_below.near) == (Verdict.PASS, True)
    assert not judged(budget(1.5, 2.0, 3.0), NONE, 4.0, limit_at="room").near


@pytest.mark.parametrize(
    ("stack", "extent"),
    [
        (StackUp.WORST_CASE, (1.5, 3.0)),
        (StackUp.RSS, (1.6, 2.9)),
        (StackUp.NOMINAL, (2.0, 2.0)),
    ],
)
def test_the_stack_up_of_the_plan_says_what_is_judged(
    stack: StackUp, extent: tuple[float, float]
) -> None:
    one = judged(budget(1.5, 2.0, 3.0), NONE, NONE, stack=stack)
    assert (one.least_db, one.most_db) == (pytest.approx(extent[0]), pytest.approx(extent[1]))
    assert judged(budget(1.5, 2.0, 3.0), *extent, stack=stack).verdict is Verdict.PASS
    too_low = judged(budget(1.5, 2.0, 3.0), NONE, extent[1] - 0.01, stack=stack)
    assert too_low.verdict is Verdict.FAIL_HIGH


@pytest.mark.parametrize("stack", list(StackUp))
def test_an_unknown_keeps_its_bounds_whatever_the_stack_up(stack: StackUp) -> None:
    # a cable known by its maximum alone: nominal and most 3.0, least 0.3
    floorless = budget(0.3, 3.0, 3.0, unknown_least=("cable.attenuation",), least_if_large=3.0)
    one = judged(floorless, 1.0, 4.0, stack=stack)
    assert (one.verdict, one.undecided_by) == (Verdict.INCOMPLETE, ("cable.attenuation",))


# ----- unknowns


def endless(low: Any, high: Any, *, small: float = 1.8) -> Judgement:
    """Return the verdict of a path of unknown length: 1.5 dB at least, perhaps no end."""
    one = budget(1.5, math.nan, INF, unknown_least=("w.route",), unknown_most=("w.route",))
    return judged(replace(one, most_if_small=small, least_if_large=INF), low, high)


def test_an_unknown_that_could_break_a_limit_blocks_and_is_named() -> None:
    one = endless(1.0, 4.0)
    assert (one.verdict, one.undecided_by) == (Verdict.INCOMPLETE, ("w.route",))
    assert (one.least_db, one.most_db) == (1.5, None)


def test_an_unknown_that_cannot_change_the_verdict_does_not_block() -> None:
    one = endless(1.0, NONE)
    assert (one.verdict, one.bounded, one.undecided_by) == (Verdict.PASS, True, ())


def test_an_unknown_fails_all_the_same_where_even_its_least_breaks_the_limit() -> None:
    one = endless(NONE, 1.7)
    assert (one.verdict, one.bounded) == (Verdict.FAIL_HIGH, True)


def test_too_little_is_sure_only_if_the_unknown_cannot_make_up_for_it() -> None:
    known = budget(0.3, 3.0, 3.0, unknown_least=("cable.attenuation",), least_if_large=2.0)
    assert judged(known, 2.5, 9.0).verdict is Verdict.FAIL_LOW
    assert judged(known, 1.5, 9.0).verdict is Verdict.INCOMPLETE
    assert judged(known, 0.2, 9.0).verdict is Verdict.PASS


def test_what_is_known_is_not_called_bounded() -> None:
    assert not judged(budget(1.5, 2.0, 3.0), 1.0, 4.0).bounded


def test_a_limit_that_is_not_known_names_the_port() -> None:
    assert judged(budget(1.5, 2.0, 3.0), UNKNOWN, 4.0).undecided_by == ("port.loss",)
    assert judged(budget(1.5, 2.0, 3.0), UNKNOWN, UNKNOWN).undecided_by == ("port.loss",)


def test_the_limit_of_a_band_comes_before_that_of_all_and_none_at_all_is_unknown() -> None:
    port = Port("transponder", loss_db=ById({"all": Range(NONE, 3.0), "tx": Range(NONE, 2.0)}))
    assert loss_range(port, "tx") == Range(NONE, 2.0)
    assert loss_range(port, "rx") == Range(NONE, 3.0)
    assert loss_range(Port("transponder"), "rx") == Range(UNKNOWN, UNKNOWN)


def test_a_failed_window_is_one_record_and_no_finding() -> None:
    plan = with_port(sample_plan(), "nav1", "gnss", loss_db=ById({"all": Range(NONE, 1.0)}))
    assert findings("RF401", plan) == []
    assert sample_assessment(plan).verdict is Verdict.FAIL_HIGH


# ----- properties

DB = st.floats(0.0, 10.0)
ENDS = st.one_of(DB, st.sampled_from([NONE, UNKNOWN]))


@st.composite
def budgets(draw: st.DrawFn) -> BandBudget:
    """Return a budget whose corners lie in order, perhaps with something unknown on a side."""
    least, nominal, most = sorted(draw(st.tuples(DB, DB, DB)))
    one = budget(least, nominal, most)
    if draw(st.booleans()):
        large = draw(st.floats(least, 12.0))
        one = replace(one, unknown_least=("x.length",), least_if_large=large)
    if draw(st.booleans()):
        small = draw(st.floats(0.0, most))
        one = replace(one, unknown_most=("x.length",), most=np.array([INF]), most_if_small=small)
    return one


@settings(max_examples=60, deadline=None)
@given(budgets(), ENDS, ENDS, st.sampled_from(["low", "high", "both"]), st.sampled_from(StackUp))
def test_a_limit_no_longer_known_never_turns_a_fail_or_an_incomplete_into_a_pass(
    one: BandBudget, low: Any, high: Any, lost: str, stack: StackUp
) -> None:
    before = judged(one, low, high, stack=stack).verdict
    low = UNKNOWN if lost in ("low", "both") else low
    high = UNKNOWN if lost in ("high", "both") else high
    after = judged(one, low, high, stack=stack).verdict
    assert after is not Verdict.PASS
    if before.fails:
        assert after.fails or after is Verdict.INCOMPLETE


@settings(max_examples=60, deadline=None)
@given(budgets(), DB, DB, DB, DB)
def test_a_wider_window_never_gives_a_worse_verdict(
    one: BandBudget, a: float, b: float, more_below: float, more_above: float
) -> None:
    low, high = sorted((a, b))
    inner = judged(one, low, high).verdict
    outer = judged(one, low - more_below, high + more_above).verdict
    decided = {Verdict.FAIL_HIGH: 0, Verdict.FAIL_LOW: 0, Verdict.INCOMPLETE: 1, Verdict.PASS: 2}
    assert decided[outer] >= decided[inner]


@settings(max_examples=60, deadline=None)
@given(budgets(), ENDS, ENDS)
def test_incomplete_always_names_what_decides_and_anything_else_names_no_loss(
    one: BandBudget, low: Any, high: Any
) -> None:
    found = judged(one, low, high)
    if found.verdict is Verdict.INCOMPLETE:
        assert found.undecided_by
    if found.verdict is Verdict.PASS:
        assert found.undecided_by == ()
    assert RANK[found.verdict] <= RANK[Verdict.PASS]


@settings(max_examples=60, deadline=None)
@given(budgets(), DB, DB, st.floats(0.0, 12.0))
def test_whatever_the_unknown_turns_out_to_be_a_pass_stays_a_pass(
    one: BandBudget, a: float, b: float, turns_out: float
) -> None:
    low, high = sorted((a, b))
    if judged(one, low, high).verdict is not Verdict.PASS:
        return
    assert not one.unknown_most  # without an end above no upper limit is met
    least = float(one.least[0]) + turns_out
    known = replace(one, least=np.array([least]), unknown_least=())
    assert judged(known, low, high).verdict is not Verdict.FAIL_LOW
