# SPDX-License-Identifier: Apache-2.0
"""RF101: a port of a unit is in no path."""

from collections.abc import Iterator

from rfplan.analysis.facts import Facts
from rfplan.model.findings import Finding
from rfplan.model.rulebook import Rule, Strictness
from rfplan.rules.room import found
from rfplan.sources import COMMON_PRACTICE, Citation

RULE = Rule(
    id="RF101",
    name="port-not-connected",
    title="A port of a unit is in no path",
    strictness=Strictness.ADVICE,
    why="A port that nobody planned a cable for is easily found only when the unit is installed.",
    remedy="add a path for the port, or say unused: true",
    known_limits="ports that the plan does not list cannot be missed",
    source=Citation(COMMON_PRACTICE),
)


def check(facts: Facts) -> Iterator[Finding]:
    """Yield a finding for every listed port without a path."""
    used = {path.chain[0] for path in facts.installation.paths.values()}
    for unit_id, unit in facts.installation.units.items():
        for port_id, port in unit.ports.items():
            name = f"{unit_id}.{port_id}"
            if name not in used and not port.unused:
                yield found(RULE, facts, (name,), f"{name} is in no path")
