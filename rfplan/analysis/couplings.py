# SPDX-License-Identifier: Apache-2.0
"""How much isolation may be counted on between two antennas: computed, a bound, or a trial?"""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass
from typing import NamedTuple

import numpy as np
from numpy.typing import NDArray

from rfplan.analysis.antenna_pairs import AntennaPairs, Link, antenna_pairs
from rfplan.analysis.isolation import isolation
from rfplan.analysis.isolation_models import COMPARED_FROM_KA, Isolation, Model, Rung
from rfplan.analysis.scene import Scene
from rfplan.model.interference import CellWord, Coupling
from rfplan.model.plan import IsolationReading
from rfplan.physics.coupling import friis_isolation_db
from rfplan.physics.free_space import near_field_radius_m, wavelength_m
from rfplan.physics.skin_coupling import guided_db
from rfplan.physics.surface_ray import Way
from rfplan.units import Missing

Floats = NDArray[np.float64]
Bools = NDArray[np.bool_]
Indices = NDArray[np.intp]

DIPOLE_DBI = 2.15
"""Gain of an antenna in its band where the catalogue states none."""

NO_PLACE = "place not known"
NEAR_FIELD = "none: near field"
NO_GAIN = "line, gain unknown"
GUIDED = "bound: less guided"
TOO_THIN = "line, hull too thin"

READ = "measured, plug to plug"

MOVED_M = 0.01
"""How much further apart or closer two antennas may stand than when their isolation was read."""

Pair = tuple[str, str]
"""Two antennas, in the order of their ids."""

Ask = tuple[str, str, float]
"""Two antennas and a frequency."""

Band = tuple[float, float]


class _Site(NamedTuple):
    """An antenna: where it is, the bands it is made for, and its stated maximum gain."""

    point_m: tuple[float, float, float]
    bands_hz: tuple[tuple[float, float], ...]
    gain_dbi: float | None

    def tuned(self, frequency_hz: float) -> bool:
        return any(low <= frequency_hz <= high for low, high in self.bands_hz)


@dataclass(frozen=True, slots=True)
class Couplings:
    """What holds of pairs of antennas at the frequencies asked for, and what was measured."""

    sites: dict[str, _Site]
    modelled: dict[Ask, Coupling]
    measured: dict[Pair, tuple[IsolationReading, ...]]

    def distance_m(self, source: str, victim: str) -> float:
        """Return the straight distance, NaN where an antenna is off the skin."""
        (ax, ay, az), (bx, by, bz) = self.sites[source].point_m, self.sites[victim].point_m
        return float(np.sqrt((ax - bx) ** 2 + (ay - by) ** 2 + (az - bz) ** 2))

    def at(self, source: str, victim: str, frequency_hz: float, band_hz: Band) -> Coupling:
        """Return the isolation of two antennas: measured in a band, else computed or a bound."""
        pair = _pair(source, victim)
        if pair in self.measured:
            read = measured(self.measured[pair], frequency_hz, band_hz)
            if read is not None:
                return read
        return self.modelled[*pair, frequency_hz]


def measured(
    readings: Iterable[IsolationReading], frequency_hz: float, band_hz: Band
) -> Coupling | None:
    """Return the nearest reading in a band, carried along it as the straight line goes."""
    low_hz, high_hz = band_hz
    taken = [one for one in readings if low_hz - 1.0 <= one.at_hz <= high_hz + 1.0]
    if not taken:
        return None
    one = min(taken, key=lambda reading: abs(reading.at_hz - frequency_hz))
    carried_db = 20.0 * float(np.log10(frequency_hz / one.at_hz))
    band_db = (-one.uncertainty_db, one.uncertainty_db)
    return Coupling(one.isolation_db + carried_db, READ, band_db, True, CellWord.MEASURED)


def couplings(
    scene: Scene,
    asked: Iterable[Ask],
    readings: Iterable[IsolationReading] = (),
    rung: Rung = Rung.DEFAULT,
) -> Couplings:
    """Return the couplings of a scene for everything that is asked, in whichever direction.

    By the default rung a bound stands wherever the model may not decide; by any other the model
    is told all the same, as one that leaves the pair to a trial.
    """
    sites = {id: _site(scene, id) for id in scene.fitted}
    asks = sorted({_ask(*ask) for ask in asked})
    pairs = antenna_pairs(scene, sorted({(a, b) for a, b, _ in asks}))
    tuned = [ask for ask in asks if all(sites[id].tuned(ask[2]) for id in ask[:2])]
    read: dict[Pair, tuple[IsolationReading, ...]] = {}
    for one in readings:
        pair = _pair(*one.between)
        read[pair] = (*read.get(pair, ()), one)
    modelled = {**_bounds(sites, asks, pairs), **_computed(pairs, tuned, rung)}
    return Couplings(sites, modelled, read)


def standing_readings(scene: Scene) -> dict[str, tuple[IsolationReading, bool]]:
    """Return the readings of the state looked at, each with whether its antennas have moved."""
    readings = scene.plan.isolation.items()
    return {
        id: (one, _moved(scene, one))
        for id, one in readings
        if one.state == scene.plan.state and set(one.between) <= scene.fitted.keys()
    }


def _moved(scene: Scene, one: IsolationReading) -> bool:
    a, b = (np.array(scene.fitted[id].point_m) for id in one.between)
    return not stands(one, np.asarray(np.linalg.norm(a - b)))


def stands(one: IsolationReading, apart_m: Floats) -> Bools:
    """Whether a reading still holds of its antennas that far apart."""
    return np.asarray(np.abs(apart_m - one.apart_m) <= MOVED_M)


def _pair(source: str, victim: str) -> Pair:
    return (source, victim) if source < victim else (victim, source)


def _ask(source: str, victim: str, frequency_hz: float) -> Ask:
    """Return what is asked for, the same in both directions."""
    return *_pair(source, victim), frequency_hz


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


def _bounds(sites: dict[str, _Site], asks: list[Ask], pairs: AntennaPairs) -> dict[Ask, Coupling]:
    """The straight line with both gains at their most; a conducting hull may carry more."""
    if not asks:
        return {}
    row_of = {pair: row for row, pair in enumerate(pairs.ids)}
    rows = np.array([row_of.get(ask[:2], -1) for ask in asks])
    at_hz = np.array([ask[2] for ask in asks])
    away_m = np.where(rows < 0, np.nan, np.append(pairs.sight_m, np.nan)[rows])
    gains_dbi = np.array([_gains_dbi(sites, ask) for ask in asks])
    near = ~(away_m >= np.asarray(near_field_radius_m(at_hz)))
    line_db = np.asarray(friis_isolation_db(at_hz, np.where(near, 1.0, away_m), gains_dbi))
    guided_db = _guided_db(pairs, rows, at_hz, ~near)
    return {
        ask: _bound(sites, ask, away_m[index], near[index], line_db[index], guided_db[index])
        for index, ask in enumerate(asks)
    }


def _gains_dbi(sites: dict[str, _Site], ask: Ask) -> float:
    ends = sites[ask[0]], sites[ask[1]]
    return sum(DIPOLE_DBI if one.gain_dbi is None else one.gain_dbi for one in ends)


def _guided_db(pairs: AntennaPairs, rows: Indices, at_hz: Floats, wanted: Bools) -> Floats:
    """What a conducting hull carries beyond the straight line, 0 elsewhere; NaN where unknown."""
    result = np.zeros(len(rows))
    if not len(pairs.ids):
        return result
    on_skin = wanted & (rows >= 0) & (pairs.link[rows] == Link.SKIN)
    if not on_skin.any():
        return result
    chosen, told_hz = rows[on_skin], at_hz[on_skin]
    ways = Way(*(np.asarray(part)[chosen] for part in pairs.ways))
    found_db = guided_db(told_hz[:, None], ways, pairs.sight_m[chosen])
    ka = 2.0 * np.pi * pairs.radius_m[chosen] / np.asarray(wavelength_m(told_hz))
    result[on_skin] = np.where(ka < COMPARED_FROM_KA, np.nan, found_db)
    return result


def _bound(
    sites: dict[str, _Site],
    ask: Ask,
    away_m: float,
    near: bool,
    line_db: float,
    guided_db: float,
) -> Coupling:
    """One bound in words, or why there is none."""
    ends = sites[ask[0]], sites[ask[1]]
    unsure = (None, None), False, CellWord.TEST
    if not np.isfinite(away_m):
        return Coupling(None, NO_PLACE, *unsure)
    if near:
        return Coupling(None, NEAR_FIELD, *unsure)
    if any(one.gain_dbi is None and not one.tuned(ask[2]) for one in ends):
        return Coupling(float(line_db - np.nan_to_num(guided_db)), NO_GAIN, *unsure)
    if np.isnan(guided_db):
        return Coupling(float(line_db), TOO_THIN, *unsure)
    words = GUIDED if guided_db > 0.0 else Model.BOUND.words
    return Coupling(float(line_db - guided_db), words, (0.0, None), True, CellWord.BOUND)


def coupling_of(found: Isolation, row: int, column: int) -> Coupling:
    """Return what a model says of one pair at one frequency; TEST where it may not decide."""
    model = Model(found.model[row, column])
    low_db, high_db = (float(end[row, column]) for end in (found.low_db, found.high_db))
    valid = bool(found.valid[row, column])
    word = CellWord.BOUND if model is Model.BOUND else CellWord.COMPUTED
    return Coupling(
        float(found.isolation_db[row, column]),
        model.words,
        (low_db if np.isfinite(low_db) else None, high_db if np.isfinite(high_db) else None),
        valid,
        word if valid and found.may_pass[row, column] else CellWord.TEST,
    )


def _computed(pairs: AntennaPairs, tuned: list[Ask], rung: Rung) -> dict[Ask, Coupling]:
    """What a rung says of pairs in tune; the default one only inside its range."""
    row_of = {pair: row for row, pair in enumerate(pairs.ids)}
    wanted = sorted({row_of[ask[:2]] for ask in tuned if ask[:2] in row_of})
    if not wanted:
        return {}
    own = pairs.rows(wanted)
    frequencies_hz = sorted({frequency_hz for _, _, frequency_hz in tuned})
    found = isolation(own, np.array(frequencies_hz), rung)
    told = _told(found, rung)
    own_row = {pair: row for row, pair in enumerate(own.ids)}
    column_of = {frequency_hz: column for column, frequency_hz in enumerate(frequencies_hz)}
    result: dict[Ask, Coupling] = {}
    for a, b, frequency_hz in tuned:
        row, column = own_row.get((a, b)), column_of[frequency_hz]
        if row is not None and told[row, column]:
            result[a, b, frequency_hz] = coupling_of(found, row, column)
    return result


def _told(found: Isolation, rung: Rung) -> Bools:
    """Where a rung speaks in place of the bound with the stated gains."""
    if rung is Rung.TRANSPARENT:
        return np.asarray(~found.valid)
    return found.decides if rung is Rung.DEFAULT else np.asarray(found.model != Model.BOUND)
