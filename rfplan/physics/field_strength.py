# SPDX-License-Identifier: Apache-2.0
"""Field strength, power density, and the power that an antenna takes from a field."""

from __future__ import annotations

import numpy as np

from rfplan.physics.constants import VACUUM_IMPEDANCE_OHM
from rfplan.physics.decibel import ratio_from_db
from rfplan.physics.domain import FloatOrArray, positive
from rfplan.physics.free_space import wavelength_m
from rfplan.sources import TEXTBOOK_ANTENNAS, cites

_AREA = TEXTBOOK_ANTENNAS.at("effective area")
_PLANE_WAVE = TEXTBOOK_ANTENNAS.at("power density of a plane wave")


@cites(_AREA, returns="m2")
def effective_area_m2(frequency_hz: FloatOrArray, gain_dbi: FloatOrArray = 0.0) -> FloatOrArray:
    """Return the area of field from which an antenna takes its power.

    Parameters
    ----------
    frequency_hz : float or array
        Carrier frequency. [Hz]
    gain_dbi : float or array
        Gain of the antenna. [dBi]

    Returns
    -------
    float or array
        Effective area. [m2]

    Raises
    ------
    ValueError
        If a frequency is not positive.

    Notes
    -----
    G wavelength^2 / (4 pi).

    Examples
    --------
    >>> round(1e3 * float(effective_area_m2(1088.0e6)), 3)
    6.042
    """
    return ratio_from_db(gain_dbi) * wavelength_m(frequency_hz) ** 2 / (4.0 * np.pi)


@cites(_AREA, returns="dB(W/m2)")
def received_power_density_dbw_per_m2(
    received_dbw: FloatOrArray, frequency_hz: FloatOrArray, gain_dbi: FloatOrArray = 0.0
) -> FloatOrArray:
    """Return the power density of the field in which an antenna delivers a power.

    Parameters
    ----------
    received_dbw : float or array
        Power at the terminals of the antenna. [dBW]
    frequency_hz : float or array
        Carrier frequency. [Hz]
    gain_dbi : float or array
        Gain of the antenna. [dBi]

    Returns
    -------
    float or array
        Power density. [dB(W/m2)]

    Raises
    ------
    ValueError
        If a frequency is not positive.

    Notes
    -----
    P over the effective area.

    Examples
    --------
    >>> round(float(received_power_density_dbw_per_m2(-105.0, 1088.0e6)), 2)
    -82.81
    """
    return received_dbw - 10.0 * np.log10(effective_area_m2(frequency_hz, gain_dbi))


@cites(_PLANE_WAVE, returns="dB(W/m2)")
def field_power_density_dbw_per_m2(field_v_per_m: FloatOrArray) -> FloatOrArray:
    """Return the power density of a plane wave.

    Parameters
    ----------
    field_v_per_m : float or array
        Root-mean-square electric field strength. [V/m]

    Returns
    -------
    float or array
        Power density. [dB(W/m2)]

    Raises
    ------
    ValueError
        If a field is not positive.

    Notes
    -----
    E^2 / 376.73. The pairs printed in Annex 10 are rounded, and its glideslope pair differs by
    1.3 dB: both are kept as printed.

    Examples
    --------
    >>> round(float(field_power_density_dbw_per_m2(75.0e-6)), 2)
    -108.26
    """
    positive(field_v_per_m=field_v_per_m)
    return 10.0 * np.log10(np.square(field_v_per_m) / VACUUM_IMPEDANCE_OHM)
