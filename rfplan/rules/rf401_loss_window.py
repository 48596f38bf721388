# SPDX-License-Identifier: Apache-2.0
"""RF401: the loss of a path over a band, judged on both sides of its window.

A failed window is its own record; this rule yields no findings.
"""

from __future__ import annotations

import math
from dataclasses import dataclass

from rfplan.analysis.element_loss import Floats
from rfplan.analysis.loss_budget import BandBudget
from rfplan.model.findings import Verdict, worst
from rfplan.model.plan import Policy, Port, StackUp
from rfplan.model.rulebook import Rule, Strictness
from rfplan.sources import COMMON_PRACTICE, Citation
from rfplan.units import UNKNOWN, Missing, Range

RULE = Rule(
    id="RF401",
    name="loss-window",
    title="The loss of a path lies outside the window of its port",
    strictness=Strictness.REQUIRED,
    why="Too much loss starves the receiver or the antenna; too little overloads an amplified one.",
    remedy="change length or cable, take out or add a pad that passes the antenna's supply",
    known_limits="corners over 21 frequencies and the entered temperatures; end mismatch only "
    "where the limit says so",
    source=Citation(COMMON_PRACTICE),
)

_NOT_GIVEN = Range(UNKNOWN, UNKNOWN)

TIE_DB = 1.0e-9
NEAR_SHARE = 0.10


@dataclass(frozen=True, slots=True)
class Judgement:
    """The verdict of one band with what it rests on."""

    least_db: float | None
    most_db: float | None
    margin_to_min_db: float | None
    margin_to_max_db: float | None
    nominal_verdict: Verdict
    verdict: Verdict
    near: bool
    bounded: bool
    undecided_by: tuple[str, ...]


def loss_range(port: Port, band: str) -> Range:
    """Return the limit of a port for a band: the band's own, else that for all, else not given."""
    return port.loss_db.get(band) or port.loss_db.get("all") or _NOT_GIVEN


def judged_ends(budget: BandBudget, port: Port, policy: Policy) -> tuple[Floats, Floats]:
    """Return least and most loss over a band by the stack-up and the datum of the limit.

    A side with something unknown keeps its bounds, whatever the stack-up.
    """
    room = port.limit_at == "room"
    ends = (budget.least_20, budget.most_20) if room else (budget.least, budget.most)
    if policy.stack is StackUp.WORST_CASE:
        return ends
    nominal = (budget.judged_nominal, budget.judged_nominal)
    stacked = nominal if policy.stack is StackUp.NOMINAL else budget.rss
    return (
        ends[0] if budget.unknown_least else stacked[0],
        ends[1] if budget.unknown_most else stacked[1],
    )


def judged_extent(budget: BandBudget, port: Port, policy: Policy) -> tuple[float, float]:
    """Return the least and the most loss of a whole band, which are what is judged."""
    least, most = judged_ends(budget, port, policy)
    return float(least.min()), float(most.max())


def judge(budget: BandBudget, port: Port, policy: Policy) -> Judgement:
    """Return the verdict of one band; an unknown blocks only where it can change the verdict."""
    window = loss_range(port, budget.grid.name)
    least, most = judged_extent(budget, port, policy)
    nominal = float(budget.judged_nominal.min()), float(budget.judged_nominal.max())
    corners = float(budget.least.min()), float(budget.most.max())
    low, high = _low_side(budget, least, window), _high_side(budget, most, window)
    verdict = worst((low, high))
    margins = _margins((least, most), window)
    close = [m for m in (*margins, *_margins(corners, window)) if m is not None]
    unknown = tuple(dict.fromkeys((*budget.unknown_least, *budget.unknown_most)))
    return Judgement(
        least_db=_finite(least),
        most_db=_finite(most),
        margin_to_min_db=margins[0],
        margin_to_max_db=margins[1],
        nominal_verdict=_nominal_verdict(nominal, window),
        verdict=verdict,
        near=verdict is Verdict.PASS and min(close, default=math.inf) < near_db(window, policy),
        bounded=bool(unknown) and verdict is not Verdict.INCOMPLETE,
        undecided_by=_undecided(low, high, budget, window),
    )


def near_db(window: Range, policy: Policy) -> float:
    """Return the margin below which a pass is near: the policy's, or a tenth of the window."""
    if isinstance(window.low, Missing) or isinstance(window.high, Missing):
        return policy.near_db - TIE_DB
    return min(policy.near_db, NEAR_SHARE * (window.high - window.low)) - TIE_DB


def _high_side(budget: BandBudget, most: float, window: Range) -> Verdict:
    """Too much? It is undecided where only an unknown could break the limit."""
    if isinstance(window.high, Missing):
        return Verdict.INCOMPLETE if window.high is UNKNOWN else Verdict.PASS
    limit = window.high + TIE_DB
    if most <= limit:
        return Verdict.PASS
    sure = not budget.unknown_most or budget.most_if_small > limit
    return Verdict.FAIL_HIGH if sure else Verdict.INCOMPLETE


def _low_side(budget: BandBudget, least: float, window: Range) -> Verdict:
    """Too little? It is undecided where only an unknown could break the limit."""
    if isinstance(window.low, Missing):
        return Verdict.INCOMPLETE if window.low is UNKNOWN else Verdict.PASS
    limit = window.low - TIE_DB
    if least >= limit:
        return Verdict.PASS
    sure = not budget.unknown_least or budget.least_if_large < limit
    return Verdict.FAIL_LOW if sure else Verdict.INCOMPLETE


def _nominal_verdict(nominal: tuple[float, float], window: Range) -> Verdict:
    if any(math.isnan(value) for value in nominal):
        return Verdict.INCOMPLETE
    low, high = _margins(nominal, window)
    if high is not None and high < -TIE_DB:
        return Verdict.FAIL_HIGH
    if low is not None and low < -TIE_DB:
        return Verdict.FAIL_LOW
    return Verdict.INCOMPLETE if UNKNOWN in (window.low, window.high) else Verdict.PASS


def _undecided(low: Verdict, high: Verdict, budget: BandBudget, window: Range) -> tuple[str, ...]:
    """Name what keeps a side from being decided."""
    names: list[str] = []
    if low is Verdict.INCOMPLETE:
        names += ["port.loss"] if window.low is UNKNOWN else budget.unknown_least
    if high is Verdict.INCOMPLETE:
        names += ["port.loss"] if window.high is UNKNOWN else budget.unknown_most
    return tuple(dict.fromkeys(names))


def _margins(extent: tuple[float, float], window: Range) -> tuple[float | None, float | None]:
    least, most = extent
    low = None if isinstance(window.low, Missing) else least - window.low
    high = None if isinstance(window.high, Missing) else window.high - most
    return _finite(low), _finite(high)


def _finite(value: float | None) -> float | None:
    return value if value is not None and math.isfinite(value) else None
