# SPDX-License-Identifier: Apache-2.0
"""RF402: transmitter power and receiver sensitivity, referred to the antenna end of the line.

The verdict is part of the path's record; findings only name a level that is not known.
"""

from __future__ import annotations

import math
from collections.abc import Iterator

from rfplan.analysis.facts import Facts
from rfplan.analysis.signal_path import Chain
from rfplan.model.assessment import BandLoss, PathAssessment, Receive, Transmit
from rfplan.model.findings import Finding, Verdict, worst
from rfplan.model.plan import Port
from rfplan.model.rulebook import Radio, Rule, Strictness
from rfplan.physics.decibel import dbw_from_w, w_from_dbw
from rfplan.rules.room import found
from rfplan.sources import CFR_14_43_F
from rfplan.units import UNKNOWN, Missing, Range

RULE = Rule(
    id="RF402",
    name="power-at-antenna",
    title="Power or sensitivity at the antenna end of the line is outside its limits",
    strictness=Strictness.REQUIRED,
    why="The limits hold at the antenna end: the weakest unit with the most loss must reach them, "
    "the strongest with the least loss must not exceed them.",
    remedy="shorten or change the line, or state the unit's true range of power",
    known_limits="compared as printed, rounded to 0.1 dB, so that either printed form passes",
    source=CFR_14_43_F.at("(c), (d)"),
)


def check(facts: Facts) -> Iterator[Finding]:
    """Yield a finding for each port with a level that is `?` and has limits to meet."""
    for chain in facts.chains.values():
        unknown = _unknown_levels(chain.port, facts.rulebook.radios[chain.port.radio])
        if unknown:
            object = f"{chain.unit}.{chain.port_id}"
            text = f"{object}: {unknown[0]} is not known, and it has limits at the antenna end"
            yield found(RULE, facts, (object,), text, incomplete=True)


def _unknown_levels(port: Port, radio: Radio) -> list[str]:
    """Name the levels of a port that are `?` and have limits at the antenna end."""
    levels = [("power", port.power_w)] if _power_limits(port, radio) else []
    if radio.sensitivity:
        levels += [("sensitivity", level) for level in port.sensitivity_dbm.values()]
    return [name for name, one in levels if one and UNKNOWN in (one.low, one.high)]


def undecided(facts: Facts, path: PathAssessment) -> tuple[str, ...]:
    """Name what keeps power or sensitivity at the antenna end of a path from a verdict."""
    radio, sent = facts.rulebook.radios[path.radio], path.transmit
    names = [f"port.{name}" for name in _unknown_levels(facts.chains[path.id].port, radio)]
    if sent and sent.verdict is Verdict.INCOMPLETE and sent.antenna_dbw is not None:
        names.append("port.class")
    elif any(one.verdict is Verdict.INCOMPLETE for one in (sent, *path.receive) if one):
        names += [name for budget in facts.budgets[path.id] for name in budget.unknown_most]
    return tuple(names)


def transmit(
    chain: Chain, radio: Radio, bands: tuple[BandLoss, ...], source: str
) -> Transmit | None:
    """Return the power at the antenna over the transmitting bands of a path, judged."""
    power = chain.port.power_w
    losses = [band for band in bands if _serves(radio, band.name, "tx")]
    if power is None or not losses or isinstance(power.low, Missing):
        return None
    strongest = power.low if isinstance(power.high, Missing) else power.high
    most, least = _worst_loss(losses)
    limits = _power_limits(chain.port, radio)
    weak = None if most is None else float(dbw_from_w(power.low)) - most
    strong = float(dbw_from_w(strongest)) - least
    words = {_judge_power(weak, strong, limit) for limit, _ in limits}
    low, high = _ends_dbw(limits[0][0]) if limits else (None, None)
    return Transmit(
        unit_w=power.low,
        antenna_w=None if weak is None else float(w_from_dbw(weak)),
        antenna_most_w=float(w_from_dbw(strong)),
        antenna_dbw=weak,
        min_dbw=low,
        max_dbw=high,
        verdict=words.pop() if len(words) == 1 else Verdict.INCOMPLETE if words else None,
        source=limits[0][1] or source if limits else source,
    )


def _serves(radio: Radio, band: str, direction: str) -> bool:
    """Whether a band is used in a direction; one that the port states serves all of its radio."""
    bands = [radio.bands[band]] if band in radio.bands else radio.bands.values()
    return any(one.direction == direction for one in bands)


def _worst_loss(bands: list[BandLoss]) -> tuple[float | None, float]:
    """Return the most and the least loss of the whole line, whatever pairs the window counts."""
    mosts = [[item[2] for item in band.item_db] for band in bands]
    leasts = [sum(item[0] or 0.0 for item in band.item_db) for band in bands]
    known = [sum(one for one in most if one is not None) for most in mosts if None not in most]
    return (max(known) if len(known) == len(mosts) else None), min(leasts)


def _power_limits(port: Port, radio: Radio) -> list[tuple[Range, str]]:
    """The port's own limits, else those of its class; without a class, those of every class."""
    if port.antenna_power_w is not None:
        return [(port.antenna_power_w, "")]
    if port.class_ is not None and port.class_ in radio.classes:
        return [(radio.classes[port.class_].antenna_power_w, radio.classes[port.class_].source)]
    return [(one.antenna_power_w, one.source) for one in radio.classes.values()]


def _ends_dbw(limit: Range) -> tuple[float | None, float | None]:
    low, high = (
        None if isinstance(end, Missing) else float(dbw_from_w(end))
        for end in (limit.low, limit.high)
    )
    return low, high


def _judge_power(weak: float | None, strong: float, limit: Range) -> Verdict:
    low, high = _ends_dbw(limit)
    if high is not None and round(strong, 1) > round(high, 1):
        return Verdict.FAIL
    if weak is None:
        return Verdict.INCOMPLETE
    return Verdict.FAIL if low is not None and round(weak, 1) < round(low, 1) else Verdict.PASS


def receive(chain: Chain, radio: Radio, bands: tuple[BandLoss, ...]) -> Iterator[Receive]:
    """Yield the receiver's sensitivity at the antenna end, judged against each two-sided limit."""
    losses = [band for band in bands if _serves(radio, band.name, "rx")]
    if not losses:
        return
    most, least = _worst_loss(losses)
    for name, limit in radio.sensitivity.items():
        own = chain.port.sensitivity_dbm.get(name) or chain.port.sensitivity_dbm.get("all")
        if own is None or isinstance(own.low, Missing) or isinstance(own.high, Missing):
            continue
        low, high = own.low + least, None if most is None else own.high + most
        ends = [
            None if isinstance(end, Missing) else end
            for end in (limit.level_dbm.low, limit.level_dbm.high)
        ]
        verdict = worst((_not_below(low, ends[0]), _not_above(high, ends[1])))
        yield Receive(name, low, high, ends[0], ends[1], verdict, limit.source)


def _not_below(value: float, limit: float | None) -> Verdict:
    ok = limit is None or round(value, 1) >= round(limit, 1)
    return Verdict.PASS if ok else Verdict.FAIL


def _not_above(value: float | None, limit: float | None) -> Verdict:
    if value is None or math.isnan(value):
        return Verdict.INCOMPLETE
    ok = limit is None or round(value, 1) <= round(limit, 1)
    return Verdict.PASS if ok else Verdict.FAIL
