# SPDX-License-Identifier: Apache-2.0
"""Mutual impedance of two parallel thin antennas with sinusoidal currents (induced EMF)."""

from __future__ import annotations

import numpy as np
from numpy.typing import NDArray

from rfplan.physics.constants import VACUUM_IMPEDANCE_OHM
from rfplan.physics.domain import ComplexOrArray, FloatOrArray, positive, within
from rfplan.sources import BALANIS_4E, OWN_COMPUTATION, TEXTBOOK_ANTENNAS, cites

Floats = NDArray[np.float64]
Complexes = NDArray[np.complex128]

HALF_WAVE_OHM = complex(73.0790, 42.5151)
"""Self impedance of a half-wave dipole of vanishing radius by the same method."""

THINNEST_WL = 1.0e-7
"""Spacing below which two dipoles in line count as this far aside: there the logarithms cancel."""

_EMF = BALANIS_4E.at("ch. 8, induced EMF method")
_OHM_PER_INTEGRAL = VACUUM_IMPEDANCE_OHM / (4.0 * np.pi)


@cites(_EMF, returns="ohm")
def side_by_side_ohm(spacing_wl: FloatOrArray) -> Complexes:
    """Return the mutual impedance of two half-wave dipoles side by side.

    Parameters
    ----------
    spacing_wl : float or array
        Distance in wavelengths. [1]

    Returns
    -------
    complex or array
        Mutual impedance at the middles. [ohm]

    Raises
    ------
    ValueError
        If a distance is not positive.

    Notes
    -----
    R = (eta/4 pi)(2 Ci(u0) - Ci(u1) - Ci(u2)), X = -(eta/4 pi)(2 Si(u0) - Si(u1) - Si(u2)) with
    u0 = k d and u1, u2 = k (sqrt(d^2 + l^2) +- l). u2 is taken as (k d)^2 / u1: no cancellation.

    Examples
    --------
    >>> complex(np.round(side_by_side_ohm(0.5), 2))
    (-12.52-29.91j)
    """
    positive(spacing_wl=spacing_wl)
    u0 = 2.0 * np.pi * np.asarray(spacing_wl)
    u1 = np.hypot(u0, np.pi) + np.pi
    u2 = u0**2 / u1
    total = 2.0 * _expint(u0) - _expint(u1) - _expint(u2)
    return np.asarray(-_OHM_PER_INTEGRAL * total)


@cites(_EMF, OWN_COMPUTATION.at("exponential integrals, three fields by two halves"), returns="ohm")
def dipole_mutual_ohm(
    length_a_wl: FloatOrArray,
    length_b_wl: FloatOrArray,
    spacing_wl: FloatOrArray,
    stagger_wl: FloatOrArray = 0.0,
) -> Complexes:
    """Return the mutual impedance of two parallel dipoles of any lengths, in echelon.

    Parameters
    ----------
    length_a_wl, length_b_wl : float or array
        Whole lengths in wavelengths, no multiple of one. [1]
    spacing_wl : float or array
        Distance between the two lines, in wavelengths; zero for dipoles in line. [1]
    stagger_wl : float or array
        Distance of the middles along the lines, in wavelengths. [1]

    Returns
    -------
    complex or array
        Mutual impedance at the middles; shape of the broadcast inputs. [ohm]

    Raises
    ------
    ValueError
        If a length is not positive or a distance negative.

    Notes
    -----
    A sinusoidal current sends three spherical waves, from its ends and its middle; each, weighed
    with the current of the other dipole, integrates to exponential integrals. Currents of real
    thick antennas differ: up to a few ohm at close spacing.

    Examples
    --------
    >>> complex(np.round(dipole_mutual_ohm(0.46, 0.63, 0.3, 0.41), 3))
    (14.847-24.038j)
    """
    positive(length_a_wl=length_a_wl, length_b_wl=length_b_wl)
    within(0.0, np.inf, spacing_wl=spacing_wl)
    aside = 2.0 * np.pi * np.maximum(spacing_wl, THINNEST_WL)
    along = 2.0 * np.pi * np.asarray(stagger_wl)
    half_a, half_b = np.pi * np.asarray(length_a_wl), np.pi * np.asarray(length_b_wl)
    total = (
        _wave_on_dipole(aside, along - half_a, half_b)
        + _wave_on_dipole(aside, along + half_a, half_b)
        - 2.0 * np.cos(half_a) * _wave_on_dipole(aside, along, half_b)
    )
    return np.asarray(1j * _OHM_PER_INTEGRAL * total / (np.sin(half_a) * np.sin(half_b)))


@cites(_EMF, TEXTBOOK_ANTENNAS.at("image in a ground plane"), returns="ohm")
def monopole_mutual_ohm(
    height_a_wl: FloatOrArray, height_b_wl: FloatOrArray, spacing_wl: FloatOrArray
) -> Complexes:
    """Return the mutual impedance of two monopoles on one plane.

    Parameters
    ----------
    height_a_wl, height_b_wl : float or array
        Heights in wavelengths. [1]
    spacing_wl : float or array
        Distance in wavelengths. [1]

    Returns
    -------
    complex or array
        Mutual impedance at the feet. [ohm]

    Raises
    ------
    ValueError
        If a height is not positive or a distance negative.

    Notes
    -----
    Half that of the dipoles that the monopoles form with their images.

    Examples
    --------
    >>> complex(np.round(monopole_mutual_ohm(0.25, 0.25, 0.5), 2))
    (-6.26-14.95j)
    """
    return 0.5 * dipole_mutual_ohm(2.0 * height_a_wl, 2.0 * height_b_wl, spacing_wl)


@cites(OWN_COMPUTATION.at("mutual part scaled to the antennas at hand"), returns="ohm")
def scaled_mutual_ohm(
    mutual_ohm: ComplexOrArray, own_ohm: FloatOrArray, a_ohm: FloatOrArray, b_ohm: FloatOrArray
) -> ComplexOrArray:
    """Return the mutual impedance of two real antennas from that of ideal ones.

    Parameters
    ----------
    mutual_ohm : complex or array
        Mutual impedance by induced EMF. [ohm]
    own_ohm : float or array
        Resistance of one of those ideal antennas by the same method. [ohm]
    a_ohm, b_ohm : float or array
        Resistances of the real antennas. [ohm]

    Returns
    -------
    complex or array
        Mutual impedance of the real ones. [ohm]

    Raises
    ------
    ValueError
        If a resistance is not positive.

    Notes
    -----
    Z21 sqrt(Ra Rb) / R. Left out, coupling on a plane is off by 1.2 to 1.7 dB.

    Examples
    --------
    >>> float(scaled_mutual_ohm(10.0, 36.5, 73.0, 73.0))
    20.0
    """
    positive(own_ohm=own_ohm, a_ohm=a_ohm, b_ohm=b_ohm)
    return mutual_ohm * (np.sqrt(a_ohm * b_ohm) / own_ohm)


def _expint(x: Floats) -> Complexes:
    """Return E1(jx) = -Ci(x) + j (Si(x) - pi/2)."""
    from scipy.special import sici

    sine, cosine = sici(x)
    return np.asarray(-cosine + 1j * (sine - np.pi / 2.0))


def _wave_on_dipole(aside: Floats, along: Floats, half: Floats) -> Complexes:
    """Return the integral of exp(-jr)/r times sin(half - |z|) over a dipole, in units of 1/k.

    The source lies at height -`along` as seen from the middle of the dipole.
    """
    lower = _piece(aside, along - half, along, half - along)
    return lower + _piece(aside, -along - half, -along, half + along)


def _piece(aside: Floats, start: Floats, stop: Floats, phase: Floats) -> Complexes:
    """Return the integral of exp(-jr)/r sin(phase + z) over z from start to stop."""
    rising = _expint(_path(aside, stop, -1.0)) - _expint(_path(aside, start, -1.0))
    falling = _expint(_path(aside, start, 1.0)) - _expint(_path(aside, stop, 1.0))
    return np.asarray((np.exp(1j * phase) * rising - np.exp(-1j * phase) * falling) / 2j)


def _path(aside: Floats, z: Floats, sign: float) -> Floats:
    """Return r + sign z without cancellation."""
    distance, along = np.hypot(aside, z), sign * z
    far = distance + np.abs(along)
    return np.asarray(np.where(along < 0.0, aside**2 / far, far))
