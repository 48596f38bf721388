# SPDX-License-Identifier: Apache-2.0
"""Exact coupling of radial quarter-wave monopoles on an infinite conducting cylinder.

Lengths are in units of 1/k: `ka`, `kz`. Slow; nothing here runs unless it is asked for.
"""

from __future__ import annotations

import numpy as np
from numpy.typing import NDArray

from rfplan.physics.constants import VACUUM_IMPEDANCE_OHM
from rfplan.physics.coupling import least_isolation_db
from rfplan.physics.cylinder_modes import SHARP, Blur, Modes, ModeSum
from rfplan.physics.domain import FloatOrArray, positive
from rfplan.sources import OWN_COMPUTATION, TEXTBOOK_ANTENNAS, cites

Floats = NDArray[np.float64]
Complexes = NDArray[np.complex128]

QUARTER = np.pi / 2.0
"""Height of a quarter-wave monopole."""

_OHM = VACUUM_IMPEDANCE_OHM / (4.0 * np.pi)
_MODES = OWN_COMPUTATION.at("cylindrical modes, blurred and extrapolated")
_VECTOR_WAVES = TEXTBOOK_ANTENNAS.at("vector wave functions of a conducting cylinder")


@cites(_VECTOR_WAVES, _MODES, returns="ohm")
def cylinder_mutual_ohm(
    ka: float, phi_rad: FloatOrArray, kz: FloatOrArray, blur: Blur = SHARP
) -> Complexes:
    """Return the mutual impedance of two radial quarter-wave monopoles.

    Parameters
    ----------
    ka : float
        Radius times the wave number. [1]
    phi_rad, kz : float or array
        Angle round the cylinder and distance along it times the wave number. [rad] [1]
    blur : Blur
        Regularisation; another one must give the same impedance. [-]

    Returns
    -------
    array
        Mutual impedance, sinusoidal currents. [ohm]

    Raises
    ------
    ValueError
        If the radius or a distance is not positive.

    Notes
    -----
    The field of one current on the other, eight Gauss nodes each; twelve change nothing.

    Examples
    --------
    >>> complex(np.round(cylinder_mutual_ohm(2.0, 0.0, 3.0), 2))
    (-11.3-18.11j)
    """
    return np.asarray(_OHM * ModeSum(ka, phi_rad, kz).total(_modes, blur))


@cites(_VECTOR_WAVES, _MODES, returns="ohm")
def cylinder_resistance_ohm(ka: float) -> float:
    """Return the radiation resistance of a radial quarter-wave monopole.

    Parameters
    ----------
    ka : float
        Radius times the wave number. [1]

    Returns
    -------
    float
        Resistance. [ohm]

    Raises
    ------
    ValueError
        If the radius is not positive.

    Notes
    -----
    Real part of the same sum at distance zero, along a path round h = 1: on the real line the
    integrand is singular there like 1/(x ln x)^2 and no quadrature settles.

    Examples
    --------
    >>> round(cylinder_resistance_ohm(20.0), 2)
    37.19
    """
    positive(ka=ka)
    return _OHM * ModeSum.radiated(_modes, ka, int(np.ceil(ka + QUARTER)) + 25)


@cites(_VECTOR_WAVES, _MODES, returns="dB")
def cylinder_isolation_db(ka: float, phi_rad: FloatOrArray, kz: FloatOrArray) -> FloatOrArray:
    """Return the isolation of two radial quarter-wave monopoles, matched as well as can be.

    Parameters
    ----------
    ka : float
        Radius times the wave number. [1]
    phi_rad, kz : float or array
        Angle round the cylinder and distance along it times the wave number. [rad] [1]

    Returns
    -------
    array
        Isolation. [dB]

    Raises
    ------
    ValueError
        If the radius or a distance is not positive.

    Notes
    -----
    Exact for an infinite cylinder of circular section and thin radial wires. A hull is neither:
    its length alone moves the shadow side by -6 to +5 dB at VHF.

    Examples
    --------
    >>> round(float(cylinder_isolation_db(4.1498, np.pi / 2, 0.0)), 1)
    27.2
    """
    mutual_ohm = cylinder_mutual_ohm(ka, phi_rad, kz)
    return least_isolation_db(np.abs(mutual_ohm) / cylinder_resistance_ohm(ka))


def _modes(h: Complexes, ka: float, most: int) -> Modes:
    """Yield the spectrum of two cosine currents from the skin up, order by order.

    H goes up and J down in ratios of neighbouring orders; each product J H stays near one.
    """
    from scipy.special import hankel2e, jve

    height, current = _current()
    across = np.sqrt((1.0 - h) * (1.0 + h))
    across = np.where(across.imag > 0.0, -across, across)
    x = np.asarray(across[:, None] * (ka + np.concatenate([[0.0], height])), dtype=complex)
    foot = x[:, :1]
    down = _bessel_ratios(x, most + 1)
    up = hankel2e(1, x) / hankel2e(0, x)
    outer = hankel2e(0, x) / hankel2e(0, foot) * np.exp(-1j * (x - foot))
    inner = jve(0, x) * np.exp(np.abs(x.imag) - 1j * foot) * hankel2e(0, foot)
    for order in range(most + 1):
        h_slope, j_slope = order / x - up, order / x - down[order + 1]
        hard = inner - inner[:, :1] * j_slope[:, :1] / h_slope[:, :1] * outer
        soft = inner * j_slope - inner[:, :1] * outer * h_slope
        te = _both(outer[:, 1:], hard[:, 1:], current / (ka + height))
        tm = _both((outer * h_slope)[:, 1:], soft[:, 1:], current)
        yield float(order), order**2 / (1.0 - h**2) * te + h**2 * tm
        outer, inner = outer * up / up[:, :1], inner * down[order + 1] * up[:, :1]
        up = 2.0 * (order + 1) / x - 1.0 / up


def _current() -> tuple[Floats, Floats]:
    """Return heights above the skin, and the current there times the weight of the node."""
    node, weight = np.polynomial.legendre.leggauss(8)
    height = QUARTER * (1.0 + node) / 2.0
    return height, weight * QUARTER / 2.0 * np.cos(height)


def _both(outer: Complexes, inner: Complexes, current: Floats) -> Complexes:
    """Return the double integral of outer (higher point) times inner (lower point)."""
    above, below = outer * current, inner * current
    twice = 2.0 * np.sum(above * np.cumsum(below, axis=1), axis=1)
    return np.asarray(twice - np.sum(above * below, axis=1))


def _bessel_ratios(x: Complexes, most: int) -> list[Complexes]:
    """Return J_n / J_(n-1) for n up to `most` by going down from far above; place 0 is unused."""
    start = most + 40
    ratio = x / (2.0 * (start + 1.0))
    found: list[Complexes] = []
    for n in range(start, 0, -1):
        ratio = 1.0 / (2.0 * n / x - ratio)
        if n <= most:
            found.append(ratio)
    return [x, *reversed(found)]
