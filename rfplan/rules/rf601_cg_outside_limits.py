# SPDX-License-Identifier: Apache-2.0
"""RF601: the empty centre of gravity lies outside the range of the airframe data."""

from collections.abc import Iterator

from rfplan.analysis.facts import Facts
from rfplan.model.findings import Finding
from rfplan.model.rulebook import Rule, Strictness
from rfplan.rules.room import TIE, found, plan_source
from rfplan.sources import FAA_PHAK
from rfplan.units import Missing

RULE = Rule(
    id="RF601",
    name="cg-outside-limits",
    title="The empty centre of gravity lies outside its stated range",
    strictness=Strictness.REQUIRED,
    why="Antennas, foil and long cables far aft move the balance of a light aircraft.",
    remedy="move or lighten what went in, or weigh the aircraft and ask for other limits",
    known_limits="only where the airframe file states a range of the empty CG with its source; "
    "masses as known or within the bounds that the plan states, along the stations; doublers, "
    "screws and sealant are not in the plan",
    source=FAA_PHAK.at("moment is weight times arm"),
)


def check(facts: Facts) -> Iterator[Finding]:
    """Yield a finding where the new empty CG is ahead of or aft of its range."""
    change = facts.weight
    before, cg_m = change.before, change.cg_m
    if before is None or cg_m is None or before.limits_m is None or before.source is None:
        return
    within_m = change.cg_within_m or (cg_m, cg_m)
    ends = before.limits_m.low, before.limits_m.high
    for limit_m, sense, side in zip(ends, (1.0, -1.0), ("ahead of", "aft of"), strict=True):
        if isinstance(limit_m, Missing):
            continue
        worst_m, best_m = sorted(within_m, key=lambda one_m: one_m * sense)
        if (worst_m - limit_m) * sense < -TIE:
            sure = change.cg_within_m is not None and (best_m - limit_m) * sense < -TIE
            text = f"empty CG at {{value}} lies {side} its limit of {{limit}}"
            yield found(
                RULE,
                facts,
                ("weight",),
                text,
                value=worst_m,
                limit=limit_m,
                unit="m",
                source=plan_source(facts.scene, before.source),
                incomplete=bool(change.unknown) and not sure,
            )
