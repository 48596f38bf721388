# SPDX-License-Identifier: Apache-2.0
"""RF301: parts of different impedance follow each other in one path."""

from collections.abc import Iterator

from rfplan.analysis.facts import Facts
from rfplan.model.findings import Finding
from rfplan.model.rulebook import Rule, Strictness
from rfplan.rules.room import found
from rfplan.sources import TEXTBOOK_TRANSMISSION_LINE, Citation

RULE = Rule(
    id="RF301",
    name="impedance-mixed",
    title="A path mixes cables or parts of different impedance",
    strictness=Strictness.ADVICE,
    why="A piece of another impedance adds a ripple that depends on its length and the frequency.",
    remedy="use one impedance from the port to the antenna",
    known_limits="looks at catalogue impedances and their tolerances, not at lengths",
    source=Citation(TEXTBOOK_TRANSMISSION_LINE),
)


def check(facts: Facts) -> Iterator[Finding]:
    """Yield a finding for each path whose impedances differ by more than their tolerances."""
    for id, chain in facts.chains.items():
        stated = [
            (entry.id, entry.impedance_ohm)
            for element in chain.elements
            if (
                entry := facts.catalog.cables.get(element.type)
                or facts.catalog.inline_parts.get(element.type)
            )
            is not None
            and entry.impedance_ohm is not None
        ]
        lows = [impedance.value - impedance.plus_minus for _, impedance in stated]
        highs = [impedance.value + impedance.plus_minus for _, impedance in stated]
        if stated and max(lows) > min(highs) + 1e-9:
            names = ", ".join(
                dict.fromkeys(f"{name} {impedance.value:g} ohm" for name, impedance in stated)
            )
            yield found(RULE, facts, (id,), f"{id} mixes {names}")
