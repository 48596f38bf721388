# SPDX-License-Identifier: Apache-2.0
"""RF102: an antenna is in no path."""

from collections.abc import Iterator

from rfplan.analysis.facts import Facts
from rfplan.model.findings import Finding
from rfplan.model.rulebook import Rule, Strictness
from rfplan.rules.room import found
from rfplan.sources import COMMON_PRACTICE, Citation

RULE = Rule(
    id="RF102",
    name="antenna-not-connected",
    title="An antenna is in no path",
    strictness=Strictness.ADVICE,
    why="An antenna left on the skin without a cable still takes room and still couples.",
    remedy="add its path, or end the antenna in this state with none",
    known_limits="its loss is not judged, its place is",
    source=Citation(COMMON_PRACTICE),
)


def check(facts: Facts) -> Iterator[Finding]:
    """Yield a finding for every antenna that ends no path."""
    used = {path.chain[-1].partition(".")[0] for path in facts.installation.paths.values()}
    for id in facts.installation.antennas:
        if id not in used:
            yield found(RULE, facts, (id,), f"{id} is in no path")
