# SPDX-License-Identifier: Apache-2.0
"""RF703: somebody accepted an open point that the plan does not have.

The check needs the points that are to be confirmed; `assess` calls `unused` with them.
"""

from collections.abc import Iterable, Iterator

from rfplan.analysis.facts import Facts
from rfplan.model.findings import Finding, OpenPoint
from rfplan.model.plan import State
from rfplan.model.rulebook import Rule, Strictness
from rfplan.rules.room import found
from rfplan.sources import COMMON_PRACTICE, Citation

RULE = Rule(
    id="RF703",
    name="acceptance-without-point",
    title="An entry under accepted: answers no open point",
    strictness=Strictness.ADVICE,
    why="An entry that is misspelt accepts nothing; one left behind accepts the point unseen when "
    "it comes back.",
    remedy="spell it as the list of open points does; take it out only if no state has such a "
    "point",
    known_limits="looks at the design only; an entry for a point of another state is told too",
    source=Citation(COMMON_PRACTICE),
)


def unused(facts: Facts, points: Iterable[OpenPoint]) -> Iterator[Finding]:
    """Yield a finding for each acceptance that no point of the design answers."""
    if facts.plan.state is not State.DESIGN:
        return
    there = {point.id for point in points if point.accepts}
    for id in facts.plan.accepted:
        if id not in there:
            text = f"accepted {id} speaks of an open point that is not there"
            yield found(RULE, facts, (id,), text, where=("accepted", id))
