# SPDX-License-Identifier: Apache-2.0
"""RF411: an inline part carries more direct current than it is made for."""

from __future__ import annotations

from collections.abc import Iterator

from rfplan.analysis.facts import Facts
from rfplan.model.findings import Finding
from rfplan.model.rulebook import Rule, Strictness
from rfplan.rules.room import TIE, found
from rfplan.sources import COMMON_PRACTICE, Citation

RULE = Rule(
    id="RF411",
    name="part-overloaded",
    title="An inline part carries more direct current than it is made for",
    strictness=Strictness.REQUIRED,
    why="The choke that passes the supply heats up, and the part's data no longer hold.",
    remedy="choose a part for the antenna's current, or an antenna that draws less",
    known_limits="compares the most the antenna draws; parts that state no current are let be",
    source=Citation(COMMON_PRACTICE),
)


def check(facts: Facts) -> Iterator[Finding]:
    """Yield a finding for each part on a feeding path that is made for less current."""
    for id, supply in facts.supplies.items():
        if supply.blocked_by:
            continue
        for element in facts.chains[id].elements:
            part = element.part
            if part is None or part.current_a is None:
                continue
            if supply.current_a[1] > part.current_a + TIE:
                text = f"{element.id} carries up to {{value}} and is made for {{limit}}"
                yield found(
                    RULE,
                    facts,
                    (str(element.id),),
                    text,
                    value=supply.current_a[1],
                    limit=part.current_a,
                    unit="A",
                    source=part.sources.get(part.source or ""),
                )
