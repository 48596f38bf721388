# SPDX-License-Identifier: Apache-2.0
"""Attenuation of a matched cable at room temperature: law, table, fit, dielectric part, rating."""

from __future__ import annotations

from typing import NamedTuple

import numpy as np
from numpy.typing import NDArray

from rfplan.physics.constants import DB_PER_NEPER, SPEED_OF_LIGHT_M_PER_S
from rfplan.physics.domain import FloatOrArray, at_least, positive, within
from rfplan.sources import (
    CABLE_SHEET_RG316,
    K1_K2_PAGE,
    OWN_COMPUTATION,
    TEXTBOOK_TRANSMISSION_LINE,
    cites,
)

_EDGE_RATIO = 1.0e-9
_TWO_CONSTANTS = K1_K2_PAGE.at("attenuation from two constants")
_SHEET_FORMULA = CABLE_SHEET_RG316.at("attenuation formula")


class AttenuationLaw(NamedTuple):
    """Constants of the law, k1 on the root and k2 on the frequency, and how well they fit."""

    k1: float
    k2: float
    worst_residual_ratio: float


@cites(_TWO_CONSTANTS, _SHEET_FORMULA, returns="dB/m")
def attenuation_law_db_per_m(
    frequency_hz: FloatOrArray, k1: FloatOrArray, k2: FloatOrArray
) -> FloatOrArray:
    """Return the attenuation of a cable from its two constants.

    Parameters
    ----------
    frequency_hz : float or array
        Carrier frequency. [Hz]
    k1 : float or array
        Conductor constant as the trade writes it. [dB/(100 m sqrt(MHz))]
    k2 : float or array
        Constant of dielectric and braid as the trade writes it. [dB/(100 m MHz)]

    Returns
    -------
    float or array
        Attenuation at 20 degC; shape of the broadcast inputs. [dB/m]

    Raises
    ------
    ValueError
        If a frequency is not positive or a constant is negative.

    Notes
    -----
    (k1 sqrt(f) + k2 f) / 100 with f in MHz. Fails below about 20 MHz for cables with a
    clad-steel centre, and outside the range of the table that the constants came from.

    Examples
    --------
    >>> round(float(attenuation_law_db_per_m(1575.42e6, 1.418, 0.02004)), 4)
    0.8785
    """
    positive(frequency_hz=frequency_hz)
    at_least(0.0, k1=k1, k2=k2)
    megahertz = frequency_hz / 1.0e6
    return (k1 * np.sqrt(megahertz) + k2 * megahertz) / 100.0


@cites(
    OWN_COMPUTATION.at("least squares of relative residuals, constants not negative"),
    returns="k1 dB/(100 m sqrt(MHz)), k2 dB/(100 m MHz), worst_residual_ratio 1",
)
def fit_attenuation_law(
    frequency_hz: NDArray[np.float64], attenuation_db_per_m: NDArray[np.float64]
) -> AttenuationLaw:
    """Fit the two constants to a table of attenuation.

    Parameters
    ----------
    frequency_hz : array
        Frequencies of the table, at least two different ones. [Hz]
    attenuation_db_per_m : array
        Attenuation at each of them. [dB/m]

    Returns
    -------
    AttenuationLaw
        The constants and the largest |law / table - 1|.
        [k1 dB/(100 m sqrt(MHz)), k2 dB/(100 m MHz), worst_residual_ratio 1]

    Raises
    ------
    ValueError
        If there are fewer than two different frequencies, or any number is not positive.

    Notes
    -----
    Minimises the sum of (law / table - 1)^2, so that 1 dB at 10 MHz and 10 dB at 1 GHz weigh
    the same. A constant that would turn negative is held at zero and the other fitted alone,
    which for two unknowns is the exact constrained minimum. Two points fit without residual,
    which says nothing about their quality.

    Examples
    --------
    >>> table_hz = np.array([50e6, 150e6, 450e6, 850e6])
    >>> law = fit_attenuation_law(table_hz, np.array([3.30, 6.10, 11.75, 17.75]) / 30.48)
    >>> round(law.k1, 4), round(law.k2, 5)
    (1.3794, 0.02098)
    """
    positive(frequency_hz=frequency_hz, attenuation_db_per_m=attenuation_db_per_m)
    if len(set(frequency_hz.tolist())) < 2:
        raise ValueError("a fit needs at least two different frequencies")
    megahertz = frequency_hz / 1.0e6
    per_100_m = 100.0 * attenuation_db_per_m
    parts = np.stack([np.sqrt(megahertz), megahertz]) / per_100_m
    k1, k2 = _least_squares_not_negative(parts)
    worst = np.max(np.abs(k1 * parts[0] + k2 * parts[1] - 1.0))
    return AttenuationLaw(k1, k2, float(worst))


def _least_squares_not_negative(parts: NDArray[np.float64]) -> tuple[float, float]:
    """Return the two factors, neither negative, that bring the summed parts nearest to one."""
    (aa, ab), (_, bb) = parts @ parts.T
    a, b = parts.sum(axis=1)
    determinant = aa * bb - ab * ab
    first, second = (a * bb - b * ab) / determinant, (b * aa - a * ab) / determinant
    if second < 0.0:
        return float(a / aa), 0.0
    if first < 0.0:
        return 0.0, float(b / bb)
    return float(first), float(second)


@cites(_TWO_CONSTANTS, returns="dB/m")
def interpolated_attenuation_db_per_m(
    frequency_hz: FloatOrArray,
    table_hz: NDArray[np.float64],
    table_db_per_m: NDArray[np.float64],
) -> FloatOrArray:
    """Return the attenuation between two rows of a table.

    Parameters
    ----------
    frequency_hz : float or array
        Carrier frequency. [Hz]
    table_hz : array
        Frequencies of the table, rising, at least two. [Hz]
    table_db_per_m : array
        Attenuation at each of them. [dB/m]

    Returns
    -------
    float or array
        Attenuation; shape of `frequency_hz`. [dB/m]

    Raises
    ------
    ValueError
        If a frequency lies outside the table, or the table is not positive and rising.

    Notes
    -----
    Linear in log attenuation over log frequency, since attenuation runs near sqrt(f). Never
    cubic, and never beyond the ends: use the fitted law there and say so.

    Examples
    --------
    >>> guide_hz, guide = np.array([50e6, 450e6]), np.array([0.1083, 0.3855])
    >>> round(float(interpolated_attenuation_db_per_m(150e6, guide_hz, guide)), 4)
    0.2043
    """
    positive(frequency_hz=frequency_hz, table_hz=table_hz, table_db_per_m=table_db_per_m)
    if table_hz.size < 2 or not np.all(np.diff(table_hz) > 0.0):
        raise ValueError("table_hz must hold at least two rising frequencies")
    low, high = table_hz[0] * (1.0 - _EDGE_RATIO), table_hz[-1] * (1.0 + _EDGE_RATIO)
    within(low, high, frequency_hz=frequency_hz)
    return np.exp(np.interp(np.log(frequency_hz), np.log(table_hz), np.log(table_db_per_m)))


@cites(TEXTBOOK_TRANSMISSION_LINE.at("attenuation due to dielectric loss"), returns="dB/m")
def dielectric_attenuation_db_per_m(
    frequency_hz: FloatOrArray, velocity_ratio: FloatOrArray, loss_tangent: FloatOrArray
) -> FloatOrArray:
    """Return the part of the attenuation that arises in the dielectric.

    Parameters
    ----------
    frequency_hz : float or array
        Carrier frequency. [Hz]
    velocity_ratio : float or array
        Velocity in the cable over the velocity of light. [1]
    loss_tangent : float or array
        Loss tangent of the dielectric. [1]

    Returns
    -------
    float or array
        Attenuation; shape of the broadcast inputs. [dB/m]

    Raises
    ------
    ValueError
        If a frequency is not positive, a velocity not in 0 .. 1, or a loss tangent negative.

    Notes
    -----
    (20 / ln 10) pi f sqrt(er) tan(d) / c with sqrt(er) = 1 / velocity_ratio. In dB/100 m and
    MHz the factor rounds to 9.10 sqrt(er) tan(d) f.

    Examples
    --------
    >>> round(100 * float(dielectric_attenuation_db_per_m(1.0e9, 0.695, 3.0e-4)), 2)
    3.93
    """
    positive(frequency_hz=frequency_hz, velocity_ratio=velocity_ratio)
    within(0.0, 1.0, velocity_ratio=velocity_ratio)
    at_least(0.0, loss_tangent=loss_tangent)
    phase_rad_per_m = 2.0 * np.pi * frequency_hz / (SPEED_OF_LIGHT_M_PER_S * velocity_ratio)
    return DB_PER_NEPER * phase_rad_per_m * loss_tangent / 2.0


@cites(CABLE_SHEET_RG316.at("power rating"), returns="W")
def power_rating_w(
    rated_w: FloatOrArray, rated_at_hz: FloatOrArray, frequency_hz: FloatOrArray
) -> FloatOrArray:
    """Return the continuous power rating of a cable at another frequency.

    Parameters
    ----------
    rated_w : float or array
        Rating on the data sheet. [W]
    rated_at_hz : float or array
        Frequency of that rating. [Hz]
    frequency_hz : float or array
        Carrier frequency. [Hz]

    Returns
    -------
    float or array
        Rating; shape of the broadcast inputs. [W]

    Raises
    ------
    ValueError
        If any argument is not positive.

    Notes
    -----
    Heat in the conductors grows as sqrt(f), so the rating falls as 1 / sqrt(f). Neither the
    peak voltage nor altitude is covered.

    Examples
    --------
    >>> round(float(power_rating_w(135.0, 1.0e9, 1090.0e6)))
    129
    """
    positive(rated_w=rated_w, rated_at_hz=rated_at_hz, frequency_hz=frequency_hz)
    return rated_w * np.sqrt(rated_at_hz / frequency_hz)
