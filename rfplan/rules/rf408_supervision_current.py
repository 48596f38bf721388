# SPDX-License-Identifier: Apache-2.0
"""RF408: the current up a line is not what its port takes for a healthy antenna, or can give."""

from __future__ import annotations

from collections.abc import Iterator

from rfplan.analysis.dc_feed import Supply
from rfplan.analysis.facts import Facts
from rfplan.analysis.signal_path import Chain
from rfplan.model.findings import Finding, Verdict
from rfplan.model.plan import Port
from rfplan.model.rulebook import Rule, Strictness
from rfplan.rules.bounded import Bounds, Outcome, judged
from rfplan.rules.room import found, plan_source
from rfplan.sources import COMMON_PRACTICE, Citation
from rfplan.units import NONE, Missing, Range

RULE = Rule(
    id="RF408",
    name="supervision-current",
    title="The antenna draws a current that its port takes for a fault, or cannot give",
    strictness=Strictness.REQUIRED,
    why="A receiver that watches the current flags an open or shorted antenna outside its window.",
    remedy="choose an antenna that draws what the port expects, or a branch with a DC load",
    known_limits="a branch that blocks direct current shows its port the load it states",
    source=Citation(COMMON_PRACTICE),
)


def check(facts: Facts) -> Iterator[Finding]:
    """Yield a finding for each port whose current lies outside what it takes and gives."""
    for id, supply in facts.supplies.items():
        chain = facts.chains[id]
        one = outcome(chain, supply)
        if one is None or one.verdict is Verdict.PASS:
            continue
        yield found(
            RULE,
            facts,
            (f"{chain.unit}.{chain.port_id}", chain.antenna),
            _text(chain, one),
            value=one.value,
            limit=one.limit,
            unit="A",
            source=plan_source(facts.scene, chain.port.source),
            incomplete=one.verdict is Verdict.INCOMPLETE,
        )


def window(port: Port) -> Range | None:
    """Return the current a port accepts: supervised, and never more than it can give."""
    watched, able = port.supervision_a, port.current_a
    if watched is None:
        return None if able is None else Range(NONE, able)
    if able is None:
        return watched
    high = watched.high
    return Range(watched.low, able if isinstance(high, Missing) else min(high, able))


def outcome(chain: Chain, supply: Supply) -> Outcome | None:
    """Return how the current stands in the window of the port, or None where there is none."""
    limit = window(chain.port)
    if limit is None or (supply.blocked_by and chain.port.supervision_a is None):
        return None
    return judged(limit, bounds(supply), "port.supervision")


def bounds(supply: Supply) -> Bounds:
    """Return the current that a port sees between its bounds."""
    least, most = supply.seen_a
    unknown = tuple(name for name in supply.unknown if name.endswith(".current"))
    if supply.blocked_by:
        unknown = () if supply.load_ohm else (f"{supply.blocked_by[0]}.load",)
    return Bounds(least, most, (most, least), unknown, unknown)


def _text(chain: Chain, outcome: Outcome) -> str:
    port = f"{chain.unit}.{chain.port_id}"
    if outcome.verdict is Verdict.INCOMPLETE:
        return f"{port}: the current that it sees hangs on {', '.join(outcome.undecided_by)}"
    return f"{port} sees {{value}} up the line of {chain.antenna}; its limit is {{limit}}"
