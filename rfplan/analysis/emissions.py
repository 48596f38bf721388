# SPDX-License-Identifier: Apache-2.0
"""What do transmitters send beside and with their carriers, and which receivers listen?"""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from dataclasses import dataclass

import numpy as np

from rfplan.analysis.couplings import made_for_hz
from rfplan.analysis.facts import Facts
from rfplan.analysis.loss_budget import BandBudget
from rfplan.analysis.signal_path import Chain
from rfplan.analysis.simultaneity import SHORT_PULSES
from rfplan.model.interference import NOISE
from rfplan.model.rulebook import Radio
from rfplan.physics.decibel import dbm_from_w
from rfplan.units import NONE, Missing, Range

GNSS = "gnss"

NEAR_SIGNAL_HZ = 10.0e6
"""A harmonic this near to the middle of a signal is looked at, however weak it may be."""

HIGHEST_HARMONIC = 20

ANY_FAMILY = "all"

Band = tuple[float, float]


@dataclass(frozen=True, slots=True)
class Emission:
    """A carrier, a harmonic, or the noise in a band, with its level at the antenna.

    The level is None if unknown. Of noise it is that in 1 Hz, its order is NOISE, and the band is
    one in which somebody listens.
    """

    path: str
    antenna: str
    radio: Radio
    order: int
    low_hz: float
    high_hz: float
    carrier_dbm: float | None
    level_dbm: float | None
    heard_by: str = ""
    """Of noise: the family of radios that listen in the band."""

    def nearest_hz(self, frequency_hz: float) -> float:
        """Return the frequency of the band that is nearest to another one."""
        return min(max(frequency_hz, self.low_hz), self.high_hz)

    def shared_hz(self, band_hz: Band) -> tuple[float, ...]:
        """Return the ends of what it has in common with a band, none where there is nothing."""
        low_hz, high_hz = max(self.low_hz, band_hz[0]), min(self.high_hz, band_hz[1])
        return tuple(dict.fromkeys((low_hz, high_hz))) if low_hz <= high_hz else ()

    def near(self, frequency_hz: float) -> bool:
        """Whether some of the band comes near to the middle of a signal."""
        return _near((self.low_hz, self.high_hz), frequency_hz)


@dataclass(frozen=True, slots=True)
class Receiver:
    """A path that receives, with its bands and what its line loses there at least.

    `edges_hz` lie just outside the bands that its antenna is made for.
    """

    path: str
    antenna: str
    radio: Radio
    bands_hz: tuple[tuple[float, float], ...]
    line_db: float
    overload_dbm: float | None
    damage_dbm: float | None
    noise_figure_db: float | None
    bandwidth_hz: float | None
    amplified: bool
    edges_hz: tuple[float, ...]

    def line_loss_db(self, frequency_hz: float) -> float:
        """Return the loss credited to the line: nothing outside the receiver's own bands."""
        inside = any(low <= frequency_hz <= high for low, high in self.bands_hz)
        return self.line_db if inside else 0.0

    @property
    def signals_hz(self) -> tuple[float, ...]:
        """The middles of the bands."""
        return tuple((low + high) / 2.0 for low, high in self.bands_hz)


def receivers(facts: Facts) -> tuple[Receiver, ...]:
    """Return every path that receives."""
    return tuple(
        Receiver(
            id,
            chain.antenna,
            facts.rulebook.radios[chain.port.radio],
            tuple(_ends_hz(budget) for budget in budgets),
            min(map(_least_loss_db, budgets)),
            _ahead_of_amplifier_dbm(chain, chain.port.overload_dbm),
            _ahead_of_amplifier_dbm(chain, chain.port.damage_dbm),
            None if _is_amplified(chain) else chain.port.noise_figure_db,
            chain.port.bandwidth_hz,
            _is_amplified(chain),
            tuple(_edges_hz(facts, chain.antenna)),
        )
        for id, chain in sorted(facts.chains.items())
        if (budgets := _budgets(facts, id, "rx"))
    )


def emissions(facts: Facts, listening: Iterable[Receiver]) -> tuple[Emission, ...]:
    """Return all carriers, harmonics that are entered or may be heard, and noise.

    A harmonic may be heard in a receiver's band, and near a GNSS signal. Noise of pulses lasts no
    longer than they do: it does not count.
    """
    listening = tuple(listening)
    heard = {(one.radio.family, band_hz) for one in listening for band_hz in one.bands_hz}
    listened_hz = sorted({_listened_hz(family, band_hz) for family, band_hz in heard})
    found: list[Emission] = []
    for id in sorted(facts.chains):
        sent = _budgets(facts, id, "tx")
        for budget in sent:
            found += _of_band(facts, id, budget, listened_hz)
        if sent and facts.chains[id].port.radio not in SHORT_PULSES:
            found += _noise(facts, id, sent, sorted(heard))
    return tuple(found)


def sent_hz(facts: Facts, path: str) -> tuple[tuple[float, float], ...]:
    """Return the bands in which a path sends."""
    return tuple(_ends_hz(budget) for budget in _budgets(facts, path, "tx"))


def _of_band(
    facts: Facts, id: str, budget: BandBudget, listened_hz: list[Band]
) -> Iterator[Emission]:
    """Yield the carrier of one band and its harmonics; their line loss is not credited."""
    chain = facts.chains[id]
    radio, (low_hz, high_hz) = facts.rulebook.radios[chain.port.radio], _ends_hz(budget)
    unit_dbm = _most_dbm(facts, id)
    at_antenna_dbm = None if unit_dbm is None else unit_dbm - _least_loss_db(budget)
    yield Emission(id, chain.antenna, radio, 1, low_hz, high_hz, at_antenna_dbm, at_antenna_dbm)
    stated_db = {int(order): below_db for order, below_db in chain.port.harmonics_db.items()}
    for order in range(2, max((HIGHEST_HARMONIC, *stated_db)) + 1):
        below_db = stated_db.get(order)
        level_dbm = None if unit_dbm is None or below_db is None else unit_dbm - below_db
        ends_hz = order * low_hz, order * high_hz
        heard = any(low <= ends_hz[1] and high >= ends_hz[0] for low, high in listened_hz)
        if order in stated_db or heard:
            yield Emission(id, chain.antenna, radio, order, *ends_hz, unit_dbm, level_dbm)


def _listened_hz(family: str, band_hz: Band) -> Band:
    """Where a harmonic is looked for: in a band, of GNSS as near to its middle as may matter."""
    if family != GNSS:
        return band_hz
    middle_hz = (band_hz[0] + band_hz[1]) / 2.0
    return middle_hz - NEAR_SIGNAL_HZ, middle_hz + NEAR_SIGNAL_HZ


def _noise(
    facts: Facts, id: str, sent: list[BandBudget], heard: Iterable[tuple[str, Band]]
) -> Iterator[Emission]:
    """Yield the noise of a transmitter in each band that is listened to.

    What is stated holds outside its own bands; its line loss is not credited.
    """
    chain, carrier_dbm = facts.chains[id], _most_dbm(facts, id)
    radio, stated = facts.rulebook.radios[chain.port.radio], chain.port.noise_dbm_per_hz
    own_hz = [_ends_hz(budget) for budget in sent]
    for family, (low_hz, high_hz) in heard:
        apart = all(low_hz > high or high_hz < low for low, high in own_hz)
        level_dbm = stated.get(family, stated.get(ANY_FAMILY)) if apart else None
        ends = low_hz, high_hz, carrier_dbm, level_dbm
        yield Emission(id, chain.antenna, radio, NOISE, *ends, heard_by=family)


def _ahead_of_amplifier_dbm(chain: Chain, at_plug_dbm: float | None) -> float | None:
    """A level at the plug, less the most that an amplifier in the antenna adds."""
    stated = chain.antenna_type.amplifier_db.values()
    gains_db = [one.high for one in stated if one != Range(NONE, NONE)]
    known_db = [one for one in gains_db if not isinstance(one, Missing)]
    if at_plug_dbm is None or len(known_db) < len(gains_db):
        return None
    return at_plug_dbm - max(known_db, default=0.0)


def _is_amplified(chain: Chain) -> bool:
    """Whether an amplifier stands ahead of the line, whose noise and band are not the port's."""
    return any(one != Range(NONE, NONE) for one in chain.antenna_type.amplifier_db.values())


def _near(band_hz: tuple[float, float], signal_hz: float) -> bool:
    low_hz, high_hz = band_hz
    return low_hz - NEAR_SIGNAL_HZ <= signal_hz <= high_hz + NEAR_SIGNAL_HZ


def _budgets(facts: Facts, id: str, direction: str) -> list[BandBudget]:
    """The budgets of the bands of one direction; a band that the port states has every one."""
    chain = facts.chains[id]
    radio = facts.rulebook.radios[chain.port.radio]
    bands = radio.bands
    if direction not in chain.directions(radio):
        return []
    return [
        budget
        for budget in facts.budgets[id]
        if budget.grid.name not in bands or bands[budget.grid.name].direction == direction
    ]


def _edges_hz(facts: Facts, antenna: str) -> Iterator[float]:
    for low_hz, high_hz in made_for_hz(facts.scene, antenna):
        yield from (low_hz - 1.0, high_hz + 1.0)


def _ends_hz(budget: BandBudget) -> tuple[float, float]:
    return float(budget.grid.frequency_hz[0]), float(budget.grid.frequency_hz[-1])


def _least_loss_db(budget: BandBudget) -> float:
    """The least that a line is sure to lose over a band; nothing where that is not known."""
    return max(float(np.where(np.isfinite(budget.least), budget.least, 0.0).min()), 0.0)


def _most_dbm(facts: Facts, id: str) -> float | None:
    power_w = facts.chains[id].port.power_w
    if power_w is None or isinstance(power_w.high, Missing) or power_w.high <= 0.0:
        return None
    return float(dbm_from_w(power_w.high))
