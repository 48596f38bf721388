# SPDX-License-Identifier: Apache-2.0
"""Bends of a cable: the radius that fits a corner, and the radius that a cable needs."""

from __future__ import annotations

import numpy as np

from rfplan.physics.domain import FloatOrArray, at_least, positive
from rfplan.sources import AS50881, ASTM_F2639, NASA_8739_4, TEXTBOOK_SURVEYING, cites


@cites(TEXTBOOK_SURVEYING.at("tangent length of a curve"), returns="m")
def largest_bend_radius_m(shorter_straight_m: FloatOrArray, turn_rad: FloatOrArray) -> FloatOrArray:
    """Return the largest radius with which a cable can turn a corner of its route.

    Parameters
    ----------
    shorter_straight_m : float or array
        The shorter of the two straight pieces that meet there. [m]
    turn_rad : float or array
        Change of direction; zero is straight on. [rad]

    Returns
    -------
    float or array
        Radius to the centre line of the cable. [m]

    Raises
    ------
    ValueError
        If the straight is not positive, or the turn not between 0 and pi.

    Notes
    -----
    t / tan(turn / 2) with t half the shorter straight, since the other half belongs to the
    next corner.

    Examples
    --------
    >>> round(float(largest_bend_radius_m(0.2, np.pi / 3)), 4)
    0.1732
    """
    positive(shorter_straight_m=shorter_straight_m, turn_rad=turn_rad, left_rad=np.pi - turn_rad)
    return shorter_straight_m / 2.0 / np.tan(turn_rad / 2.0)


@cites(
    NASA_8739_4.at("coaxial cable, 6 and 10 diameters"),
    AS50881.at("coaxial cable, 10 diameters"),
    ASTM_F2639.at("7.2.1.65, 6 diameters"),
    returns="m",
)
def least_bend_radius_m(diameter_m: FloatOrArray, multiple: FloatOrArray) -> FloatOrArray:
    """Return the least bend radius of a cable from a multiple of its diameter.

    Parameters
    ----------
    diameter_m : float or array
        Outer diameter of the cable. [m]
    multiple : float or array
        Number of diameters that the chosen rule asks for. [1]

    Returns
    -------
    float or array
        Least bend radius. [m]

    Raises
    ------
    ValueError
        If the diameter is not positive or the multiple negative.

    Notes
    -----
    Sources differ, 6 as a floor and 10 as the better figure: the multiple is the user's choice.

    Examples
    --------
    >>> round(1000 * float(least_bend_radius_m(4.95e-3, 10.0)), 1)
    49.5
    """
    positive(diameter_m=diameter_m)
    at_least(0.0, multiple=multiple)
    return multiple * diameter_m
