# SPDX-License-Identifier: Apache-2.0
"""Waves in free space: wavelength, distances that follow from it, and path loss."""

from __future__ import annotations

import numpy as np

from rfplan.physics.constants import SPEED_OF_LIGHT_M_PER_S
from rfplan.physics.decibel import dbm_from_w
from rfplan.physics.domain import FloatOrArray, at_least, positive, within
from rfplan.sources import ITU_P525, TEXTBOOK_ANTENNAS, cites

_WAVELENGTH = TEXTBOOK_ANTENNAS.at("wavelength")
_FREE_SPACE = ITU_P525.at("free-space basic transmission loss")


@cites(_WAVELENGTH, returns="m")
def wavelength_m(frequency_hz: FloatOrArray, velocity_ratio: FloatOrArray = 1.0) -> FloatOrArray:
    """Return the wavelength in free space or in a cable.

    Parameters
    ----------
    frequency_hz : float or array
        Carrier frequency. [Hz]
    velocity_ratio : float or array
        Velocity in the cable over the velocity of light; one in free space. [1]

    Returns
    -------
    float or array
        Wavelength. [m]

    Raises
    ------
    ValueError
        If a frequency is not positive or a velocity not in 0 .. 1.

    Notes
    -----
    v c / f.

    Examples
    --------
    >>> round(float(wavelength_m(1575.42e6)), 4)
    0.1903
    """
    positive(frequency_hz=frequency_hz, velocity_ratio=velocity_ratio)
    within(0.0, 1.0, velocity_ratio=velocity_ratio)
    return velocity_ratio * SPEED_OF_LIGHT_M_PER_S / frequency_hz


@cites(TEXTBOOK_ANTENNAS.at("monopole over a ground plane"), returns="m")
def quarter_wave_m(frequency_hz: FloatOrArray) -> FloatOrArray:
    """Return a quarter of the wavelength, the least radius of a ground plane.

    Parameters
    ----------
    frequency_hz : float or array
        Carrier frequency; the lowest of the band for a ground plane. [Hz]

    Returns
    -------
    float or array
        Quarter wave. [m]

    Raises
    ------
    ValueError
        If a frequency is not positive.

    Notes
    -----
    c / (4 f).

    Examples
    --------
    >>> round(float(quarter_wave_m(118.0e6)), 4)
    0.6352
    """
    return wavelength_m(frequency_hz) / 4.0


@cites(TEXTBOOK_ANTENNAS.at("reactive near field of a short dipole"), returns="m")
def near_field_radius_m(frequency_hz: FloatOrArray) -> FloatOrArray:
    """Return the distance below which the reactive field of a small antenna prevails.

    Parameters
    ----------
    frequency_hz : float or array
        Carrier frequency. [Hz]

    Returns
    -------
    float or array
        Radius of the reactive near field. [m]

    Raises
    ------
    ValueError
        If a frequency is not positive.

    Notes
    -----
    Wavelength / (2 pi). Free-space loss does not hold inside.

    Examples
    --------
    >>> round(float(near_field_radius_m(127.5e6)), 3)
    0.374
    """
    return wavelength_m(frequency_hz) / (2.0 * np.pi)


@cites(_FREE_SPACE, returns="dB")
def free_space_loss_db(frequency_hz: FloatOrArray, distance_m: FloatOrArray) -> FloatOrArray:
    """Return the loss between two isotropic antennas in free space.

    Parameters
    ----------
    frequency_hz : float or array
        Carrier frequency. [Hz]
    distance_m : float or array
        Straight-line distance between the antennas. [m]

    Returns
    -------
    float or array
        Loss; shape of the broadcast inputs. [dB]

    Raises
    ------
    ValueError
        If any frequency or distance is not positive.

    Notes
    -----
    20 log10(4 pi d / wavelength), which is 32.448 + 20 log10(MHz) + 20 log10(km); the
    recommendation prints 32.4. Below wavelength / (4 pi) it turns negative: not for the near
    field.

    Examples
    --------
    >>> round(float(free_space_loss_db(1.0e9, 1000.0)), 2)
    92.45
    """
    positive(distance_m=distance_m)
    return 20.0 * np.log10(4.0 * np.pi * distance_m / wavelength_m(frequency_hz))


@cites(_FREE_SPACE, returns="1")
def distance_ratio(difference_db: FloatOrArray) -> FloatOrArray:
    """Return how many times the distance makes a difference of free-space loss.

    Parameters
    ----------
    difference_db : float or array
        Difference of loss. [dB]

    Returns
    -------
    float or array
        Far distance over near distance. [1]

    Notes
    -----
    10^(difference / 20).

    Examples
    --------
    >>> round(float(distance_ratio(14.0)), 2)
    5.01
    """
    return 10.0 ** (difference_db / 20.0)


@cites(TEXTBOOK_ANTENNAS.at("equivalent isotropically radiated power"), returns="dBm")
def eirp_dbm(power_w: FloatOrArray, loss_db: FloatOrArray, gain_dbi: FloatOrArray) -> FloatOrArray:
    """Return the power that an isotropic antenna would need for the same field.

    Parameters
    ----------
    power_w : float or array
        Power of the transmitter. [W]
    loss_db : float or array
        Loss between transmitter and antenna. [dB]
    gain_dbi : float or array
        Gain of the antenna. [dBi]

    Returns
    -------
    float or array
        Equivalent isotropically radiated power. [dBm]

    Raises
    ------
    ValueError
        If the power is not positive or the loss negative.

    Notes
    -----
    P - L + G in decibels.

    Examples
    --------
    >>> round(float(eirp_dbm(0.5, 5.0, 33.0)), 2)
    54.99
    """
    at_least(0.0, loss_db=loss_db)
    return dbm_from_w(power_w) - loss_db + gain_dbi


@cites(_FREE_SPACE, TEXTBOOK_ANTENNAS.at("transmission formula of Friis"), returns="dBm")
def received_power_dbm(
    eirp_dbm: FloatOrArray,
    frequency_hz: FloatOrArray,
    distance_m: FloatOrArray,
    gain_dbi: FloatOrArray = 0.0,
) -> FloatOrArray:
    """Return the power that an antenna takes from a distant transmitter.

    Parameters
    ----------
    eirp_dbm : float or array
        Equivalent isotropically radiated power of the transmitter. [dBm]
    frequency_hz : float or array
        Carrier frequency. [Hz]
    distance_m : float or array
        Straight-line distance. [m]
    gain_dbi : float or array
        Gain of the receiving antenna, less the loss behind it. [dBi]

    Returns
    -------
    float or array
        Power at the receiver. [dBm]

    Raises
    ------
    ValueError
        If any frequency or distance is not positive.

    Notes
    -----
    EIRP - free-space loss + gain; far field and free sight only.

    Examples
    --------
    >>> round(float(received_power_dbm(50.0, 1.6e9, 500e3)), 1)
    -100.5
    """
    return eirp_dbm - free_space_loss_db(frequency_hz, distance_m) + gain_dbi
