# SPDX-License-Identifier: Apache-2.0
"""How far apart are assemblies that must match: in loss, length, delay and phase?"""

from __future__ import annotations

import math
from collections.abc import Iterator
from dataclasses import dataclass
from itertools import permutations
from typing import NamedTuple

from rfplan.analysis.element_loss import BandGrid
from rfplan.analysis.facts import Facts
from rfplan.model.assessment import CableRun
from rfplan.physics.coax import delay_s

Bounds = tuple[float, float]


@dataclass(frozen=True, slots=True)
class Spread:
    """The largest difference between two of a group: of the nominals, and with tolerances.

    Infinite where a member is not known.
    """

    members: tuple[str, ...]
    loss_db: Bounds
    length_m: Bounds
    delay_s: Bounds
    phase_rad: Bounds
    frequency_hz: float | None
    unknown: tuple[str, ...]


class _Extent(NamedTuple):
    least: float
    nominal: float
    most: float

    def times(self, factor: float) -> _Extent:
        return _Extent(self.least * factor, self.nominal * factor, self.most * factor)


def spreads(facts: Facts) -> Iterator[tuple[str, Spread]]:
    """Yield how far apart the assemblies of each group are that are fitted in this state."""
    for group in facts.plan.groups:
        runs = tuple(
            run
            for id, run in sorted(facts.runs.items())
            if facts.installation.cables[id].group == group
        )
        if len(runs) > 1:
            yield group, _spread(facts, runs)


def _spread(facts: Facts, runs: tuple[CableRun, ...]) -> Spread:
    grids = _grids(facts, {run.id for run in runs})
    lengths = [_length_m(run) for run in runs]
    delay = _apart(
        [one.times(_delay_s_per_m(facts, run)) for run, one in zip(runs, lengths, strict=True)]
    )
    top_hz = max((float(grid.frequency_hz[-1]) for grid in grids), default=None)
    turn_rad_per_s = math.inf if top_hz is None else 2.0 * math.pi * top_hz
    losses = [_apart(_losses(facts, runs, grid)) for grid in grids] or [(math.inf, math.inf)]
    return Spread(
        members=tuple(run.id for run in runs),
        loss_db=(max(one for one, _ in losses), max(one for _, one in losses)),
        length_m=_apart(lengths),
        delay_s=delay,
        phase_rad=(turn_rad_per_s * delay[0], turn_rad_per_s * delay[1]),
        frequency_hz=top_hz,
        unknown=tuple(name for run in runs for name in _unknown(run)),
    )


def _grids(facts: Facts, members: set[str]) -> list[BandGrid]:
    """The bands of all paths that go through a member."""
    return [
        budget.grid
        for id, chain in facts.chains.items()
        if any(run.id in members for run in chain.runs)
        for budget in facts.budgets[id]
    ]


def _unknown(run: CableRun) -> Iterator[str]:
    yield from (f"{run.id}.{name}" for name in run.unknown)
    if run.type == "?":
        yield f"{run.id}.type"


def _length_m(run: CableRun) -> _Extent:
    """A length as it is cut; the allowance for new plugs is not used up in it."""
    nominal, tolerance = run.length_m.nominal, run.length_m.most - run.length_m.nominal
    return _Extent(nominal - tolerance, nominal, nominal + tolerance)


def _apart(extents: list[_Extent]) -> Bounds:
    """The largest difference of two nominals, and of two ends of different members."""
    nominals = [extent.nominal for extent in extents]
    if not all(map(math.isfinite, nominals)):
        return math.inf, math.inf
    worst = max(one.most - other.least for one, other in permutations(extents, 2))
    return max(nominals) - min(nominals), worst


def _delay_s_per_m(facts: Facts, run: CableRun) -> float:
    if run.type == "?":
        return math.nan
    return float(delay_s(1.0, facts.catalog.cables[run.type].velocity_ratio))


def _losses(facts: Facts, runs: tuple[CableRun, ...], grid: BandGrid) -> list[_Extent]:
    """The loss of each run where the band loses most; cables of one type share its figure."""
    if any(run.type == "?" for run in runs):
        return [_Extent(math.nan, math.nan, math.nan)]
    mixed = len({run.type for run in runs}) > 1
    losses: list[_Extent] = []
    for run in runs:
        metre, length_m = facts.book.metre_loss(run.type, grid), _length_m(run)
        low, high = (metre.least_20, metre.most_20) if mixed else (metre.nominal, metre.nominal)
        losses.append(
            _Extent(
                length_m.least * float(low.max()),
                length_m.nominal * float(metre.nominal.max()),
                length_m.most * float(high.max()),
            )
        )
    return losses
