# SPDX-License-Identifier: Apache-2.0
"""RF407: the volts that reach an amplified antenna lie outside its supply range."""

from __future__ import annotations

import math
from collections.abc import Iterator

from rfplan.analysis.dc_feed import Supply
from rfplan.analysis.facts import Facts
from rfplan.analysis.signal_path import Chain
from rfplan.model.findings import Finding, Verdict
from rfplan.model.rulebook import Rule, Strictness
from rfplan.rules.bounded import Bounds, Outcome, judged
from rfplan.rules.room import found
from rfplan.sources import COMMON_PRACTICE, Citation

RULE = Rule(
    id="RF407",
    name="supply-at-antenna",
    title="The supply that reaches the antenna is outside its range",
    strictness=Strictness.REQUIRED,
    why="An amplifier below its volts fades or stops; above them it may not last.",
    remedy="shorten the cable, choose one with more copper, or another pad or antenna",
    known_limits="most current through the hot line against the lower limit, least through the "
    "cold one against the upper; mated pairs, bulkheads and adapters count as no resistance",
    source=Citation(COMMON_PRACTICE),
)


def check(facts: Facts) -> Iterator[Finding]:
    """Yield a finding for each path that feeds its antenna outside the antenna's range."""
    for id, supply in facts.supplies.items():
        chain = facts.chains[id]
        one = outcome(chain, supply)
        if one is None or one.verdict is Verdict.PASS:
            continue
        antenna = chain.antenna_type
        yield found(
            RULE,
            facts,
            (id,),
            _text(chain, one),
            value=one.value,
            limit=one.limit,
            unit="V",
            source=antenna.sources.get(antenna.source or ""),
            incomplete=one.verdict is Verdict.INCOMPLETE,
        )


def outcome(chain: Chain, supply: Supply) -> Outcome | None:
    """Return how the volts stand at the antenna; None where it states none or gets none."""
    if chain.antenna_type.supply_v is None or supply.carries is False:
        return None
    return judged(chain.antenna_type.supply_v, bounds(supply), f"{chain.antenna_type.id}.supply")


def bounds(supply: Supply) -> Bounds:
    """Return the volts at the antenna between their bounds."""
    least, most = supply.antenna_v
    (weak, strong), (few, many) = supply.resistance_ohm, supply.current_a
    low_v, high_v = supply.port_v
    at_best = (
        (high_v if math.isinf(low_v) else low_v) - (few if math.isinf(many) else many) * weak,
        (low_v if math.isinf(high_v) else high_v) - (few * strong if few else 0.0),
    )
    return Bounds(least, most, at_best, supply.unknown, supply.unknown)


def _text(chain: Chain, outcome: Outcome) -> str:
    if outcome.verdict is Verdict.INCOMPLETE:
        return f"{chain.antenna}: its supply hangs on {', '.join(outcome.undecided_by)}"
    return f"{chain.antenna} gets {{value}} from {chain.unit}; it takes {{limit}}"
