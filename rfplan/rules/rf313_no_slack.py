# SPDX-License-Identifier: Apache-2.0
"""RF313: a new cable has no allowance for making its ends again."""

from collections.abc import Iterator

from rfplan.analysis.facts import Facts
from rfplan.model.findings import Finding
from rfplan.model.rulebook import Rule, Strictness
from rfplan.rules.room import found
from rfplan.sources import AC_43_13_1B

RULE = Rule(
    id="RF313",
    name="no-slack",
    title="A new cable has no re-termination allowance",
    strictness=Strictness.ADVICE,
    why="An end is made again sooner or later; without slack the next plug sits under tension.",
    remedy="add retermination: enough for two ends made again",
    known_limits="says nothing of where the slack is kept",
    source=AC_43_13_1B.at("11-118"),
)


def check(facts: Facts) -> Iterator[Finding]:
    """Yield a finding for each routed run without the allowance."""
    for id, run in facts.runs.items():
        laid = run.terms is not None and run.as_built_m is None
        if laid and facts.installation.cables[id].retermination_m is None:
            yield found(RULE, facts, (id,), f"{id} has no re-termination allowance")
