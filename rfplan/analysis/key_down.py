# SPDX-License-Identifier: Apache-2.0
"""Which channels must be keyed, and who watched, so that nothing a COM may do stays undecided?"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace
from typing import NamedTuple

import numpy as np
from numpy.typing import NDArray

from rfplan.analysis.com_channels import COM, channel_band_hz, channel_text, keyed_names_hz
from rfplan.analysis.emissions import GNSS, NEAR_SIGNAL_HZ, Receiver, receivers
from rfplan.analysis.facts import Facts
from rfplan.analysis.interference import worst_first
from rfplan.model.interference import CARRIER, CellWord, Exposure, Harm, KeyDownStep, Matrix
from rfplan.physics.channel_raster import carrier_hz

Floats = NDArray[np.float64]

ELT = "elt"


TRIED = (Harm.MASK, Harm.PULSES, Harm.NOISE, Harm.IN_BAND, Harm.OVERLOAD)
"""What keying shows; what may damage a receiver is never tried."""


class _Trial(NamedTuple):
    """What a carrier of a COM or a harmonic of it may reach: a signal, or the band's worst end."""

    com: str
    order: int
    signal_hz: float
    victim: str


def key_down(facts: Facts, matrix: Matrix) -> tuple[KeyDownStep, ...]:
    """Return the fewest steps that try every TEST of a COM, all receivers watched at once.

    One channel a harmonic and GNSS signal, the nearest, and one more for sets with 8.33 kHz where
    that comes nearer; one for the strongest harmonic in the band of each other receiver; one for
    all that its carrier may do. Then all of it with each ELT cable off.
    """
    listed = facts.rulebook.ground_checks.key_down
    if listed is None:
        return ()
    watched: dict[tuple[str, float, bool], list[_Trial]] = {}
    channels: dict[tuple[str, int, float], list[tuple[float, bool]]] = {}
    trials = (*_trials(facts, matrix), *_in_band(facts, matrix), *_carriers(facts, matrix))
    for trial in trials:
        keyed = trial.com, trial.order, trial.signal_hz
        if keyed not in channels:
            channels[keyed] = _channels(facts, trial)
        for name_hz, close in channels[keyed]:
            watched.setdefault((trial.com, name_hz, close), []).append(trial)
    steps = tuple(_step(channel, watched[channel], listed.dwell_s) for channel in sorted(watched))
    return (*steps, *_repeated(facts, steps))


def _trials(facts: Facts, matrix: Matrix) -> Iterator[_Trial]:
    """Yield the signals that a harmonic comes near to while its cell says TEST."""
    listening = {receiver.path: receiver for receiver in receivers(facts)}
    for cell in matrix.cells:
        for one in cell.exposures:
            if (
                one.order > CARRIER
                and one.word is CellWord.TEST
                and _family(facts, one.source) == COM
            ):
                yield from _near(facts, one, listening[one.victim])


def _in_band(facts: Facts, matrix: Matrix) -> Iterator[_Trial]:
    """Yield the lowest harmonic of a COM in the band of each receiver that it may disturb."""
    lowest: dict[tuple[str, str], Exposure] = {}
    for cell in matrix.cells:
        for one in cell.exposures:
            open_here = one.harm is Harm.IN_BAND and one.verdict is None
            if open_here and _family(facts, one.source) == COM:
                known = lowest.setdefault((one.source, one.victim), one)
                if one.order < known.order:
                    lowest[one.source, one.victim] = one
    for (com, victim), one in lowest.items():
        names_hz = keyed_names_hz(*_band_hz(facts, com), close=False)
        on_air_hz = one.order * np.asarray(carrier_hz(names_hz))
        if len(on_air_hz):
            nearest = int(np.argmin(np.abs(on_air_hz - one.frequency_hz)))
            yield _Trial(com, one.order, float(on_air_hz[nearest]), victim)


def _carriers(facts: Facts, matrix: Matrix) -> Iterator[_Trial]:
    """Yield every receiver that a COM's carrier may disturb, at its worst end, or its noise."""
    told: dict[str, list[Exposure]] = {}
    for cell in matrix.cells:
        for one in cell.exposures:
            if one.order <= CARRIER and one.verdict is None and one.harm in TRIED:
                told.setdefault(one.source, []).append(one)
    for com, exposures in told.items():
        if _family(facts, com) == COM:
            carriers = [one for one in exposures if one.order == CARRIER]
            worst = min(carriers, key=worst_first, default=None)
            at_hz = _band_hz(facts, com)[0] if worst is None else worst.frequency_hz
            victims = sorted({one.victim for one in exposures})
            yield from (_Trial(com, CARRIER, at_hz, victim) for victim in victims)


def _near(facts: Facts, exposure: Exposure, victim: Receiver) -> Iterator[_Trial]:
    low_hz, high_hz = _band_hz(facts, exposure.source)
    for signal_hz in victim.signals_hz if victim.radio.family == GNSS else ():
        nearest_hz = min(max(signal_hz, exposure.order * low_hz), exposure.order * high_hz)
        if abs(nearest_hz - signal_hz) <= NEAR_SIGNAL_HZ:
            yield _Trial(exposure.source, exposure.order, signal_hz, exposure.victim)


def _channels(facts: Facts, trial: _Trial) -> list[tuple[float, bool]]:
    """Return the nearest channel of 25 kHz, and that of 8.33 kHz where it is nearer."""
    band_hz = _band_hz(facts, trial.com)
    wide, close = (_nearest(keyed_names_hz(*band_hz, close=one), trial) for one in (False, True))
    if not np.isfinite(wide):
        return []
    nearer = _offset_hz(close, trial) < _offset_hz(wide, trial) - 1.0
    return [(wide, False), (close, True)] if nearer else [(wide, False)]


def _nearest(names_hz: Floats, trial: _Trial) -> float:
    """Return the name whose harmonic is nearest to a signal; NaN where none comes near."""
    offset_hz = _offset_hz(names_hz, trial)
    if not len(names_hz) or offset_hz.min() > NEAR_SIGNAL_HZ:
        return float("nan")
    return float(names_hz[int(np.argmin(offset_hz))])


def _offset_hz(name_hz: Floats | float, trial: _Trial) -> Floats:
    return np.abs(trial.order * np.asarray(carrier_hz(name_hz)) - trial.signal_hz)


def _step(channel: tuple[str, float, bool], trials: list[_Trial], dwell_s: float) -> KeyDownStep:
    com, name_hz, close = channel
    victims = tuple(sorted({trial.victim for trial in trials}))
    on_air_hz = float(carrier_hz(name_hz))
    return KeyDownStep(
        com, channel_text(name_hz), on_air_hz, trials[0].order, close, victims, dwell_s
    )


def _repeated(facts: Facts, steps: tuple[KeyDownStep, ...]) -> Iterator[KeyDownStep]:
    """Yield the steps once more for each ELT, its cable off."""
    for id in sorted(facts.chains):
        if _family(facts, id) == ELT:
            yield from (replace(step, repeat_with=id) for step in steps)


def _family(facts: Facts, path: str) -> str:
    return facts.rulebook.radios[facts.chains[path].port.radio].family


def _band_hz(facts: Facts, path: str) -> tuple[float, float]:
    """Return the band of the channels on which a COM sends."""
    bands = facts.rulebook.radios[facts.chains[path].port.radio].bands
    sent = [
        budget.grid.frequency_hz
        for budget in facts.budgets[path]
        if budget.grid.name not in bands or bands[budget.grid.name].direction == "tx"
    ]
    low_hz, high_hz = min(one[0] for one in sent), max(one[-1] for one in sent)
    return channel_band_hz(float(low_hz), float(high_hz))
