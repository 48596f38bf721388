# SPDX-License-Identifier: Apache-2.0
"""What isolates an antenna from the others at many places, wherever that is certain enough?"""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from rfplan.analysis.antenna_pairs import is_upright, on_metal, pairs_over_skin
from rfplan.analysis.couplings import made_for_hz, measured, standing_readings, stands
from rfplan.analysis.interference import Demand, fails
from rfplan.analysis.isolation import isolation
from rfplan.analysis.isolation_models import Model, accuracy_db
from rfplan.analysis.placement import Fitted, Places
from rfplan.analysis.scene import Scene
from rfplan.physics.free_space import wavelength_m
from rfplan.physics.geodesic import girth_m
from rfplan.physics.skin_coupling import skin_isolation
from rfplan.physics.surface_ray import Way, cylinder_way

Floats = NDArray[np.float64]
Bools = NDArray[np.bool_]
Indices = NDArray[np.intp]

_NEAREST_M = 1.0e-3


@dataclass(frozen=True, slots=True)
class KnownIsolation:
    """Isolation, and by how much it may be better, shape (demands, places).

    NaN where nothing decides.
    """

    have_db: Floats
    high_db: Floats


def known_isolation(
    scene: Scene, fitted: Fitted, places: Places, asked: tuple[Demand, ...], most_db: Floats
) -> KnownIsolation:
    """Return what is computed where it may come to less than `most_db`, and what was read.

    A reading counts at places as far from the other antenna as when it was taken.
    """
    known = KnownIsolation(*np.full((2, len(asked), len(places.point_m)), np.nan))
    metal = np.flatnonzero(on_metal(scene, places))
    for other in sorted({_other(one, fitted.id) for one in asked}):
        rows = np.flatnonzero([_other(one, fitted.id) == other for one in asked])
        meeting = _Meeting(scene, fitted.id, other, tuple(asked[row] for row in rows), rows)
        if _is_modelled(meeting):
            _fill_computed(known, meeting, (metal, places.point_m[metal]), most_db)
        _fill_measured(known, meeting, places.point_m)
    return known


def _other(demand: Demand, antenna: str) -> str:
    return demand.victim if demand.source == antenna else demand.source


@dataclass(frozen=True, slots=True)
class _Meeting:
    """Two antennas, the first of which is moved; what is asked of them, and in which rows."""

    scene: Scene
    moved: str
    other: str
    demands: tuple[Demand, ...]
    rows: Indices

    @property
    def there_m(self) -> Floats:
        """Where the other one stands."""
        return np.array(self.scene.fitted[self.other].point_m)


def _is_modelled(meeting: _Meeting) -> bool:
    """Whether both are upright and the other one stands on metal: else no model decides."""
    scene, other = meeting.scene, meeting.scene.fitted[meeting.other]
    upright = is_upright(scene, other) and is_upright(scene, scene.fitted[meeting.moved])
    return upright and bool(on_metal(scene, other.places)[0])


def _fill_computed(
    known: KnownIsolation, meeting: _Meeting, skin: tuple[Indices, Floats], most_db: Floats
) -> None:
    """The default model over the metal skin, where it is near enough and decides."""
    at_hz = np.array([one.frequency_hz for one in meeting.demands])
    tuned = np.flatnonzero([_in_tune(meeting, one_hz) for one_hz in at_hz])
    at_hz, rows = at_hz[tuned], meeting.rows[tuned]
    near = _may_be_less(meeting, skin[1], at_hz, most_db[rows])
    if not near.any():
        return
    told_hz, column = np.unique(at_hz, return_inverse=True)
    ids = meeting.moved, meeting.other
    found = isolation(pairs_over_skin(meeting.scene, ids, skin[1][near]), told_hz)
    cells = np.ix_(rows, skin[0][near])
    known.have_db[cells] = np.where(found.decides, found.isolation_db, np.nan).T[column]
    known.high_db[cells] = found.high_db.T[column]


def _in_tune(meeting: _Meeting, frequency_hz: float) -> bool:
    bands = (made_for_hz(meeting.scene, id) for id in (meeting.moved, meeting.other))
    return all(any(low <= frequency_hz <= high for low, high in ends) for ends in bands)


def _may_be_less(
    meeting: _Meeting, point_m: Floats, frequency_hz: Floats, most_db: Floats
) -> Bools:
    """Whether the isolation may come to less than something, with all that its band may add.

    No way is shorter than the straight line, and none of that length isolates less than one
    along the thinner of both sections, taken twice.
    """
    hull, there_m = meeting.scene.hull, meeting.there_m
    girths = np.interp(np.array([*point_m[:, 0], there_m[0]]), hull.fs_m, girth_m(hull))
    here, there = girths[:-1] / (2.0 * np.pi), girths[-1] / (2.0 * np.pi)
    apart_m = np.maximum(np.linalg.norm(point_m - there_m, axis=1), _NEAREST_M)
    one_way = cylinder_way(apart_m, np.minimum(here, there), np.pi / 2.0)
    both = Way(*(np.stack([part, part], axis=-1) for part in map(np.asarray, one_way)))
    floor_db = skin_isolation(frequency_hz[:, None, None], both).least_db
    ka = 2.0 * np.pi * np.maximum(here, there) / np.asarray(wavelength_m(frequency_hz))[:, None]
    _, high_db = accuracy_db(Model.SURFACE_RAY, ka, np.zeros_like(ka))
    return np.asarray(np.any(fails(floor_db - most_db, high_db), axis=0))


def _fill_measured(known: KnownIsolation, meeting: _Meeting, point_m: Floats) -> None:
    """The readings of the two antennas where they hold; they come before what is computed."""
    pair = {meeting.moved, meeting.other}
    every = [one for one, _ in standing_readings(meeting.scene).values()]
    readings = [one for one in every if set(one.between) == pair]
    apart_m = np.linalg.norm(point_m - meeting.there_m, axis=1)
    held = np.array([stands(one, apart_m) for one in readings])
    for holds in np.unique(held, axis=1).T if readings else ():
        at = (held == holds[:, None]).all(axis=0)
        taken = [one for one, holding in zip(readings, holds, strict=True) if holding]
        for row, demand in zip(meeting.rows, meeting.demands, strict=True):
            read = measured(taken, demand.frequency_hz, demand.band_hz)
            if read is not None:
                known.have_db[row, at] = read.have_db
                known.high_db[row, at] = read.band_db[1]
