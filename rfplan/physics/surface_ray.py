# SPDX-License-Identifier: Apache-2.0
"""The field that a monopole on a curved skin sends along a ray over the skin to another one."""

from __future__ import annotations

from typing import NamedTuple

import numpy as np
from numpy.typing import NDArray

from rfplan.physics.domain import FloatOrArray, at_least, positive
from rfplan.physics.fock import fock_pair, hard_fock, hard_fock_terms, soft_fock
from rfplan.physics.free_space import wavelength_m
from rfplan.sources import OWN_COMPUTATION, PATHAK_WANG_1981, cites

Complexes = NDArray[np.complex128]

TWIST_TERM = 3.0
"""Weight of tan^2 of the helix angle, derived for short ways and kept for all: the recalled
formula has 1, which leaves out the part of the waves with a magnetic field along the axis."""

CURVATURE_TERM = 13.0 / 8.0
"""Weight of the curvature term, derived for short ways and kept for all."""

_TURN = np.exp(0.25j * np.pi)
_RAY = PATHAK_WANG_1981.at("surface ray of a normal dipole on a convex conductor")
_DERIVED = OWN_COMPUTATION.at("exact spectrum of the cylinder, expanded for small xi")


class Way(NamedTuple):
    """A way along the skin: its length, and what its bending and twisting add up to."""

    length_m: FloatOrArray
    bend_m13: FloatOrArray
    twist_rad: FloatOrArray


@cites(OWN_COMPUTATION.at("helix on a circular cylinder"), returns="m, m^(1/3), rad")
def cylinder_way(length_m: FloatOrArray, radius_m: FloatOrArray, helix_rad: FloatOrArray) -> Way:
    """Return a helix on a circular cylinder as a way along the skin.

    Parameters
    ----------
    length_m : float or array
        Length along the skin. [m]
    radius_m : float or array
        Radius of the cylinder. [m]
    helix_rad : float or array
        Angle to the circle round the cylinder; pi/2 is along the axis. [rad]

    Returns
    -------
    Way
        Length; integral of curvature^(2/3); integral of sin^2(helix) over the radius.
        [m, m^(1/3), rad]

    Raises
    ------
    ValueError
        If a length is negative or a radius not positive.
    """
    at_least(0.0, length_m=length_m)
    positive(radius_m=radius_m)
    curvature_per_m = np.cos(helix_rad) ** 2 / radius_m
    twist_rad = length_m * np.sin(helix_rad) ** 2 / radius_m
    return Way(length_m, length_m * curvature_per_m ** (2.0 / 3.0), twist_rad)


@cites(_RAY, returns="1")
def shade_parameter(frequency_hz: FloatOrArray, bend_m13: FloatOrArray) -> FloatOrArray:
    """Return how deep in the shade of the skin the end of a way lies.

    Parameters
    ----------
    frequency_hz : float or array
        Carrier frequency. [Hz]
    bend_m13 : float or array
        Integral of curvature^(2/3) along the way. [m^(1/3)]

    Returns
    -------
    float or array
        xi. [1]

    Raises
    ------
    ValueError
        If a frequency is not positive.

    Notes
    -----
    (k/2)^(1/3) times the integral.

    Examples
    --------
    >>> round(float(shade_parameter(1090e6, cylinder_way(0.9425, 0.6, 0.0).bend_m13)), 3)
    2.984
    """
    return (np.pi / wavelength_m(frequency_hz)) ** (1.0 / 3.0) * bend_m13


@cites(OWN_COMPUTATION.at("curvatures of a cylinder added up"), returns="1/m")
def mean_curvature_per_m(way: Way) -> FloatOrArray:
    """Return the curvature round the hull, averaged over a way.

    Parameters
    ----------
    way : Way
        Way along the skin. [m, m^(1/3), rad]

    Returns
    -------
    float or array
        One over the radius of the cylinder that the way would lie on. [1/m]

    Notes
    -----
    cos^2/a from the bend plus sin^2/a from the twist: exact for a helix, a definition elsewhere.
    """
    length_m = np.asarray(way.length_m)
    return (way.bend_m13 / length_m) ** 1.5 + way.twist_rad / length_m


@cites(OWN_COMPUTATION.at("curvatures of a cylinder compared"), returns="rad")
def helix_rad(way: Way) -> FloatOrArray:
    """Return the mean angle of a way to the circle round the hull.

    Parameters
    ----------
    way : Way
        Way along the skin. [m, m^(1/3), rad]

    Returns
    -------
    float or array
        Angle; pi/2 is along the hull. [rad]

    Notes
    -----
    tan^2 is the twist over what the bend is on a circle: exact for a helix, a mean elsewhere.

    Examples
    --------
    >>> round(float(helix_rad(cylinder_way(2.0, 0.6, 0.7))), 6)
    0.7
    """
    round_rad = np.asarray(way.bend_m13) ** 1.5 / np.sqrt(way.length_m)
    return np.asarray(np.arctan2(np.sqrt(way.twist_rad), np.sqrt(round_rad)))


@cites(_RAY, _DERIVED, returns="1")
def ray_ratio(frequency_hz: FloatOrArray, way: Way) -> Complexes:
    """Return the field normal to the skin, over exp(-jkt)/t.

    Parameters
    ----------
    frequency_hz : float or array
        Carrier frequency. [Hz]
    way : Way
        Way along the skin. [m, m^(1/3), rad]

    Returns
    -------
    complex or array
        E_n / G with G = exp(-jkt)/t; 1 - q + q^2 on a plane. [1]

    Raises
    ------
    ValueError
        If a frequency or a length is not positive.

    Notes
    -----
    v (1 - q) + q^2 u + q (3 T^2 + 13/8)(u - v), q = j/kt, T = tan of the helix angle. T^2 (u - v)
    is written as twist times (u - v)/xi^1.5, which stays finite on the axis. The last part,
    -(2j/15) kt/(ka)^2 exp(-2 xi), is the next term of the axis series; the term is derived, its
    taper exp(-2 xi) is a numerical choice. So is freezing 3 and 13/8 away from xi = 0. Convex
    conducting skin only.

    Examples
    --------
    >>> float(np.round(abs(ray_ratio(1090e6, cylinder_way(0.9425, 0.6, 0.0))), 3))
    0.221
    """
    positive(length_m=way.length_m)
    wavenumber_per_m = 2.0 * np.pi / wavelength_m(frequency_hz)
    kt = np.asarray(wavenumber_per_m * way.length_m)
    return _short_form(kt, shade_parameter(frequency_hz, way.bend_m13), way) + _long_axis(
        kt, frequency_hz, way
    )


@cites(_RAY, _DERIVED, returns="1")
def cylinder_ray_ratio(kt: FloatOrArray, ka: FloatOrArray, helix_rad: FloatOrArray) -> Complexes:
    """Return the same field on a cylinder without the term for long axial ways.

    Parameters
    ----------
    kt : float or array
        Length of the way times the wave number. [1]
    ka : float or array
        Radius of the cylinder times the wave number. [1]
    helix_rad : float or array
        Angle to the circle round the cylinder; pi/2 is along the axis. [rad]

    Returns
    -------
    complex or array
        E_n / G. [1]

    Raises
    ------
    ValueError
        If a length or radius is not positive.

    Notes
    -----
    v (1 - q) + q^2 u + q (3 T^2 + 13/8)(u - v).

    Examples
    --------
    >>> complex(np.round(cylinder_ray_ratio(30.0, 15.0, 0.0), 4))
    (-0.0272-0.1063j)
    """
    positive(kt=kt, ka=ka)
    way = cylinder_way(kt, ka, helix_rad)
    return _short_form(np.asarray(kt), 0.5 ** (1.0 / 3.0) * way.bend_m13, way)


@cites(_DERIVED, returns="1")
def full_cylinder_ray_ratio(
    kt: FloatOrArray, ka: FloatOrArray, helix_rad: FloatOrArray
) -> Complexes:
    """Return the field on a cylinder to first order in 1/kt at any xi.

    Parameters
    ----------
    kt : float or array
        Length of the way times the wave number. [1]
    ka : float or array
        Radius of the cylinder times the wave number. [1]
    helix_rad : float or array
        Angle to the circle round the cylinder; pi/2 is along the axis. [rad]

    Returns
    -------
    complex or array
        E_n / G. [1]

    Raises
    ------
    ValueError
        If a length or radius is not positive.

    Notes
    -----
    v (1 - q) + q^2 u + q T^2 [u - v + 26/15 Lv + 4/45 LLv + (j/5) xi^1.5 R]
    + q [47/30 Lv + 1/30 LLv + (j/5) xi^1.5 R], L = xi d/dxi, R the integral of x^0.5 v from xi on.
    An expansion without error bound, against which the short form is judged.

    Examples
    --------
    >>> complex(np.round(full_cylinder_ray_ratio(30.0, 15.0, 0.0), 4))
    (-0.0296-0.1048j)
    """
    positive(kt=kt, ka=ka)
    way = cylinder_way(kt, ka, helix_rad)
    xi = 0.5 ** (1.0 / 3.0) * np.asarray(way.bend_m13)
    first, second, rest = hard_fock_terms(xi)
    slope, tail = fock_pair(xi).slope, 0.2j * rest / _TURN
    twisted = slope + 26.0 / 15.0 * first + 4.0 / 45.0 * second + tail
    bent = 47.0 / 30.0 * first + second / 30.0 + tail
    q, x = 1j / np.asarray(kt), _TURN * xi**1.5
    twist = _TURN * np.sqrt(np.asarray(kt) / 2.0) * way.twist_rad
    plane = hard_fock(xi) * (1.0 - q) + q**2 * soft_fock(xi)
    return np.asarray(plane + q * (twist * twisted + x * bent))


@cites(_DERIVED, returns="1")
def axis_series(kt: FloatOrArray, ka: FloatOrArray) -> Complexes:
    """Return the field straight along a cylinder far from the source.

    Parameters
    ----------
    kt : float or array
        Length of the way times the wave number, large. [1]
    ka : float or array
        Radius of the cylinder times the wave number, large. [1]

    Returns
    -------
    complex or array
        E_n / G. [1]

    Raises
    ------
    ValueError
        If a length or radius is not positive.

    Notes
    -----
    1 + (3/8) sqrt(2 pi) w + (2/15) w^2 - 15 sqrt(2 pi)/2048 w^3, w = exp(-j pi/4) sqrt(kt)/ka:
    above one, so a round hull couples its own top line better than a flat plate does.

    Examples
    --------
    >>> float(np.round(abs(axis_series(20.0, 8.0)), 3))
    1.434
    """
    positive(kt=kt, ka=ka)
    w = np.sqrt(kt) / (_TURN * ka)
    root = np.sqrt(2.0 * np.pi)
    return np.asarray(1.0 + w * (3 / 8 * root + w * (2 / 15 - w * 15 / 2048 * root)))


def _short_form(kt: NDArray[np.float64], xi: FloatOrArray, way: Way) -> Complexes:
    """Return the ray with the short correction, finite on the axis."""
    q, fock = 1j / kt, fock_pair(xi)
    x = _TURN * np.asarray(xi) ** 1.5
    twisted = TWIST_TERM * _TURN * np.sqrt(kt / 2.0) * way.twist_rad
    bent = x * (q + CURVATURE_TERM)
    return np.asarray(fock.hard * (1.0 - q + q**2) + q * fock.slope * (bent + twisted))


def _long_axis(kt: NDArray[np.float64], frequency_hz: FloatOrArray, way: Way) -> Complexes:
    """Return what keeps long ways along the axis from being underrated."""
    turned_rad = np.asarray(way.length_m * mean_curvature_per_m(way))
    taper = np.exp(-2.0 * shade_parameter(frequency_hz, way.bend_m13))
    return np.asarray(-2j / 15.0 * turned_rad**2 / kt * taper)
