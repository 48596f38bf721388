# SPDX-License-Identifier: Apache-2.0
"""RF502: a transmitter reaches a receiver with more than its document says it bears."""

from collections.abc import Iterator

from rfplan.analysis.facts import Facts
from rfplan.analysis.interference import failing
from rfplan.model.findings import Finding
from rfplan.model.interference import Exposure, MatrixCell
from rfplan.model.rulebook import Rule, Strictness
from rfplan.rules.room import found, plan_source
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


def _finding(facts: Facts, cell: MatrixCell, worst: Exposure) -> Finding:
    mega = f"{worst.frequency_hz / 1e6:g} MHz"
    text = (
        f"{cell.source} is isolated from {cell.victim} by {{value}} at {mega}; "
        f"{worst.harm} of {worst.victim} needs {{limit}}"
    )
    return found(
        RULE,
        facts,
        (cell.source, cell.victim),
        text,
        value=worst.coupling.have_db,
        limit=worst.need_db,
        unit="dB",
        source=plan_source(facts.scene, facts.chains[worst.victim].port.source),
    )
