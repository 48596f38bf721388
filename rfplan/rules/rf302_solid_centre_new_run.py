# SPDX-License-Identifier: Apache-2.0
"""RF302: a new run uses a cable with a solid centre conductor."""

from collections.abc import Iterator

from rfplan.analysis.facts import Facts
from rfplan.model.findings import Finding
from rfplan.model.rulebook import Rule, Strictness
from rfplan.rules.room import found
from rfplan.sources import AC_43_13_1B

RULE = Rule(
    id="RF302",
    name="solid-centre-new-run",
    title="A new cable run has a solid centre conductor",
    strictness=Strictness.ADVICE,
    why="A solid centre breaks where it is bent often; a stranded one may replace it directly.",
    remedy="choose a cable with a stranded centre conductor",
    known_limits="speaks of runs that differ from the state found, not of cables left in place",
    source=AC_43_13_1B.at("11-120"),
)


def check(facts: Facts) -> Iterator[Finding]:
    """Yield a finding for each new assembly whose cable has a solid centre."""
    was = facts.plan.found.cables
    for id, run in facts.runs.items():
        cable = facts.catalog.cables.get(run.type)
        solid = cable is not None and cable.centre is not None and cable.centre.make == "solid"
        kept = id in was and was[id].type == run.type
        if solid and not kept:
            yield found(
                RULE, facts, (id,), f"{id} is new and its cable {run.type} has a solid centre"
            )
