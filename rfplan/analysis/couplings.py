# SPDX-License-Identifier: Apache-2.0
"""How much isolation may be counted on between two antennas: computed, a bound, or a trial?"""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass
from typing import NamedTuple

import numpy as np

from rfplan.analysis.antenna_pairs import antenna_pairs
from rfplan.analysis.isolation import isolation
from rfplan.analysis.isolation_models import Model
from rfplan.analysis.scene import Scene
from rfplan.model.interference import CellWord, Coupling, IsolationReading
from rfplan.physics.coupling import friis_isolation_db
from rfplan.physics.free_space import near_field_radius_m
from rfplan.units import Missing

DIPOLE_DBI = 2.15
"""Gain of an antenna in its band where the catalogue states none."""

NO_PLACE = "place not known"
NEAR_FIELD = "none: nearer than a wavelength over 2 pi"
NO_GAIN = "straight line, but a gain out of band is not known"

READ = "measured, plug to plug"

Ask = tuple[str, str, float]
"""Two antennas and a frequency."""


class _Site(NamedTuple):
    """An antenna: where it is, the bands it is made for, and its stated maximum gain."""

    point_m: tuple[float, float, float]
    bands_hz: tuple[tuple[float, float], ...]
    gain_dbi: float | None

    def tuned(self, frequency_hz: float) -> bool:
        return any(low <= frequency_hz <= high for low, high in self.bands_hz)


@dataclass(frozen=True, slots=True)
class Couplings:
    """The sites of all antennas, what a model inside its range says, and what was measured."""

    sites: dict[str, _Site]
    computed: dict[Ask, Coupling]
    measured: dict[Ask, Coupling]

    def distance_m(self, source: str, victim: str) -> float:
        """Return the straight distance, NaN where an antenna is off the skin."""
        (ax, ay, az), (bx, by, bz) = self.sites[source].point_m, self.sites[victim].point_m
        return float(np.sqrt((ax - bx) ** 2 + (ay - by) ** 2 + (az - bz) ** 2))

    def at(self, source: str, victim: str, frequency_hz: float) -> Coupling:
        """Return the isolation of two antennas: measured, else computed, else a bound."""
        asked = _ask(source, victim, frequency_hz)
        return (
            self.measured.get(asked)
            or self.computed.get(asked)
            or self._bound(source, victim, frequency_hz)
        )

    def _bound(self, source: str, victim: str, frequency_hz: float) -> Coupling:
        """The straight line with both gains at their most, and nothing credited."""
        away_m = self.distance_m(source, victim)
        if not np.isfinite(away_m):
            return Coupling(None, NO_PLACE, (None, None), False, CellWord.TEST)
        if away_m < near_field_radius_m(frequency_hz):
            return Coupling(None, NEAR_FIELD, (None, None), False, CellWord.TEST)
        ends = self.sites[source], self.sites[victim]
        gains_dbi = sum(DIPOLE_DBI if one.gain_dbi is None else one.gain_dbi for one in ends)
        have_db = float(friis_isolation_db(frequency_hz, away_m, gains_dbi))
        if any(one.gain_dbi is None and not one.tuned(frequency_hz) for one in ends):
            return Coupling(have_db, NO_GAIN, (None, None), False, CellWord.TEST)
        return Coupling(have_db, Model.BOUND.words, (0.0, None), True, CellWord.BOUND)


def couplings(
    scene: Scene, asked: Iterable[Ask], readings: Iterable[IsolationReading] = ()
) -> Couplings:
    """Return the couplings of a scene, with those computed that are asked for and in tune.

    A reading stands for its own frequency only.
    """
    sites = {id: _site(scene, id) for id in scene.fitted}
    tuned = {
        _ask(source, victim, frequency_hz)
        for source, victim, frequency_hz in asked
        if sites[source].tuned(frequency_hz) and sites[victim].tuned(frequency_hz)
    }
    measured = {_ask(one.source, one.victim, one.frequency_hz): _reading(one) for one in readings}
    return Couplings(sites, _computed(scene, tuned), measured)


def _reading(one: IsolationReading) -> Coupling:
    band_db = (-one.uncertainty_db, one.uncertainty_db)
    return Coupling(one.isolation_db, READ, band_db, True, CellWord.MEASURED)


def _ask(source: str, victim: str, frequency_hz: float) -> Ask:
    """Return what is asked for, the same in both directions."""
    return min(source, victim), max(source, victim), frequency_hz


def _site(scene: Scene, id: str) -> _Site:
    fitted = scene.fitted[id]
    gain = fitted.type.gain_dbi
    most_dbi = None if gain is None or isinstance(gain.high, Missing) else gain.high
    return _Site(fitted.point_m, made_for_hz(scene, id), most_dbi)


def made_for_hz(scene: Scene, id: str) -> tuple[tuple[float, float], ...]:
    """Return the bands of all radios that an antenna is made for."""
    kinds = scene.rulebook.radios
    bands_hz = {
        (band.low_hz, band.high_hz)
        for radio in scene.fitted[id].type.radios
        if radio in kinds
        for band in kinds[radio].bands.values()
    }
    return tuple(sorted(bands_hz))


def _computed(scene: Scene, tuned: Iterable[Ask]) -> dict[Ask, Coupling]:
    """What the default model says of pairs, where it is inside its range."""
    asks = sorted(tuned)
    if not asks:
        return {}
    pairs = antenna_pairs(scene, sorted({(a, b) for a, b, _ in asks}))
    frequencies_hz = sorted({frequency_hz for _, _, frequency_hz in asks})
    found = isolation(pairs, np.array(frequencies_hz))
    usable = found.valid & found.may_pass & (found.model != Model.BOUND)
    row_of = {pair: row for row, pair in enumerate(pairs.ids)}
    result: dict[Ask, Coupling] = {}
    for a, b, frequency_hz in asks:
        row, column = row_of.get((a, b)), frequencies_hz.index(frequency_hz)
        if row is not None and usable[row, column]:
            result[a, b, frequency_hz] = Coupling(
                float(found.isolation_db[row, column]),
                Model(found.model[row, column]).words,
                (float(found.low_db[row, column]), float(found.high_db[row, column])),
                True,
                CellWord.COMPUTED,
            )
    return result
