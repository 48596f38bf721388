# SPDX-License-Identifier: Apache-2.0
"""Weight and balance of a small change: moment, new centre of gravity, whether it is negligible."""

from __future__ import annotations

import numpy as np
from numpy.typing import NDArray

from rfplan.physics.domain import FloatOrArray, positive
from rfplan.sources import FAA_H_8083_1B, FAA_PHAK, OWN_COMPUTATION, cites

Floats = NDArray[np.float64]

_POUND_KG = 0.45359237
_MOMENT = FAA_PHAK.at("moment is weight times arm")
_NEGLIGIBLE = FAA_H_8083_1B.at("negligible weight change")

NEGLIGIBLE_SHIFT_RATIO = 0.0005
"""Shift of the centre of gravity, in parts of the mean aerodynamic chord, from memory."""


@cites(_MOMENT, returns="kg m")
def moment_change_kg_m(mass_kg: Floats, arm_m: Floats) -> float:
    """Return the moment that items add to an aircraft.

    Parameters
    ----------
    mass_kg : array, shape (n,)
        Mass of each item, negative where it is taken out. [kg]
    arm_m : array, shape (n,)
        Station of each item, aft of the datum. [m]

    Returns
    -------
    float
        Sum of mass times arm; 0 for no items. [kg m]

    Raises
    ------
    ValueError
        If the shapes differ.

    Notes
    -----
    sum(m x). An item that moves is taken out at the old arm and put in at the new one.

    Examples
    --------
    >>> moment_change_kg_m(np.array([-0.5, 0.5]), np.array([1.0, 3.0]))
    1.0
    """
    masses, arms = np.asarray(mass_kg), np.asarray(arm_m)
    if masses.shape != arms.shape:
        raise ValueError(f"mass_kg and arm_m must pair up, got {masses.shape} and {arms.shape}")
    return float(np.sum(masses * arms))


@cites(_MOMENT, FAA_H_8083_1B.at("new centre of gravity"), returns="m")
def new_cg_m(
    mass_kg: FloatOrArray,
    cg_m: FloatOrArray,
    change_kg: FloatOrArray,
    moment_kg_m: FloatOrArray,
) -> FloatOrArray:
    """Return the centre of gravity after a change.

    Parameters
    ----------
    mass_kg : float or array
        Mass before the change. [kg]
    cg_m : float or array
        Centre of gravity before the change, aft of the datum. [m]
    change_kg : float or array
        Mass put in less mass taken out. [kg]
    moment_kg_m : float or array
        Moment of the same items. [kg m]

    Returns
    -------
    float or array
        Centre of gravity after the change; shape of the broadcast inputs. [m]

    Raises
    ------
    ValueError
        If the mass before or after is not positive.

    Notes
    -----
    (M x + sum(m a)) / (M + sum(m)).

    Examples
    --------
    >>> new_cg_m(100.0, 2.0, 25.0, 25.0 * 3.0)
    2.2
    """
    after_kg = mass_kg + change_kg
    positive(mass_kg=mass_kg, mass_after_kg=after_kg)
    return (mass_kg * cg_m + moment_kg_m) / after_kg


@cites(_MOMENT, OWN_COMPUTATION.at("ends of a ratio of sums over a box"), returns="m")
def cg_bounds_m(
    mass_kg: float, cg_m: float, least_kg: Floats, most_kg: Floats, arm_m: Floats
) -> Floats:
    """Return the foremost and the aftmost centre of gravity that bounded masses allow.

    Parameters
    ----------
    mass_kg : float
        Mass before the change. [kg]
    cg_m : float
        Centre of gravity before the change, aft of the datum. [m]
    least_kg, most_kg : array, shape (n,)
        Bounds of what each item adds, negative where it is taken out. [kg]
    arm_m : array, shape (n,)
        Station of each item, aft of the datum. [m]

    Returns
    -------
    array, shape (2,)
        Least and most station. [m]

    Raises
    ------
    ValueError
        If the mass before, or the least mass after, is not positive.

    Notes
    -----
    (M x + sum(m a)) / (M + sum(m)) moves towards an item that is made heavier. At its aftmost,
    every item behind it is at its most and every other at its least; the sides are found by
    trying again from the last result until none changes.

    Examples
    --------
    >>> cg_bounds_m(100.0, 2.0, np.array([0.0]), np.array([25.0]), np.array([3.0])).tolist()
    [2.0, 2.2]
    """
    positive(mass_kg=mass_kg, least_mass_kg=mass_kg + float(np.sum(least_kg)))
    return np.array(
        [
            _furthest_m(mass_kg, cg_m, (behind, ahead), arm_m)
            for behind, ahead in ((least_kg, most_kg), (most_kg, least_kg))
        ]
    )


def _furthest_m(
    mass_kg: float, cg_m: float, ends_kg: tuple[Floats, Floats], arm_m: Floats
) -> float:
    """The centre of gravity with one end of each mass behind it and the other ahead of it."""
    behind_kg, ahead_kg = ends_kg
    here_m = cg_m
    for _ in range(len(arm_m) + 2):  # each try moves at least one item to its other end
        added_kg = np.where(arm_m > here_m, behind_kg, ahead_kg)
        moment_kg_m = mass_kg * cg_m + float(np.sum(added_kg * arm_m))
        here_m = moment_kg_m / (mass_kg + float(np.sum(added_kg)))
    return here_m


@cites(OWN_COMPUTATION.at("part of the chord behind its leading edge"), returns="1")
def on_mac_ratio(
    station_m: FloatOrArray, lemac_m: FloatOrArray, mac_m: FloatOrArray
) -> FloatOrArray:
    """Return a station as a part of the mean aerodynamic chord.

    Parameters
    ----------
    station_m : float or array
        Station. [m]
    lemac_m : float or array
        Station of the leading edge of the chord. [m]
    mac_m : float or array
        Length of the chord. [m]

    Returns
    -------
    float or array
        Part of the chord, 0 at its leading edge; times 100 it is % MAC. [1]

    Raises
    ------
    ValueError
        If the chord is not positive.

    Notes
    -----
    (x - LEMAC) / MAC. With a shift for the station and 0 for the leading edge: the shift in MAC.

    Examples
    --------
    >>> on_mac_ratio(2.5, 2.0, 2.0)
    0.25
    """
    positive(mac_m=mac_m)
    return (station_m - lemac_m) / mac_m


@cites(_NEGLIGIBLE, returns="kg")
def negligible_mass_kg(empty_kg: float) -> float:
    """Return the change of empty weight below which the weight criterion calls it negligible.

    Parameters
    ----------
    empty_kg : float
        Empty weight of the aircraft. [kg]

    Returns
    -------
    float
        Largest negligible change. [kg]

    Raises
    ------
    ValueError
        If the weight is not positive.

    Notes
    -----
    1 lb below 5,000 lb empty, 2 lb up to 50,000 lb, 5 lb above; from memory.

    Examples
    --------
    >>> round(negligible_mass_kg(900.0) / 0.45359237, 6)
    1.0
    """
    positive(empty_kg=empty_kg)
    empty_lb = empty_kg / _POUND_KG
    line_lb = 1.0 if empty_lb < 5_000.0 else 2.0 if empty_lb <= 50_000.0 else 5.0
    return line_lb * _POUND_KG


@cites(_NEGLIGIBLE, returns="1")
def is_negligible(empty_kg: float, change_kg: float, shift_m: float, mac_m: float) -> bool:
    """Return whether a change is negligible: in weight and in balance, both.

    Parameters
    ----------
    empty_kg : float
        Empty weight of the aircraft before the change. [kg]
    change_kg : float
        Change of the empty weight, of either sign. [kg]
    shift_m : float
        Shift of the centre of gravity, of either sign. [m]
    mac_m : float
        Mean aerodynamic chord. [m]

    Returns
    -------
    bool
        True only where both criteria hold. [1]

    Raises
    ------
    ValueError
        If the weight or the chord is not positive.

    Notes
    -----
    |change| at most the weight line, and |shift| below 0.05 % of the chord. A light antenna far
    aft passes the first and breaks the second.

    Examples
    --------
    >>> is_negligible(725.7, 0.417, 0.001126, 1.4935)
    False
    """
    light = abs(change_kg) <= negligible_mass_kg(empty_kg)
    still = abs(float(on_mac_ratio(shift_m, 0.0, mac_m))) < NEGLIGIBLE_SHIFT_RATIO
    return light and still


@cites(OWN_COMPUTATION.at("new_cg_m solved for the mass"), returns="kg")
def mass_to_reach_kg(mass_kg: float, cg_m: float, limit_m: float, arm_m: float) -> float:
    """Return the mass that, put in at one station, brings the centre of gravity to a limit.

    Parameters
    ----------
    mass_kg : float
        Mass of the aircraft. [kg]
    cg_m : float
        Centre of gravity. [m]
    limit_m : float
        Station that must not be passed. [m]
    arm_m : float
        Station of what is put in. [m]

    Returns
    -------
    float
        Mass; infinite where the station does not lie beyond the limit. [kg]

    Raises
    ------
    ValueError
        If the mass is not positive.

    Notes
    -----
    M (limit - x) / (a - limit): how much an unknown mass would have to be before it decides.

    Examples
    --------
    >>> round(mass_to_reach_kg(100.0, 2.0, 2.2, 3.0), 6)
    25.0
    """
    positive(mass_kg=mass_kg)
    if (arm_m - limit_m) * (limit_m - cg_m) <= 0.0:
        return float("inf")
    return mass_kg * (limit_m - cg_m) / (arm_m - limit_m)
