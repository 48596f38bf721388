# SPDX-License-Identifier: Apache-2.0
"""How much isolation is there between two antennas, by which model, and how far off may it be?"""

from __future__ import annotations

from collections.abc import Callable
from functools import lru_cache

import numpy as np
from numpy.typing import NDArray

from rfplan.analysis.antenna_pairs import AntennaPairs, Link
from rfplan.analysis.isolation_models import (
    COMPARED_FROM_KA,
    MODEL_OF_RUNG,
    NEAREST_KT,
    Doubt,
    Isolation,
    Model,
    Rung,
    accuracy_db,
)
from rfplan.physics.coupling import friis_isolation_db, least_isolation_db
from rfplan.physics.cylinder_monopoles import cylinder_isolation_db
from rfplan.physics.free_space import wavelength_m
from rfplan.physics.knife_edge import fresnel_parameter, knife_edge_loss_db
from rfplan.physics.mutual_impedance import HALF_WAVE_OHM, side_by_side_ohm
from rfplan.physics.skin_coupling import (
    FITTED_FROM_KA,
    SkinIsolation,
    fitted_isolation_db,
    shaded_isolation_db,
    skin_isolation,
)
from rfplan.physics.surface_ray import Way

Floats = NDArray[np.float64]

_NEAREST_M = 1.0e-3


def isolation(pairs: AntennaPairs, frequency_hz: Floats, rung: Rung = Rung.DEFAULT) -> Isolation:
    """Return the isolation of pairs of antennas at frequencies to which both are tuned."""
    frequency_hz = np.atleast_1d(np.asarray(frequency_hz, dtype=float))
    result = _bounds(pairs, frequency_hz)
    if rung is Rung.TRANSPARENT:
        along = pairs.link == Link.SKIN
        result.doubt[along] |= np.int8(Doubt.GUIDED)
        result.low_db[along] = result.high_db[along] = np.nan
    else:
        _fill_sight(result, pairs, frequency_hz)
        _fill_skin(result, pairs, frequency_hz, MODEL_OF_RUNG[rung])
    return result


def _bounds(pairs: AntennaPairs, frequency_hz: Floats) -> Isolation:
    """Straight lines between antennas on local ground planes, and what panels take off."""
    shape = (len(pairs.ids), len(frequency_hz))
    sight_m = np.maximum(pairs.sight_m, _NEAREST_M)[:, None]
    wavenumber_per_m = 2.0 * np.pi / np.asarray(wavelength_m(frequency_hz))
    doubt = (sight_m * wavenumber_per_m < NEAREST_KT) * int(Doubt.NEAR)
    doubt |= (~pairs.upright * int(Doubt.NOT_UPRIGHT))[:, None]
    return Isolation(
        np.asarray(friis_isolation_db(frequency_hz, sight_m) + pairs.panel_db[:, None]),
        np.zeros(shape),
        np.full(shape, np.inf),
        np.full(shape, Model.BOUND, dtype=np.int8),
        doubt.astype(np.int8),
    )


def _fill_sight(result: Isolation, pairs: AntennaPairs, frequency_hz: Floats) -> None:
    """Straight through air: coupling on a common plane, and the loss over an edge."""
    rows = np.flatnonzero(pairs.link == Link.SIGHT)
    if not len(rows):
        return
    sight_m = np.maximum(pairs.sight_m[rows, None], _NEAREST_M)
    mutual_ohm = side_by_side_ohm(sight_m / wavelength_m(frequency_hz))
    clear_db = least_isolation_db(np.abs(mutual_ohm) / HALF_WAVE_OHM.real)
    nu = np.asarray(fresnel_parameter(frequency_hz, pairs.detour_m[rows, None]))
    result.isolation_db[rows] = clear_db + np.where(nu > 0.0, knife_edge_loss_db(nu), 0.0)
    result.low_db[rows] = result.high_db[rows] = np.nan
    result.model[rows] = Model.SIGHT
    result.doubt[rows] |= np.int8(Doubt.UNTESTED)


def _fill_skin(result: Isolation, pairs: AntennaPairs, frequency_hz: Floats, model: Model) -> None:
    """Along the skin, by one model, with its accuracy."""
    rows = np.flatnonzero(pairs.link == Link.SKIN)
    if not len(rows):
        return
    length_m, bend_m13, twist_rad = (part[rows, None, :] for part in map(np.asarray, pairs.ways))
    ways = Way(np.maximum(length_m, _NEAREST_M), bend_m13, twist_rad)
    radius_m = pairs.radius_m[rows, None]
    ka = np.asarray(2.0 * np.pi * radius_m / wavelength_m(frequency_hz))
    least_ka = FITTED_FROM_KA if model is Model.FITTED else COMPARED_FROM_KA
    doubt = (ka < least_ka) * int(Doubt.SLENDER)
    doubt |= (~pairs.metal[rows] * int(Doubt.NOT_METAL))[:, None]
    found = _COMPUTE[model](frequency_hz[:, None], ways, radius_m[..., None])
    low_db, high_db = accuracy_db(model, ka, _first_on_cylinder(ways, radius_m)[0])
    result.isolation_db[rows] = found.least_db
    result.low_db[rows], result.high_db[rows] = low_db, high_db + found.phases_db
    result.model[rows] = model
    result.doubt[rows] |= doubt.astype(np.int8)


def _first_on_cylinder(ways: Way, radius_m: Floats) -> tuple[Floats, Floats]:
    """Return how far the first way turns round a cylinder, and how far it leads along it."""
    length_m, twist_rad = (np.asarray(part)[..., 0] for part in (ways.length_m, ways.twist_rad))
    along_m = length_m * np.sqrt(np.minimum(twist_rad * radius_m / length_m, 1.0))
    return np.sqrt(length_m**2 - along_m**2) / radius_m, along_m


def _surface_rays(frequency_hz: Floats, ways: Way, radius_m: Floats) -> SkinIsolation:
    return skin_isolation(frequency_hz, ways)


def _shading(frequency_hz: Floats, ways: Way, radius_m: Floats) -> SkinIsolation:
    return SkinIsolation(shaded_isolation_db(frequency_hz, ways), 0.0)


def _fitted(frequency_hz: Floats, ways: Way, radius_m: Floats) -> SkinIsolation:
    return SkinIsolation(fitted_isolation_db(frequency_hz, ways, radius_m), 0.0)


def _cylinder(frequency_hz: Floats, ways: Way, radius_m: Floats) -> SkinIsolation:
    """Return the isolation on a cylinder of the girth, number by number; kept once found."""
    turn_rad, along_m = _first_on_cylinder(ways, radius_m[..., 0])
    wavenumber_per_m = 2.0 * np.pi / np.asarray(wavelength_m(frequency_hz))[..., 0]
    ka, kz = radius_m[..., 0] * wavenumber_per_m, along_m * wavenumber_per_m
    numbers = np.broadcast_arrays(ka, np.minimum(turn_rad, np.pi), kz)
    each = np.vectorize(_cylinder_number_db, otypes=[float])
    return SkinIsolation(np.asarray(each(*np.round(numbers, 4))), 0.0)


@lru_cache(maxsize=4096)
def _cylinder_number_db(ka: float, phi_rad: float, kz: float) -> float:
    return float(cylinder_isolation_db(ka, phi_rad, kz))


_COMPUTE: dict[Model, Callable[[Floats, Way, Floats], SkinIsolation]] = {
    Model.SHADING: _shading,
    Model.SURFACE_RAY: _surface_rays,
    Model.CYLINDER: _cylinder,
    Model.FITTED: _fitted,
}
