# SPDX-License-Identifier: Apache-2.0
"""RF315: assemblies of a matched group lie further apart than the group allows."""

from __future__ import annotations

import math
from collections.abc import Iterator

from rfplan.analysis.facts import Facts
from rfplan.analysis.groups import Spread, spreads
from rfplan.model.electrical import Ends, GroupSpread
from rfplan.model.findings import RANK, Finding, Verdict, worst
from rfplan.model.plan import Group
from rfplan.model.rulebook import Rule, Strictness
from rfplan.rules.bounded import Bounds, Outcome, at_most, judged
from rfplan.rules.room import TIE, found, plan_source
from rfplan.sources import COMMON_PRACTICE, Citation

RULE = Rule(
    id="RF315",
    name="group-apart",
    title="Assemblies that must match lie too far apart",
    strictness=Strictness.REQUIRED,
    why="Where two lines are added or compared, a difference in loss or phase falsifies the sum.",
    remedy="cut all to the length of the longest, of one type and from one reel",
    known_limits="lengths as cut, each tolerance against the other; cables of one type share the "
    "figures of their type, so differences between reels are not in it",
    source=Citation(COMMON_PRACTICE),
)

_UNITS = {"loss": "dB", "length": "m", "delay": "s", "phase": "rad"}

TIES = {"loss": TIE, "length": TIE, "delay": 1.0e-15, "phase": TIE}
"""A limit that is met exactly passes, each in its own unit."""


def check(facts: Facts) -> Iterator[Finding]:
    """Yield a finding for each group, by the quantity that is furthest from its limit."""
    for id, spread in spreads(facts):
        group = facts.plan.groups[id]
        outcomes = _outcomes(group, spread)
        name = min(outcomes, key=lambda key: RANK[outcomes[key].verdict], default="")
        if not name or outcomes[name].verdict is Verdict.PASS:
            continue
        one = outcomes[name]
        members = ", ".join(spread.members)
        hangs = f"{id}: the {name} of {members} hangs on {', '.join(one.undecided_by)}"
        text = f"{id}: the {name} of {members} is up to {{value}} apart; {{limit}} are allowed"
        incomplete = one.verdict is Verdict.INCOMPLETE
        yield found(
            RULE,
            facts,
            (id, *spread.members),
            hangs if incomplete else text,
            value=one.value,
            limit=one.limit,
            unit=_UNITS[name],
            source=plan_source(facts.scene, group.source),
            incomplete=incomplete,
        )


def group_spreads(facts: Facts) -> tuple[GroupSpread, ...]:
    """Return every group with how far apart its assemblies are."""
    return tuple(_record(id, facts.plan.groups[id], spread) for id, spread in spreads(facts))


def _record(id: str, group: Group, spread: Spread) -> GroupSpread:
    outcomes = _outcomes(group, spread).values()
    names = (name for one in outcomes for name in one.undecided_by)
    return GroupSpread(
        id=id,
        members=spread.members,
        loss_db=_pair(spread.loss_db, group.loss_db),
        length_m=_pair(spread.length_m, group.length_m),
        delay_s=_pair(spread.delay_s, group.delay_s),
        phase_rad=_pair(spread.phase_rad, group.phase_rad),
        frequency_hz=spread.frequency_hz,
        verdict=worst(one.verdict for one in outcomes),
        undecided_by=tuple(dict.fromkeys(names)),
    )


def _outcomes(group: Group, spread: Spread) -> dict[str, Outcome]:
    """How the spread stands against each limit that the group states."""
    limits = {
        "loss": (group.loss_db, spread.loss_db),
        "length": (group.length_m, spread.length_m),
        "delay": (group.delay_s, spread.delay_s),
        "phase": (group.phase_rad, spread.phase_rad),
    }
    return {
        name: judged(at_most(limit), _bounds(apart, spread.unknown), "group", TIES[name])
        for name, (limit, apart) in limits.items()
        if limit is not None
    }


def _bounds(apart: tuple[float, float], unknown: tuple[str, ...]) -> Bounds:
    """With something unknown the members may still be equal."""
    nominal, worst = apart
    return Bounds(nominal, worst, (0.0, 0.0) if unknown else apart, unknown, unknown)


def _pair(apart: tuple[float, float], limit: float | None) -> Ends:
    """The worst difference and its limit."""
    return apart[1] if math.isfinite(apart[1]) else None, limit
