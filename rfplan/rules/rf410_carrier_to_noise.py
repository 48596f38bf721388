# SPDX-License-Identifier: Apache-2.0
"""RF410: carrier to noise density is below what the receiver needs."""

from __future__ import annotations

from collections.abc import Iterator

from rfplan.analysis.facts import Facts
from rfplan.analysis.receiver import Gain
from rfplan.analysis.signal_path import Chain
from rfplan.model.findings import Finding, Verdict
from rfplan.model.plan import Port
from rfplan.model.rulebook import Rule, Strictness
from rfplan.rules.room import TIE, found, plan_source
from rfplan.sources import COMMON_PRACTICE, Citation

RULE = Rule(
    id="RF410",
    name="carrier-to-noise",
    title="The weakest satellite does not stand out of the noise as the receiver needs",
    strictness=Strictness.REQUIRED,
    why="Loss ahead of an amplifier, or an amplifier too weak for its line, adds noise.",
    remedy="amplify at the antenna, shorten the line ahead of the amplifier, or lose less",
    known_limits="weakest promised signal, least antenna gain, least amplifier gain, most loss, "
    "hot line; interference, shading by the aircraft and the receiver's losses are not in it",
    source=Citation(COMMON_PRACTICE),
)


def check(facts: Facts) -> Iterator[Finding]:
    """Yield a finding for each path with a band below its least, by its worst band."""
    for id, bands in facts.gains.items():
        port = facts.chains[id].port
        if port.cn0_dbhz is None or not bands:
            continue
        worst = min(bands, key=lambda gain: _cn0(gain, unknown=0.0))
        verdict = judge(port, worst)
        if verdict is Verdict.PASS:
            continue
        yield found(
            RULE,
            facts,
            (id,),
            _text(facts.chains[id], worst),
            value=worst.noise.cn0_dbhz if worst.noise else None,
            limit=port.cn0_dbhz,
            unit="dBHz",
            source=plan_source(facts.scene, port.source),
            incomplete=verdict is Verdict.INCOMPLETE,
        )


def judge(port: Port, gain: Gain) -> Verdict:
    """Return the word of one band; PASS where nothing is asked for."""
    if port.cn0_dbhz is None:
        return Verdict.PASS
    if gain.noise is None or gain.noise.cn0_dbhz is None:
        return Verdict.INCOMPLETE
    return Verdict.PASS if gain.noise.cn0_dbhz >= port.cn0_dbhz - TIE else Verdict.FAIL


def missing(chain: Chain, gain: Gain) -> tuple[str, ...]:
    """Name what is missing for the noise of a band."""
    if chain.port.cn0_dbhz is None or (gain.noise and gain.noise.cn0_dbhz is not None):
        return ()
    names = list(gain.unknown_least)
    if chain.port.noise_figure_db is None:
        names.append("port.noise_figure")
    if not gain.passive and not chain.antenna_type.noise_figure_db:
        names.append(f"{chain.antenna_type.id}.noise_figure")
    return tuple(dict.fromkeys(names)) or (f"{chain.port.radio}.carrier",)


def _cn0(gain: Gain, unknown: float) -> float:
    if gain.noise is None or gain.noise.cn0_dbhz is None:
        return unknown
    return gain.noise.cn0_dbhz


def _text(chain: Chain, gain: Gain) -> str:
    names = missing(chain, gain)
    if names:
        return f"{chain.id}: noise in {gain.band} hangs on {', '.join(names)}"
    return f"{chain.id}: carrier to noise in {gain.band} is {{value}}; {{limit}} are needed"
