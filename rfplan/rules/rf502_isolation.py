# SPDX-License-Identifier: Apache-2.0
"""RF502: a transmitter reaches a receiver with more than its document says it bears."""

from __future__ import annotations

from collections.abc import Iterator

from rfplan.analysis.facts import Facts
from rfplan.analysis.interference import Demand, failing
from rfplan.analysis.lacking import lacking
from rfplan.analysis.placement import Fitted, Places
from rfplan.model.findings import Finding
from rfplan.model.interference import Exposure, Harm, MatrixCell
from rfplan.model.rulebook import Rule, Strictness
from rfplan.model.source import Source
from rfplan.rules.room import Constraint, Room, found, plan_source
from rfplan.sources import COMMON_PRACTICE, Citation

RULE = Rule(
    id="RF502",
    name="isolation",
    title="A transmitter reaches a receiver above its entered limit",
    strictness=Strictness.REQUIRED,
    why="Above its overload level a receiver is deaf, above its damage level it breaks.",
    remedy="more distance, the other side of the hull, a filter or a pad, a suppression line",
    known_limits=(
        "only where the power and the limit are data, and the isolation is computed inside the "
        "range of its model or measured; all else is a trial on the aircraft"
    ),
    source=Citation(COMMON_PRACTICE),
)


def check(facts: Facts) -> Iterator[Finding]:
    """Yield a finding for each pair of antennas whose cell of the interference matrix fails."""
    for cell in failing(facts):
        yield _finding(facts, cell, cell.worst)


def room(facts: Facts, fitted: Fitted, places: Places) -> Room | None:
    """Return what isolates the antenna and what is needed where a cell would FAIL.

    In decibels, one constraint a limit; elsewhere there is isolation without end. `check` looks
    at all pairs where they stand in one go, by the same functions of the matrix.
    """
    lack = lacking(facts, fitted, places)
    if lack is None:
        return None
    constraints = tuple(_constraint(facts, demand) for demand in lack.demands)
    return Room(constraints, lack.have_db, lack.need_db, "dB")


def _constraint(facts: Facts, one: Demand) -> Constraint:
    pair = one.source, one.victim
    text = _text(pair, one.frequency_hz, one.harm, one.path)
    return Constraint(pair, text, RULE.strictness, _source(facts, one.path))


def _finding(facts: Facts, cell: MatrixCell, worst: Exposure) -> Finding:
    pair = cell.source, cell.victim
    return found(
        RULE,
        facts,
        pair,
        _text(pair, worst.frequency_hz, worst.harm, worst.victim),
        value=worst.coupling.have_db,
        limit=worst.need_db,
        unit="dB",
        source=_source(facts, worst.victim),
    )


def _text(pair: tuple[str, str], frequency_hz: float, harm: Harm, path: str) -> str:
    source, victim = pair
    return (
        f"{source} is isolated from {victim} by {{value}} at {frequency_hz / 1e6:g} MHz; "
        f"{harm} of {path} needs {{limit}}"
    )


def _source(facts: Facts, victim: str) -> Source:
    return plan_source(facts.scene, facts.chains[victim].port.source)
