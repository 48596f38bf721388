# SPDX-License-Identifier: Apache-2.0
"""A quantity between bounds against a window: what is not known blocks only where it decides."""

from __future__ import annotations

import math
from dataclasses import dataclass

from rfplan.model.electrical import Ends
from rfplan.model.findings import Verdict, worst
from rfplan.rules.room import TIE
from rfplan.units import NONE, UNKNOWN, Missing, Range


@dataclass(frozen=True, slots=True)
class Bounds:
    """The least and the most of something, and each with all that is unknown at its best."""

    least: float
    most: float
    at_best: tuple[float, float]
    unknown_least: tuple[str, ...] = ()
    unknown_most: tuple[str, ...] = ()

    @property
    def ends(self) -> Ends:
        """Both ends, None where they are not known."""
        return _finite(self.least), _finite(self.most)


@dataclass(frozen=True, slots=True)
class Outcome:
    """The verdict with the end that made it, its limit and side, and what keeps it undecided."""

    verdict: Verdict
    value: float | None
    limit: float | None
    undecided_by: tuple[str, ...]
    margins: Ends
    side: str


def judged(window: Range, bounds: Bounds, name: str, tie: float = TIE) -> Outcome:
    """Return how bounds stand in a window; `name` is said where the window is not known."""
    low = _low_side(window.low, bounds, tie)
    high = _high_side(window.high, bounds, tie)
    undecided: list[str] = []
    if low is Verdict.INCOMPLETE:
        undecided += [name] if window.low is UNKNOWN else bounds.unknown_least
    if high is Verdict.INCOMPLETE:
        undecided += [name] if window.high is UNKNOWN else bounds.unknown_most
    verdict = worst((low, high))
    first = low is verdict and low is not Verdict.PASS
    value, limit = (bounds.least, window.low) if first else (bounds.most, window.high)
    return Outcome(
        verdict=verdict,
        value=_finite(value),
        limit=None if isinstance(limit, Missing) else limit,
        undecided_by=tuple(dict.fromkeys(undecided)),
        margins=_margins(window, bounds),
        side="below" if first else "above",
    )


def ends_of(window: Range | None) -> Ends:
    """Return both ends of a window, None where it states none or does not say."""
    if window is None:
        return None, None
    low, high = window.low, window.high
    return None if isinstance(low, Missing) else low, None if isinstance(high, Missing) else high


def at_least(limit: float) -> Range:
    """Return the window of a quantity that must not be less."""
    return Range(limit, NONE)


def at_most(limit: float) -> Range:
    """Return the window of a quantity that must not be more."""
    return Range(NONE, limit)


def _low_side(limit: float | Missing, bounds: Bounds, tie: float) -> Verdict:
    if isinstance(limit, Missing):
        return Verdict.INCOMPLETE if limit is UNKNOWN else Verdict.PASS
    if bounds.least >= limit - tie:
        return Verdict.PASS
    unsure = bounds.unknown_least and bounds.at_best[0] >= limit - tie
    return Verdict.INCOMPLETE if unsure else Verdict.FAIL


def _high_side(limit: float | Missing, bounds: Bounds, tie: float) -> Verdict:
    if isinstance(limit, Missing):
        return Verdict.INCOMPLETE if limit is UNKNOWN else Verdict.PASS
    if bounds.most <= limit + tie:
        return Verdict.PASS
    unsure = bounds.unknown_most and bounds.at_best[1] <= limit + tie
    return Verdict.INCOMPLETE if unsure else Verdict.FAIL


def _margins(window: Range, bounds: Bounds) -> Ends:
    low, high = window.low, window.high
    return (
        None if isinstance(low, Missing) else _finite(bounds.least - low),
        None if isinstance(high, Missing) else _finite(high - bounds.most),
    )


def _finite(value: float) -> float | None:
    return value if math.isfinite(value) else None
