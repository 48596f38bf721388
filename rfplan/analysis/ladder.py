# SPDX-License-Identifier: Apache-2.0
"""What does each rung of the isolation ladder say of two antennas at one frequency?"""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass

import numpy as np

from rfplan.analysis.antenna_pairs import antenna_pairs
from rfplan.analysis.couplings import Ask, coupling_of, made_for_hz
from rfplan.analysis.isolation import isolation
from rfplan.analysis.isolation_models import Doubt, Isolation, Model, Rung
from rfplan.analysis.scene import Scene
from rfplan.model.interference import Coupling

AT_ONCE = (Rung.TRANSPARENT, Rung.DEFAULT, Rung.BEST, Rung.QUICK)
"""The rungs that cost nothing, the most cautious first; the exact one takes up to seconds."""


@dataclass(frozen=True, slots=True)
class Step:
    """What some rungs say alike: the isolation, and why it may be doubted."""

    rungs: tuple[Rung, ...]
    coupling: Coupling
    doubts: tuple[Doubt, ...]


def ladder(
    scene: Scene, source: str, victim: str, frequency_hz: float, rungs: Iterable[Rung] = AT_ONCE
) -> tuple[Step, ...]:
    """Return one step for each model that the rungs come to, for two antennas.

    None where one of the antennas is not made for the frequency, or its place is not known.
    """
    ask = min(source, victim), max(source, victim), frequency_hz
    return ladders(scene, [ask], rungs).get(ask, ())


def ladders(
    scene: Scene, asked: Iterable[Ask], rungs: Iterable[Rung] = AT_ONCE
) -> dict[Ask, tuple[Step, ...]]:
    """Return the ladder of every two antennas, in the order of their ids, that can have one."""
    tuned = [ask for ask in asked if all(_made_for(scene, id, ask[2]) for id in ask[:2])]
    pairs = antenna_pairs(scene, sorted({(a, b) for a, b, _ in tuned}))
    row_of = {pair: row for row, pair in enumerate(pairs.ids)}
    told: dict[Ask, tuple[Step, ...]] = {}
    for frequency_hz in sorted({ask[2] for ask in tuned}):
        here = [ask for ask in tuned if ask[2] == frequency_hz and ask[:2] in row_of]
        own, at_hz = pairs.rows([row_of[ask[:2]] for ask in here]), np.array([frequency_hz])
        found = {rung: isolation(own, at_hz, rung) for rung in rungs}
        told |= {ask: _steps(found, row) for row, ask in enumerate(here)}
    return told


def _steps(found: dict[Rung, Isolation], row: int) -> tuple[Step, ...]:
    """What the rungs say of one pair, those of one model together."""
    steps: dict[Model, Step] = {}
    for rung, one in found.items():
        model = Model(one.model[row, 0])
        before = steps[model].rungs if model in steps else ()
        steps[model] = Step((*before, rung), coupling_of(one, row, 0), _doubts(one, row))
    return tuple(steps.values())


def _made_for(scene: Scene, id: str, frequency_hz: float) -> bool:
    return any(low <= frequency_hz <= high for low, high in made_for_hz(scene, id))


def _doubts(found: Isolation, row: int) -> tuple[Doubt, ...]:
    return tuple(doubt for doubt in Doubt if found.doubt[row, 0] & doubt)
