# SPDX-License-Identifier: Apache-2.0
"""RF404: a measured loss does not agree with its prediction."""

from collections.abc import Iterator

from rfplan.analysis.facts import Facts
from rfplan.analysis.measured import PredictedReading
from rfplan.model.findings import Finding
from rfplan.model.rulebook import Rule, Strictness
from rfplan.rules.room import found
from rfplan.sources import COMMON_PRACTICE, Citation

RULE = Rule(
    id="RF404",
    name="measured-differs",
    title="A measured loss differs from its prediction",
    strictness=Strictness.ADVICE,
    otherwise="where the policy says `agreement: required`",
    why="A reading inside the window that is a decibel off hides a bad plug or a wrong cable.",
    remedy="look at the plug made last, then measure again; look at the cable type and length",
    known_limits="compared at the frequency and temperature of the reading; stale ones are let be",
    source=Citation(COMMON_PRACTICE),
)


def check(facts: Facts) -> Iterator[Finding]:
    """Yield a finding for each reading further from its prediction than the plan allows."""
    policy = facts.plan.policy
    for id, reading in facts.readings.items():
        if reading.stale or reading.difference_db is None:
            continue
        if abs(reading.difference_db) > policy.agree_db + 1e-9:
            text = (
                f"{reading.path}: reading {id} is {{value}} from its prediction, allowed {{limit}}"
                + _unbound(facts, reading)
            )
            yield found(
                RULE,
                facts,
                (reading.path, id),
                text,
                value=abs(reading.difference_db),
                limit=policy.agree_db,
                unit="dB",
                strictness=policy.agreement,
            )


def _unbound(facts: Facts, reading: PredictedReading) -> str:
    """Say with which cable a reading is compared that is not bound to what was read."""
    if reading.measurement.bound is not None:
        return ""
    now = ", ".join(f"{run.id} of {run.type}" for run in facts.chains[reading.path].runs)
    return f"; it is bound to no cable, and may be of another one than {now}" if now else ""
