# SPDX-License-Identifier: Apache-2.0
"""RF316: a cable of a stated length does not reach from one of its ends to the other."""

import math
from collections.abc import Iterator

from rfplan.analysis.facts import Facts, end_of
from rfplan.model.findings import Finding
from rfplan.model.rulebook import Rule, Strictness
from rfplan.rules.room import found
from rfplan.sources import OWN_COMPUTATION, Citation

RULE = Rule(
    id="RF316",
    name="cable-too-short",
    title="A cable is shorter than the straight line between its ends",
    strictness=Strictness.REQUIRED,
    why="It cannot be fitted: a length or a place is written wrong, or the antenna moved too far.",
    remedy="a place within reach, a longer cable, or the length that the cable really has",
    known_limits="straight from the place of the unit to the base; a real way is longer still",
    source=Citation(OWN_COMPUTATION, "straight line between two places"),
)


def check(facts: Facts) -> Iterator[Finding]:
    """Yield a finding for each stated length below its straight line by more than the tape's."""
    limits, net = facts.rulebook.limits, facts.site.network
    for id, members in facts.ends.items():
        length_m = facts.runs[id].as_built_m
        ends = [end_of(one, facts.installation, facts.scene.fitted, net).point for one in members]
        if length_m is None or ends[0] is None or ends[1] is None:
            continue
        straight_m = math.dist(ends[0], ends[1])
        part_m = limits.shorter_than_straight_part_ratio * straight_m
        if length_m < straight_m - max(limits.shorter_than_straight_m, part_m):
            text = f"{id} is {{value}} long; {members[0]} and {members[1]} are {{limit}} apart"
            objects = (id, *members)
            yield found(RULE, facts, objects, text, value=length_m, limit=straight_m, unit="m")
