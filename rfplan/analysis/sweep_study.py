# SPDX-License-Identifier: Apache-2.0
"""Everything that the sweeps of one path say, and why the rest is not said."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass
from typing import TypeVar

from rfplan.analysis.facts import Facts
from rfplan.analysis.swapped_cables import Labels, SweptLength, labels_of, swept_length
from rfplan.analysis.sweeps import SweepError, SweptPath
from rfplan.analysis.swept_line import LineSearch, search_line
from rfplan.analysis.swept_loss import (
    LossCurve,
    SweptLoss,
    one_port_loss,
    swept_losses,
    through_loss,
)
from rfplan.analysis.swept_match import SweptMatch, swept_matches
from rfplan.model.sweep import Sweep

T = TypeVar("T")


@dataclass(frozen=True, slots=True)
class PathSweeps:
    """The sweeps of one path, and one of another path whose label may be on this cable."""

    path: str
    sweep: Sweep
    far_ends: tuple[Sweep, Sweep] | None = None
    other: tuple[str, Sweep] | None = None
    temperature_c: float | None = None

    @property
    def files(self) -> tuple[Sweep, ...]:
        """All sweeps."""
        return (self.sweep, *(self.far_ends or ()), *((self.other[1],) if self.other else ()))


@dataclass(frozen=True, slots=True)
class SweepStudy:
    """What was found; `curve` is the loss over frequency, `refused` what a sweep did not do for."""

    sweeps: PathSweeps
    curve: LossCurve | None
    losses: tuple[SweptLoss, ...]
    matches: tuple[SweptMatch, ...]
    line: LineSearch | None
    lengths: tuple[SweptLength, ...]
    labels: Labels | None
    refused: tuple[str, ...]

    @property
    def differs(self) -> bool:
        """Whether some band loses something else than predicted."""
        return any(loss.agreement == "DIFFERS" for loss in self.losses)


def study(facts: Facts, sweeps: PathSweeps) -> SweepStudy:
    """Return what the sweeps of a path say of its loss, match, faults and labels.

    Insertion loss comes from two ports, else from far end open and shorted; the match only from a
    one-port sweep, since only there the antenna is connected.
    """
    refused: list[str] = []
    line, sweep = _line(facts, sweeps, sweeps.path), sweeps.sweep
    curve = _or_say(lambda: _curve(sweeps), refused)
    lengths = _or_say(lambda: _lengths(facts, sweeps), refused) or ()
    return SweepStudy(
        sweeps=sweeps,
        curve=curve,
        losses=() if curve is None else swept_losses(line, curve),
        matches=() if sweep.ports == 2 else swept_matches(line, sweep, curve),
        line=_or_say(lambda: search_line(line, sweep), refused),
        lengths=lengths,
        labels=labels_of(*lengths) if lengths else None,
        refused=tuple(refused),
    )


def _line(facts: Facts, sweeps: PathSweeps, path: str) -> SweptPath:
    given_c = sweeps.temperature_c
    return SweptPath(facts, path) if given_c is None else SweptPath(facts, path, given_c)


def _or_say(answer: Callable[[], T], refused: list[str]) -> T | None:
    """Return an answer, or None and keep the words that say why there is none."""
    try:
        return answer()
    except SweepError as fault:
        refused.append(str(fault))
        return None


def _curve(sweeps: PathSweeps) -> LossCurve | None:
    if sweeps.sweep.ports == 2:
        return through_loss(sweeps.sweep)
    return one_port_loss(*sweeps.far_ends) if sweeps.far_ends else None


def _lengths(facts: Facts, sweeps: PathSweeps) -> tuple[SweptLength, ...]:
    if sweeps.other is None:
        return ()
    own, other = (sweeps.path, sweeps.sweep), sweeps.other
    return tuple(swept_length(_line(facts, sweeps, path), sweep) for path, sweep in (own, other))
