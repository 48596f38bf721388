# SPDX-License-Identifier: Apache-2.0
"""Exact field of a radial dipole on an infinite conducting cylinder: what rays are judged by.

Lengths are in units of 1/k: `ka`, `kz`. Slow; nothing here runs unless it is asked for.
"""

from __future__ import annotations

from functools import partial

import numpy as np
from numpy.typing import NDArray

from rfplan.physics.cylinder_modes import SHARP, Blur, Modes, ModeSum
from rfplan.physics.domain import FloatOrArray
from rfplan.sources import OWN_COMPUTATION, TEXTBOOK_ANTENNAS, cites

Floats = NDArray[np.float64]
Complexes = NDArray[np.complex128]

_TURNS = 4
_MODES = OWN_COMPUTATION.at("cylindrical modes, blurred and extrapolated")
_VECTOR_WAVES = TEXTBOOK_ANTENNAS.at("vector wave functions of a conducting cylinder")


@cites(_VECTOR_WAVES, _MODES, returns="1")
def dipole_field(
    ka: float, phi_rad: FloatOrArray, kz: FloatOrArray, blur: Blur = SHARP
) -> Complexes:
    """Return the field normal to the skin from a radial dipole on the skin.

    Parameters
    ----------
    ka : float
        Radius times the wave number. [1]
    phi_rad, kz : float or array
        Angle round the cylinder and distance along it times the wave number. [rad] [1]
    blur : Blur
        Regularisation; another one must give the same field. [-]

    Returns
    -------
    complex or array
        E_n / k, with E_n = E / (-j eta k I l / 2 pi): exp(-jkt)/(kt) (1 - q + q^2) on a plane. [1]

    Raises
    ------
    ValueError
        If the radius or a distance is not positive.

    Notes
    -----
    Sum over orders n and integral over h of 2j/(pi x) [h^2 H'/H - (n/a)^2/(1-h^2) H/H'] at
    x = a sqrt(1 - h^2), along a path above the branch point h = 1.

    Examples
    --------
    >>> complex(np.round(dipole_field(4.0, np.pi / 2, 4.0), 4))
    (-0.0443-0.0581j)
    """
    return -0.5j * ModeSum(ka, phi_rad, kz).total(partial(_modes, turns=1), blur)


@cites(_VECTOR_WAVES, _MODES, returns="1")
def dipole_ray_field(
    ka: float, phi_rad: FloatOrArray, kz: FloatOrArray, blur: Blur = SHARP
) -> Complexes:
    """Return the part of that field that comes along one way round.

    Parameters
    ----------
    ka : float
        Radius times the wave number. [1]
    phi_rad, kz : float or array
        Angle round the cylinder, may exceed a turn, and distance along it. [rad] [1]
    blur : Blur
        Regularisation. [-]

    Returns
    -------
    complex or array
        E_n / k of one ray. [1]

    Raises
    ------
    ValueError
        If the radius or a distance is not positive.

    Notes
    -----
    Orders in steps of a fourth make the field repeat after four turns: the other ways round then
    start three turns further off, where nothing is left of them.

    Examples
    --------
    >>> complex(np.round(dipole_ray_field(4.0, 1.0, 0.0), 4))
    (0.0118+0.1867j)
    """
    summed = ModeSum(ka, phi_rad, kz)
    return -0.5j * summed.total(partial(_modes, turns=_TURNS), blur, _TURNS)


@cites(_VECTOR_WAVES, _MODES, returns="dB")
def dipole_level_db(ka: float, phi_rad: FloatOrArray, kz: FloatOrArray) -> FloatOrArray:
    """Return that field over the field as far away on a plane.

    Parameters
    ----------
    ka : float
        Radius times the wave number. [1]
    phi_rad, kz : float or array
        Angle round the cylinder and distance along it times the wave number. [rad] [1]

    Returns
    -------
    complex or array
        Level; above zero along the axis. [dB]

    Raises
    ------
    ValueError
        If the radius or a distance is not positive.

    Examples
    --------
    >>> float(np.round(dipole_level_db(13.7068, np.pi / 2, 0.0), 3))
    -13.086
    """
    kt = np.hypot(ka * phi_rad, kz)
    plane = np.abs(1.0 - 1j / kt - 1.0 / kt**2) / kt
    return np.asarray(20.0 * np.log10(np.abs(dipole_field(ka, phi_rad, kz)) / plane))


def _modes(h: Complexes, ka: float, most: int, turns: int) -> Modes:
    """Yield the spectrum of a dipole on the skin; ratios of H by recurrence to higher orders."""
    from scipy.special import hankel2e

    across = np.sqrt((1.0 - h) * (1.0 + h))
    x = ka * np.where(across.imag > 0.0, -across, across)
    for part in range(turns):
        order = part / turns
        up = hankel2e(order + 1.0, x) / hankel2e(order, x)
        while order <= most:
            slope = order / x - up
            tm, te = h**2 * slope, (order / ka) ** 2 / ((1.0 - h**2) * slope)
            yield order, 2j / (np.pi * x) * (tm - te)
            order += 1.0
            up = 2.0 * order / x - 1.0 / up
