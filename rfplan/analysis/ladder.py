# SPDX-License-Identifier: Apache-2.0
"""What does each rung of the isolation ladder say of two antennas at one frequency?"""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass

import numpy as np

from rfplan.analysis.antenna_pairs import antenna_pairs
from rfplan.analysis.couplings import coupling_of, made_for_hz
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
    scene: Scene,
    source: str,
    victim: str,
    frequency_hz: float,
    rungs: Iterable[Rung] = AT_ONCE,
) -> tuple[Step, ...]:
    """Return one step for each model that the rungs come to.

    None where one of the antennas is not made for the frequency, or its place is not known.
    """
    pairs = antenna_pairs(scene, [(min(source, victim), max(source, victim))])
    tuned = all(_made_for(scene, id, frequency_hz) for id in (source, victim))
    if not tuned or not pairs.ids:
        return ()
    steps: dict[Model, Step] = {}
    for rung in rungs:
        found = isolation(pairs, np.array([frequency_hz]), rung)
        model = Model(found.model[0, 0])
        before = steps[model].rungs if model in steps else ()
        steps[model] = Step((*before, rung), coupling_of(found, 0, 0), _doubts(found))
    return tuple(steps.values())


def _made_for(scene: Scene, id: str, frequency_hz: float) -> bool:
    return any(low <= frequency_hz <= high for low, high in made_for_hz(scene, id))


def _doubts(found: Isolation) -> tuple[Doubt, ...]:
    return tuple(doubt for doubt in Doubt if found.doubt[0, 0] & doubt)
