# SPDX-License-Identifier: Apache-2.0
"""RF406: amplifier gain less line loss lies outside what the receiver accepts."""

from __future__ import annotations

from collections.abc import Iterator

from rfplan.analysis.facts import Facts
from rfplan.analysis.receiver import Gain, of_band
from rfplan.analysis.signal_path import Chain
from rfplan.model.findings import RANK, Finding, Verdict
from rfplan.model.plan import Port
from rfplan.model.rulebook import Rule, Strictness
from rfplan.rules.bounded import Bounds, Outcome, judged
from rfplan.rules.room import found, plan_source
from rfplan.sources import COMMON_PRACTICE, Citation
from rfplan.units import UNKNOWN, Range

RULE = Rule(
    id="RF406",
    name="net-gain",
    title="Gain of the antenna less loss of its line is outside the receiver's window",
    strictness=Strictness.REQUIRED,
    why="Too little gain and the receiver's own noise counts; too much and its input overloads, "
    "which looks like a weak signal.",
    remedy="change cable or pad, or choose an antenna with another gain",
    known_limits="most gain with the least loss against the upper limit, least gain with the most "
    "loss against the lower; the whole line counts, whatever pairs the loss window counts",
    source=Citation(COMMON_PRACTICE),
)


def check(facts: Facts) -> Iterator[Finding]:
    """Yield a finding for each path with a band outside its window, by its worst band."""
    for id, bands in facts.gains.items():
        chain = facts.chains[id]
        told = [(gain, one) for gain in bands if (one := outcome(chain.port, gain)) is not None]
        gain, worst = min(told, key=lambda pair: RANK[pair[1].verdict], default=(None, None))
        if gain is None or worst is None or worst.verdict is Verdict.PASS:
            continue
        yield found(
            RULE,
            facts,
            (id,),
            _text(chain, gain, worst),
            value=worst.value,
            limit=worst.limit,
            unit="dB",
            source=plan_source(facts.scene, chain.port.source),
            incomplete=worst.verdict is Verdict.INCOMPLETE,
        )


def window(port: Port, band: str) -> Range | None:
    """Return the net gain that a port accepts in a band, or None where it says nothing of it."""
    if not port.net_gain_db:
        return None
    return of_band(port.net_gain_db, band) or Range(UNKNOWN, UNKNOWN)


def outcome(port: Port, gain: Gain) -> Outcome | None:
    """Return how the net gain of a band stands in its window, or None where there is none."""
    limit = window(port, gain.band)
    return None if limit is None else judged(limit, bounds(gain), "port.net_gain")


def bounds(gain: Gain) -> Bounds:
    """Return the net gain of a band between its bounds."""
    at_best = gain.if_small_db, gain.if_large_db
    return Bounds(*gain.net_db, at_best, gain.unknown_least, gain.unknown_most)


def _text(chain: Chain, gain: Gain, outcome: Outcome) -> str:
    if outcome.verdict is Verdict.INCOMPLETE:
        return f"{chain.id}: net gain in {gain.band} hangs on {', '.join(outcome.undecided_by)}"
    port = f"{chain.unit}.{chain.port_id}"
    return f"{chain.id}: net gain in {gain.band} is {{value}}, {outcome.side} {{limit}} of {port}"
