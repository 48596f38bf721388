# SPDX-License-Identifier: Apache-2.0
"""RF307: two paths that back each other up share a way."""

from collections.abc import Iterator
from itertools import pairwise

from rfplan.analysis.facts import Facts
from rfplan.model.findings import Finding
from rfplan.model.rulebook import Rule, Strictness
from rfplan.rules.room import found
from rfplan.sources import COMMON_PRACTICE, Citation

RULE = Rule(
    id="RF307",
    name="redundant-route-shared",
    title="Two paths that back each other up share a segment",
    strictness=Strictness.ADVICE,
    why="One chafed bundle or one blow then takes both.",
    remedy="send one of them along the other side",
    known_limits="compares surveyed segments; ways that run close side by side are not seen",
    source=Citation(COMMON_PRACTICE),
)


def check(facts: Facts) -> Iterator[Finding]:
    """Yield a finding for each pair of redundant paths with a common segment."""
    for id, path in sorted(facts.installation.paths.items()):
        other = path.redundant
        if other is None or other not in facts.chains:
            continue
        shared = _segments(facts, id) & _segments(facts, other)
        if shared:
            names = ", ".join("-".join(segment) for segment in sorted(map(sorted, shared)))
            pair = (min(id, other), max(id, other))
            yield found(RULE, facts, pair, f"{' and '.join(pair)} share {names}")


def _segments(facts: Facts, path: str) -> set[frozenset[str]]:
    return {frozenset(step) for run in facts.chains[path].runs for step in pairwise(run.nodes)}
