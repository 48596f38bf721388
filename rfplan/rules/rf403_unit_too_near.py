# SPDX-License-Identifier: Apache-2.0
"""RF403: an antenna stands nearer to its unit than the unit's document allows."""

import math
from collections.abc import Iterator

from rfplan.analysis.facts import Facts
from rfplan.model.findings import Finding
from rfplan.model.rulebook import Rule, Strictness
from rfplan.rules.room import found, plan_source
from rfplan.sources import COMMON_PRACTICE, Citation

RULE = Rule(
    id="RF403",
    name="unit-too-near",
    title="An antenna stands nearer to its unit than the port allows",
    strictness=Strictness.REQUIRED,
    why="The document states a least distance; with a small allowed loss both may not fit.",
    remedy="move the antenna away, or agree with the equipment's maker on another cable",
    known_limits="straight line from the unit's point to the middle of the base",
    source=Citation(COMMON_PRACTICE),
)


def check(facts: Facts) -> Iterator[Finding]:
    """Yield a finding for each path whose antenna is too near its unit."""
    for chain in facts.chains.values():
        at = facts.installation.units[chain.unit].at
        need_m = chain.port.distance_m
        if need_m is None or at is None:
            continue
        unit = (at.fs_m, at.bl_m, at.wl_m or 0.0)
        have_m = math.dist(unit, facts.scene.fitted[chain.antenna].point_m)
        if have_m < need_m - 1e-9:
            text = f"{chain.antenna} is {{value}} from {chain.unit}; its port needs {{limit}}"
            source = plan_source(facts.scene, chain.port.source)
            objects = (chain.antenna, chain.unit)
            yield found(
                RULE, facts, objects, text, value=have_m, limit=need_m, unit="m", source=source
            )
