# SPDX-License-Identifier: Apache-2.0
"""RF701: a waiver speaks of a finding that the plan does not have.

The check needs the findings of all other rules; `assess` calls `unused` after them.
"""

from collections.abc import Iterable, Iterator

from rfplan.analysis.facts import Facts
from rfplan.model.findings import Finding
from rfplan.model.rulebook import Rule, Strictness
from rfplan.rules.room import found
from rfplan.sources import COMMON_PRACTICE, Citation

RULE = Rule(
    id="RF701",
    name="waiver-without-finding",
    title="A waiver speaks of a finding that is not there",
    strictness=Strictness.ADVICE,
    why="A waiver left behind by a change would silently accept the finding when it comes back.",
    remedy="take the waiver out of the plan",
    known_limits="looks at the waivers of the state in question",
    source=Citation(COMMON_PRACTICE),
)


def unused(facts: Facts, findings: Iterable[Finding]) -> Iterator[Finding]:
    """Yield a finding for each waiver of this state that no finding answers."""
    there = {(finding.rule, frozenset(finding.objects)) for finding in findings}
    for id, waiver in facts.plan.waivers.items():
        key = (waiver.finding.rule, frozenset(waiver.finding.of))
        if waiver.state == facts.plan.state and key not in there:
            names = " and ".join(waiver.finding.of)
            text = f"waiver {id} speaks of {waiver.finding.rule} for {names}, which is not found"
            yield found(RULE, facts, (id,), text, where=("waivers", id))
