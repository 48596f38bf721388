# SPDX-License-Identifier: Apache-2.0
"""Impedance, capacitance, velocity and highest frequency of a coaxial cable."""

from __future__ import annotations

import numpy as np

from rfplan.physics.constants import (
    SPEED_OF_LIGHT_M_PER_S,
    VACUUM_IMPEDANCE_OHM,
    VACUUM_PERMITTIVITY_F_PER_M,
)
from rfplan.physics.domain import FloatOrArray, at_least, positive, within
from rfplan.sources import POZAR_4E, TEXTBOOK_TRANSMISSION_LINE, cites

_USABLE_RATIO = 0.95
_COAX = POZAR_4E.at("coaxial line")
_LINE = TEXTBOOK_TRANSMISSION_LINE.at("velocity, inductance and capacitance")


@cites(_COAX, returns="ohm")
def coax_impedance_ohm(
    inner_diameter_m: FloatOrArray, outer_diameter_m: FloatOrArray, permittivity: FloatOrArray
) -> FloatOrArray:
    """Return the impedance of a coaxial cable from its dimensions.

    Parameters
    ----------
    inner_diameter_m : float or array
        Diameter of the centre conductor. [m]
    outer_diameter_m : float or array
        Inner diameter of the shield, which is that of the dielectric. [m]
    permittivity : float or array
        Relative permittivity of the dielectric. [1]

    Returns
    -------
    float or array
        Characteristic impedance, losses left out. [ohm]

    Raises
    ------
    ValueError
        If a diameter is not positive, the outer not the larger, or the permittivity below one.

    Notes
    -----
    59.96 / sqrt(er) ln(D / d). A stranded centre is a little smaller, electrically, than the
    circle around it.

    Examples
    --------
    >>> round(float(coax_impedance_ohm(0.91e-3, 3.02e-3, 2.08)), 1)
    49.9
    """
    log_ratio = _log_diameter_ratio(inner_diameter_m, outer_diameter_m, permittivity)
    return VACUUM_IMPEDANCE_OHM / (2.0 * np.pi) / np.sqrt(permittivity) * log_ratio


@cites(_COAX, returns="F/m")
def geometric_capacitance_f_per_m(
    inner_diameter_m: FloatOrArray, outer_diameter_m: FloatOrArray, permittivity: FloatOrArray
) -> FloatOrArray:
    """Return the capacitance of a coaxial cable from its dimensions.

    Parameters
    ----------
    inner_diameter_m : float or array
        Diameter of the centre conductor. [m]
    outer_diameter_m : float or array
        Inner diameter of the shield. [m]
    permittivity : float or array
        Relative permittivity of the dielectric. [1]

    Returns
    -------
    float or array
        Capacitance. [F/m]

    Raises
    ------
    ValueError
        If a diameter is not positive, the outer not the larger, or the permittivity below one.

    Notes
    -----
    2 pi e0 er / ln(D / d).

    Examples
    --------
    >>> round(1e12 * float(geometric_capacitance_f_per_m(0.91e-3, 3.02e-3, 2.08)), 1)
    96.5
    """
    log_ratio = _log_diameter_ratio(inner_diameter_m, outer_diameter_m, permittivity)
    return 2.0 * np.pi * VACUUM_PERMITTIVITY_F_PER_M * permittivity / log_ratio


@cites(_LINE, returns="F/m")
def coax_capacitance_f_per_m(
    impedance_ohm: FloatOrArray, velocity_ratio: FloatOrArray
) -> FloatOrArray:
    """Return the capacitance of a cable from its impedance and velocity.

    Parameters
    ----------
    impedance_ohm : float or array
        Characteristic impedance. [ohm]
    velocity_ratio : float or array
        Velocity in the cable over the velocity of light. [1]

    Returns
    -------
    float or array
        Capacitance. [F/m]

    Raises
    ------
    ValueError
        If the impedance is not positive or the velocity not in 0 .. 1.

    Notes
    -----
    1 / (v c Z0). Says whether the impedance, velocity and capacitance of a data sheet agree.

    Examples
    --------
    >>> round(1e12 * float(coax_capacitance_f_per_m(50.0, 0.66)), 1)
    101.1
    """
    positive(impedance_ohm=impedance_ohm, velocity_ratio=velocity_ratio)
    within(0.0, 1.0, velocity_ratio=velocity_ratio)
    return 1.0 / (velocity_ratio * SPEED_OF_LIGHT_M_PER_S * impedance_ohm)


@cites(_LINE, returns="F/m")
def measured_capacitance_f_per_m(
    capacitance_f: FloatOrArray, length_m: FloatOrArray
) -> FloatOrArray:
    """Return the capacitance of a cable from a bridge reading on an open length.

    Parameters
    ----------
    capacitance_f : float or array
        Reading between centre and shield, far end open. [F]
    length_m : float or array
        Length of the cable. [m]

    Returns
    -------
    float or array
        Capacitance. [F/m]

    Raises
    ------
    ValueError
        If any argument is not positive.

    Notes
    -----
    A table entry per foot is the reading on 0.3048 m.

    Examples
    --------
    >>> round(1e12 * float(measured_capacitance_f_per_m(31.0e-12, 0.3048)), 1)
    101.7
    """
    positive(capacitance_f=capacitance_f, length_m=length_m)
    return capacitance_f / length_m


@cites(_LINE, returns="ohm")
def lossless_impedance_ohm(
    inductance_h_per_m: FloatOrArray, capacitance_f_per_m: FloatOrArray
) -> FloatOrArray:
    """Return the impedance of a line without loss.

    Parameters
    ----------
    inductance_h_per_m : float or array
        Inductance. [H/m]
    capacitance_f_per_m : float or array
        Capacitance. [F/m]

    Returns
    -------
    float or array
        Characteristic impedance. [ohm]

    Raises
    ------
    ValueError
        If any argument is not positive.

    Notes
    -----
    sqrt(L / C).

    Examples
    --------
    >>> round(float(lossless_impedance_ohm(0.5e-6, 0.12e-9)), 2)
    64.55
    """
    positive(inductance_h_per_m=inductance_h_per_m, capacitance_f_per_m=capacitance_f_per_m)
    return np.sqrt(inductance_h_per_m / capacitance_f_per_m)


@cites(_LINE, returns="1")
def velocity_ratio(permittivity: FloatOrArray) -> FloatOrArray:
    """Return the velocity in a cable over the velocity of light.

    Parameters
    ----------
    permittivity : float or array
        Relative permittivity of a solid dielectric. [1]

    Returns
    -------
    float or array
        Velocity ratio. [1]

    Raises
    ------
    ValueError
        If the permittivity is below one.

    Notes
    -----
    1 / sqrt(er).

    Examples
    --------
    >>> round(float(velocity_ratio(2.26)), 3)
    0.665
    """
    at_least(1.0, permittivity=permittivity)
    return 1.0 / np.sqrt(permittivity)


@cites(_LINE, returns="1")
def velocity_ratio_from_delay(delay_s_per_m: FloatOrArray) -> FloatOrArray:
    """Return the velocity ratio of a cable whose delay is given.

    Parameters
    ----------
    delay_s_per_m : float or array
        Delay for one metre. [s/m]

    Returns
    -------
    float or array
        Velocity ratio. [1]

    Raises
    ------
    ValueError
        If the delay is not positive.

    Notes
    -----
    1 / (c t).

    Examples
    --------
    >>> round(float(velocity_ratio_from_delay(4.86e-9)), 4)
    0.6863
    """
    positive(delay_s_per_m=delay_s_per_m)
    return 1.0 / (SPEED_OF_LIGHT_M_PER_S * delay_s_per_m)


@cites(_LINE, returns="s")
def delay_s(length_m: FloatOrArray, velocity_ratio: FloatOrArray) -> FloatOrArray:
    """Return the delay of a cable.

    Parameters
    ----------
    length_m : float or array
        Electrical length, plug plane to plug plane. [m]
    velocity_ratio : float or array
        Velocity in the cable over the velocity of light. [1]

    Returns
    -------
    float or array
        Delay. [s]

    Raises
    ------
    ValueError
        If the length is negative or the velocity not in 0 .. 1.

    Notes
    -----
    l / (v c).

    Examples
    --------
    >>> round(1e9 * float(delay_s(1.0, 0.695)), 2)
    4.8
    """
    at_least(0.0, length_m=length_m)
    positive(velocity_ratio=velocity_ratio)
    within(0.0, 1.0, velocity_ratio=velocity_ratio)
    return length_m / (velocity_ratio * SPEED_OF_LIGHT_M_PER_S)


@cites(POZAR_4E.at("higher order modes of the coaxial line"), returns="Hz")
def te11_cutoff_hz(
    inner_diameter_m: FloatOrArray, outer_diameter_m: FloatOrArray, permittivity: FloatOrArray
) -> FloatOrArray:
    """Return the frequency above which a second mode can run in a coaxial cable.

    Parameters
    ----------
    inner_diameter_m : float or array
        Diameter of the centre conductor. [m]
    outer_diameter_m : float or array
        Inner diameter of the shield. [m]
    permittivity : float or array
        Relative permittivity of the dielectric. [1]

    Returns
    -------
    float or array
        Cutoff of TE11. [Hz]

    Raises
    ------
    ValueError
        If a diameter is not positive, the outer not the larger, or the permittivity below one.

    Notes
    -----
    c kc / (2 pi sqrt(er)) with kc = 2 / (a + b) from the radii; about 2 % above the exact root.

    Examples
    --------
    >>> round(float(te11_cutoff_hz(0.91e-3, 3.02e-3, 2.08)) / 1e9, 1)
    33.7
    """
    _log_diameter_ratio(inner_diameter_m, outer_diameter_m, permittivity)
    cutoff_per_m = 4.0 / (inner_diameter_m + outer_diameter_m)
    return SPEED_OF_LIGHT_M_PER_S * cutoff_per_m / (2.0 * np.pi * np.sqrt(permittivity))


@cites(POZAR_4E.at("5 % margin to the cutoff"), returns="Hz")
def highest_usable_hz(cutoff_hz: FloatOrArray) -> FloatOrArray:
    """Return the highest frequency to use a cable at.

    Parameters
    ----------
    cutoff_hz : float or array
        Cutoff of the second mode. [Hz]

    Returns
    -------
    float or array
        Highest usable frequency. [Hz]

    Raises
    ------
    ValueError
        If the cutoff is not positive.

    Notes
    -----
    0.95 of the cutoff.

    Examples
    --------
    >>> round(float(highest_usable_hz(17.7e9)) / 1e9, 1)
    16.8
    """
    positive(cutoff_hz=cutoff_hz)
    return _USABLE_RATIO * cutoff_hz


def _log_diameter_ratio(
    inner_diameter_m: FloatOrArray, outer_diameter_m: FloatOrArray, permittivity: FloatOrArray
) -> FloatOrArray:
    """Return ln(D / d) of a cable that can exist."""
    at_least(1.0, permittivity=permittivity)
    positive(inner_diameter_m=inner_diameter_m, wall_m=outer_diameter_m - inner_diameter_m)
    return np.log(outer_diameter_m / inner_diameter_m)
