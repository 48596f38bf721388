# SPDX-License-Identifier: Apache-2.0
"""Isolation of two monopoles on a curved skin: plane coupling times what the ray loses or gains."""

from __future__ import annotations

from typing import NamedTuple

import numpy as np
from numpy.typing import NDArray

from rfplan.physics.coupling import friis_isolation_db, least_isolation_db
from rfplan.physics.domain import FloatOrArray, positive
from rfplan.physics.free_space import wavelength_m
from rfplan.physics.mutual_impedance import HALF_WAVE_OHM, side_by_side_ohm
from rfplan.physics.shading import shading_argument, shading_loss_db
from rfplan.physics.surface_ray import Way, ray_ratio, shade_parameter
from rfplan.sources import OWN_COMPUTATION, cites

Floats = NDArray[np.float64]
Complexes = NDArray[np.complex128]

_PRODUCT = OWN_COMPUTATION.at("plane coupling times the ray over the ray on a plane")
_OFFSET = OWN_COMPUTATION.at("offset fitted to the exact cylinder")

FITTED_FROM_KA = 2.0
"""Radius times wave number from which on the fitted offset was checked."""


@cites(_PRODUCT, returns="ohm")
def ray_mutual_ohm(frequency_hz: FloatOrArray, way: Way) -> Complexes:
    """Return what each ray adds to the mutual impedance of two quarter-wave monopoles.

    Parameters
    ----------
    frequency_hz : float or array
        Carrier frequency. [Hz]
    way : Way
        Ways along the skin. [m, m^(1/3), rad]

    Returns
    -------
    complex or array
        Mutual impedance by one ray; shape of the broadcast inputs. [ohm]

    Raises
    ------
    ValueError
        If a frequency or length is not positive.

    Notes
    -----
    Half the mutual impedance of half-wave dipoles at the length of the way, times E_n / G over
    1 - q + q^2. Near antennas do not see a ray but each other: too strong on small cylinders.
    """
    length_wl = np.asarray(way.length_m / wavelength_m(frequency_hz))
    q = 1j / (2.0 * np.pi * length_wl)
    bent = ray_ratio(frequency_hz, way) / (1.0 - q + q**2)
    return np.asarray(0.5 * side_by_side_ohm(length_wl) * bent)


class SkinIsolation(NamedTuple):
    """Isolation with the magnitudes of all rays added, and what their phases would add to it."""

    least_db: FloatOrArray
    phases_db: FloatOrArray


@cites(_PRODUCT, returns="dB, dB")
def skin_isolation(frequency_hz: FloatOrArray, ways: Way) -> SkinIsolation:
    """Return the isolation for pass or fail: the magnitudes of all rays added.

    Parameters
    ----------
    frequency_hz : float or array
        Carrier frequency; its last axis stands for the ways. [Hz]
    ways : Way
        Ways along the skin, both ways round the hull in the last axis. [m, m^(1/3), rad]

    Returns
    -------
    SkinIsolation
        Isolation under the best of matches, and how much better it would be if the rays kept
        their phases; one axis fewer. [dB, dB]

    Raises
    ------
    ValueError
        If a frequency or length is not positive.

    Notes
    -----
    No null of a calculation is taken for isolation. Against the exact cylinder never optimistic
    from kt = 1.2 on; too pessimistic on thin hulls and where rays cancel.

    Examples
    --------
    >>> from rfplan.physics.surface_ray import cylinder_way
    >>> ways = cylinder_way(np.array([1.8850, 1.8850]), 0.6, 0.0)
    >>> round(float(skin_isolation(1090e6, ways).least_db), 1)
    61.5
    """
    rays_ohm = ray_mutual_ohm(frequency_hz, ways)
    added_ohm = np.sum(np.abs(rays_ohm), axis=-1)
    together_ohm = np.maximum(np.abs(np.sum(rays_ohm, axis=-1)), 1.0e-150)
    least_db = least_isolation_db(added_ohm / (0.5 * HALF_WAVE_OHM.real))
    return SkinIsolation(least_db, 20.0 * np.log10(np.maximum(added_ohm / together_ohm, 1.0)))


@cites(OWN_COMPUTATION.at("rays on the skin against the straight line"), returns="dB")
def guided_db(frequency_hz: FloatOrArray, ways: Way, distance_m: FloatOrArray) -> FloatOrArray:
    """Return how much more a conducting skin carries between two places than the straight line.

    Parameters
    ----------
    frequency_hz : float or array
        Carrier frequency; its last axis stands for the ways. [Hz]
    ways : Way
        Ways along the skin, both ways round the hull in the last axis. [m, m^(1/3), rad]
    distance_m : float or array
        Straight distance between the places. [m]

    Returns
    -------
    array
        What is taken off the isolation over the straight line; never negative. [dB]

    Raises
    ------
    ValueError
        If a frequency, length or distance is not positive.

    Notes
    -----
    The magnitudes of the fields of all rays added, over 1/d. A thin hull guides a wave along
    itself, so that two antennas on its top line couple more than across free space: by 2 dB at
    ka = 2 and kt = 7, by 6 dB at kt = 26. With it the straight line is never optimistic against
    quarter-wave monopoles on an exact cylinder of ka 0.8 to 12, kt from 1.2 to 80.

    Examples
    --------
    >>> from rfplan.physics.surface_ray import cylinder_way
    >>> ways = cylinder_way(np.array([3.0, 4.8]), 0.6, np.array([1.5708, 0.6750]))
    >>> round(float(guided_db(120e6, ways, 3.0)), 1)
    9.1
    """
    positive(distance_m=distance_m)
    field = np.abs(ray_ratio(frequency_hz, ways)) / ways.length_m
    added = np.sum(field, axis=-1) * np.asarray(distance_m)
    return np.asarray(20.0 * np.log10(np.maximum(added, 1.0)))


@cites(_PRODUCT, _OFFSET, returns="dB")
def fitted_isolation_db(
    frequency_hz: FloatOrArray, ways: Way, radius_m: FloatOrArray
) -> FloatOrArray:
    """Return the best estimate of the isolation, on neither side on purpose.

    Parameters
    ----------
    frequency_hz : float or array
        Carrier frequency; its last axis stands for the ways. [Hz]
    ways : Way
        Ways along the skin, both ways round the hull in the last axis. [m, m^(1/3), rad]
    radius_m : float or array
        Radius of a circle with the girth of the hull; its last axis stands for the ways. [m]

    Returns
    -------
    array
        Isolation; one axis fewer. [dB]

    Raises
    ------
    ValueError
        If a frequency, length or radius is not positive.

    Notes
    -----
    Rays added with their phases, plus 11.2 / (ka + 0.34) dB. The offset is a numerical
    identification on exact cylinders from ka = 2 on, without a derivation: it never decides PASS.
    """
    positive(radius_m=radius_m)
    total_ohm = np.abs(np.sum(ray_mutual_ohm(frequency_hz, ways), axis=-1))
    ka = 2.0 * np.pi * radius_m / np.asarray(wavelength_m(frequency_hz))
    least_db = least_isolation_db(total_ohm / (0.5 * HALF_WAVE_OHM.real))
    return np.asarray(least_db + 11.2 / (ka[..., 0] + 0.34))


@cites(OWN_COMPUTATION.at("Friis and shading factor on the stronger way"), returns="dB")
def shaded_isolation_db(frequency_hz: FloatOrArray, ways: Way) -> FloatOrArray:
    """Return the isolation by the quick method, for ranking.

    Parameters
    ----------
    frequency_hz : float or array
        Carrier frequency; its last axis stands for the ways. [Hz]
    ways : Way
        Ways along the skin, both ways round the hull in the last axis. [m, m^(1/3), rad]

    Returns
    -------
    array
        Isolation; one axis fewer. [dB]

    Raises
    ------
    ValueError
        If a frequency or length is not positive.

    Notes
    -----
    The smaller of both ways. Knows neither the gain along the axis nor the sum of two equal rays.
    """
    loss_db = shading_loss_db(shading_argument(shade_parameter(frequency_hz, ways.bend_m13)))
    isolation_db = friis_isolation_db(frequency_hz, ways.length_m) + loss_db
    return np.asarray(np.min(isolation_db, axis=-1))
