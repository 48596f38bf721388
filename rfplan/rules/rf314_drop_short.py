# SPDX-License-Identifier: Apache-2.0
"""RF314: a stated drop is shorter than the straight line it must span."""

import math
from collections.abc import Iterator

from rfplan.analysis.facts import Facts, end_of
from rfplan.model.findings import Finding
from rfplan.model.rulebook import Rule, Strictness
from rfplan.rules.room import found
from rfplan.sources import COMMON_PRACTICE, Citation
from rfplan.units import Missing

RULE = Rule(
    id="RF314",
    name="drop-short",
    title="A drop is shorter than the straight line from its node to the plug",
    strictness=Strictness.ADVICE,
    why="Then a place, a node or the drop is written wrong, and the cable comes out short.",
    remedy="survey the drop again, or name the node with node:",
    known_limits="measured from the middle of the antenna base and the point of the unit",
    source=Citation(COMMON_PRACTICE),
)


def check(facts: Facts) -> Iterator[Finding]:
    """Yield a finding for each drop shorter than its straight line by more than the tolerance."""
    limits, net = facts.rulebook.limits, facts.site.network
    for id, members in facts.ends.items():
        drops = facts.installation.cables[id].drops_m or ()
        for member, drop in zip(members, drops, strict=False):
            end = end_of(member, facts.installation, facts.scene.fitted, net)
            if drop is None or isinstance(drop, Missing) or end.point is None or end.node is None:
                continue
            straight = math.dist(end.point, net.points[end.node])
            slack = max(
                limits.shorter_than_straight_m, limits.shorter_than_straight_part_ratio * straight
            )
            if drop < straight - slack:
                text = f"{id} drops {{value}} from {end.node} to {member}, {{limit}} away"
                yield found(RULE, facts, (id, member), text, value=drop, limit=straight, unit="m")
