# SPDX-License-Identifier: Apache-2.0
"""RF306: a corner of the route leaves too little room for the bend of the cable."""

from collections.abc import Iterator

from rfplan.analysis.facts import Facts
from rfplan.model.catalog import Cable
from rfplan.model.findings import Finding
from rfplan.model.plan import Policy
from rfplan.model.rulebook import Limits, Rule, Strictness
from rfplan.rules.room import found
from rfplan.sources import AS50881

RULE = Rule(
    id="RF306",
    name="bend-tight",
    title="A corner of the route is tighter than the cable likes",
    strictness=Strictness.ADVICE,
    why="A tight bend moves the centre conductor off the middle; the mismatch shows months later.",
    remedy="take a wider way round the corner, or a thinner cable",
    known_limits="the largest radius that fits between surveyed nodes; clamps may tighten it",
    source=AS50881.at("10 diameters; 6 are the floor of other standards"),
)


def check(facts: Facts) -> Iterator[Finding]:
    """Yield a finding for each run whose tightest corner is below the floor or the advice."""
    limits = facts.rulebook.limits
    for id, run in facts.runs.items():
        cable = facts.catalog.cables.get(run.type)
        floor_m = least_bend_m(cable, limits) if cable else None
        advised_m = advised_bend_m(cable, limits, facts.plan.policy) if cable else None
        if run.bend is None or floor_m is None or advised_m is None:
            continue
        radius_m, node = run.bend
        if radius_m < advised_m - 1e-9:
            below = "below its minimum" if radius_m < floor_m else "below what is advised"
            text = f"{id} at {node}: room for a bend of {{value}}, {below} {{limit}}"
            limit_m = floor_m if radius_m < floor_m else advised_m
            yield found(RULE, facts, (id, node), text, value=radius_m, limit=limit_m, unit="m")


def least_bend_m(cable: Cable, limits: Limits) -> float | None:
    """Return the least bend that a cable states, else what its diameter makes of the floor."""
    if cable.bend_m or cable.diameter_m is None:
        return cable.bend_m
    return limits.bend_floor_od * cable.diameter_m


def advised_bend_m(cable: Cable, limits: Limits, policy: Policy) -> float | None:
    """Return the bend that the policy asks for by the diameter, never less than the least."""
    floor_m = least_bend_m(cable, limits)
    if floor_m is None or cable.diameter_m is None:
        return None
    return max(floor_m, policy.bend_od * cable.diameter_m)
