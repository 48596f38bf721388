# SPDX-License-Identifier: Apache-2.0
"""RF311: more cables go through a node than it has passes."""

from collections.abc import Iterator

from rfplan.analysis.facts import Facts
from rfplan.model.findings import Finding
from rfplan.model.rulebook import Rule, Strictness
from rfplan.rules.room import found, plan_source
from rfplan.sources import COMMON_PRACTICE, Citation

RULE = Rule(
    id="RF311",
    name="pass-overfull",
    title="More cables go through a node than it has passes",
    strictness=Strictness.REQUIRED,
    why="A bulkhead or grommet that is full takes no further cable without another hole.",
    remedy="send one of them another way, or add a pass to the airframe file",
    known_limits="counts the cables of this plan and nothing else that may go through",
    source=Citation(COMMON_PRACTICE),
)


def check(facts: Facts) -> Iterator[Finding]:
    """Yield a finding for each node with more cables through it than passes."""
    for node_id, node in facts.plan.airframe.route.nodes.items():
        if node.passes is None:
            continue
        parts = {id for id, part in facts.installation.parts.items() if part.at == node_id}
        through = {
            id
            for id, run in facts.runs.items()
            if node_id in run.nodes[1:-1] and not parts & set(facts.ends[id])
        }
        count = len(through) + len(parts)
        if count > node.passes:
            text = f"{node_id} has {node.passes} passes for {count} cables"
            yield found(
                RULE,
                facts,
                (node_id, *sorted(through | parts)),
                text,
                value=float(count),
                limit=float(node.passes),
                source=plan_source(facts.scene, node.source),
            )
