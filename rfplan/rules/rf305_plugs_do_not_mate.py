# SPDX-License-Identifier: Apache-2.0
"""RF305: two neighbours of a chain have connectors of different series."""

from collections.abc import Iterator

from rfplan.analysis.facts import Facts
from rfplan.model.findings import Finding
from rfplan.model.rulebook import Rule, Strictness
from rfplan.rules.room import found
from rfplan.sources import MIL_PRF_39012

RULE = Rule(
    id="RF305",
    name="plugs-do-not-mate",
    title="Two connectors that should mate are of different series",
    strictness=Strictness.REQUIRED,
    why="A plug of another series does not fit the jack; the path cannot be built as planned.",
    remedy="change the plug of the cable, or add an adapter to the chain",
    known_limits="compares series; thread classes and interface issues of one series are not seen",
    source=MIL_PRF_39012.at("interface by series"),
)


def check(facts: Facts) -> Iterator[Finding]:
    """Yield a finding for each path with a pair that does not mate."""
    for id, chain in facts.chains.items():
        for pair in chain.pairs:
            if not pair.mates:
                text = f"{id}: {pair.plugs[0]} does not mate with {pair.plugs[1]}"
                yield found(RULE, facts, (id,), text)
                break
