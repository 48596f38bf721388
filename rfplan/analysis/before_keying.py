# SPDX-License-Identifier: Apache-2.0
"""Between which antennas must isolation be measured before anything is keyed?"""

from __future__ import annotations

from collections.abc import Iterator

from rfplan.analysis.emissions import GNSS
from rfplan.analysis.facts import Facts
from rfplan.model.interference import Exposure, Harm, Matrix


def to_measure(facts: Facts, matrix: Matrix) -> Iterator[tuple[tuple[str, str], Exposure]]:
    """Yield two antennas and what may damage a receiver between them, in the order of their ids.

    A trial would be the damage. An antenna with an amplifier lets nobody measure what goes in.
    """
    worst: dict[tuple[str, str], Exposure] = {}
    for cell in matrix.cells:
        pair = min(cell.source, cell.victim), max(cell.source, cell.victim)
        for one in cell.exposures:
            if _is_open(facts, one) and _lacks(one) < _lacks(worst.get(pair)):
                worst[pair] = one
    yield from sorted(worst.items())


def _is_open(facts: Facts, one: Exposure) -> bool:
    family = facts.rulebook.radios[facts.chains[one.victim].port.radio].family
    return one.verdict is None and one.harm is Harm.DAMAGE and family != GNSS


def _lacks(one: Exposure | None) -> float:
    """The margin of an exposure, zero where there is none or it is not known."""
    return 0.0 if one is None or one.margin_db is None else one.margin_db
