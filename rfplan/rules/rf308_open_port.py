# SPDX-License-Identifier: Apache-2.0
"""RF308: a port of a splitter is neither used nor terminated."""

from collections.abc import Iterator

from rfplan.analysis.facts import Facts
from rfplan.model.findings import Finding
from rfplan.model.rulebook import Rule, Strictness
from rfplan.rules.room import found
from rfplan.sources import COMMON_PRACTICE, Citation

RULE = Rule(
    id="RF308",
    name="open-port",
    title="A port of a splitter or diplexer is open",
    strictness=Strictness.ADVICE,
    why="An open port reflects; the other branches lose level or ripple with the cable length.",
    remedy="put the matching termination on the port and say so: ports: {b: terminated}",
    known_limits="only ports that the catalogue entry lists are known",
    source=Citation(COMMON_PRACTICE),
)


def check(facts: Facts) -> Iterator[Finding]:
    """Yield a finding for each port that no chain uses and nobody terminated."""
    used = {member for path in facts.installation.paths.values() for member in path.chain}
    for id, part in facts.installation.parts.items():
        for port in facts.catalog.inline_parts[part.type].ports:
            name = f"{id}.{port}"
            if name not in used and part.ports.get(port) != "terminated":
                yield found(RULE, facts, (name,), f"{name} is open")
