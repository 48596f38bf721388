# SPDX-License-Identifier: Apache-2.0
"""RF412: an antenna was measured to reflect more than its data state."""

from collections.abc import Iterator

from rfplan.analysis.facts import Facts
from rfplan.analysis.measured import matches_data
from rfplan.model.findings import Finding
from rfplan.model.rulebook import Rule, Strictness
from rfplan.rules.room import found
from rfplan.sources import COMMON_PRACTICE, Citation

RULE = Rule(
    id="RF412",
    name="antenna-reflects-more",
    title="A measured VSWR, carried to the antenna, is above that of the antenna's data",
    strictness=Strictness.ADVICE,
    otherwise="where the policy says `agreement: required`",
    why="A wet or broken antenna, a poor ground plane or bond, or a plug shows here first.",
    remedy="look at the plugs, the bond and the ground plane, then sweep the line for the place",
    known_limits="the line is taken as matched; what its plugs send back may make the antenna "
    "look better or worse than it is. Nothing is said where the line hides it, or beside the bands "
    "of the path",
    source=Citation(COMMON_PRACTICE),
)


def check(facts: Facts) -> Iterator[Finding]:
    """Yield a finding for each reading whose antenna reflects more than stated, to 0.01."""
    for id, reading in facts.readings.items():
        type, vswr = facts.chains[reading.path].antenna_type, reading.antenna_vswr
        if vswr is not None and matches_data(facts, reading) is False:
            yield found(
                RULE,
                facts,
                (reading.path, id),
                f"{reading.path}: by reading {id} the VSWR of {type.id} is about {{value}}, "
                "its data state {limit}",
                value=round(vswr, 2),
                limit=type.vswr,
                strictness=facts.plan.policy.agreement,
                source=type.sources.get(type.source or ""),
            )
