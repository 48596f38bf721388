# SPDX-License-Identifier: Apache-2.0
"""How much interference a GNSS receiver must bear, and how much arrives.

The limits hold at the output of the passive antenna element, ahead of its amplifier: the feeder
does not enter.
"""

from __future__ import annotations

import numpy as np
from numpy.typing import NDArray

from rfplan.physics.domain import FloatOrArray, positive
from rfplan.sources import (
    ECO_HANDBOOK,
    GBT_45435,
    ICAO_ANNEX_10_V1,
    OWN_COMPUTATION,
    TEXTBOOK_NOISE,
    cites,
)

Floats = NDArray[np.float64]

_LEVEL = OWN_COMPUTATION.at("levels in decibels along the way of the interference")


@cites(
    ICAO_ANNEX_10_V1.at("Appendix B, interference thresholds"),
    GBT_45435.at("Tables 6, A.1 and A.6"),
    returns="dB",
)
def piecewise_level_db(frequency_hz: FloatOrArray, corner_hz: Floats, corner_db: Floats) -> Floats:
    """Return a level given by corners: a mask of limits, or the selectivity of an antenna.

    Parameters
    ----------
    frequency_hz : float or array
        Frequency. [Hz]
    corner_hz : array
        Frequencies of the corners, not falling. [Hz]
    corner_db : array
        Levels of the corners, in dBm for a mask and in dB for a selectivity. [dB]

    Returns
    -------
    array
        Level, straight in frequency and decibels; beyond the ends that of the end. [dB]

    Raises
    ------
    ValueError
        If a frequency is not positive, the corners fall back, or the two lists differ in length.

    Examples
    --------
    >>> corners = np.array([1500e6, 1525e6]), np.array([-8.0, -12.0])
    >>> float(piecewise_level_db(1512.5e6, *corners))
    -10.0
    """
    positive(frequency_hz=frequency_hz)
    if len(corner_hz) != len(corner_db) or np.any(np.diff(corner_hz) < 0.0):
        raise ValueError("corners must rise in frequency and each have a level")
    return np.asarray(np.interp(frequency_hz, corner_hz, corner_db))


@cites(
    ICAO_ANNEX_10_V1.at("Table B-84"),
    GBT_45435.at("Table A.3"),
    returns="dBm",
)
def noise_like_limit_dbm(
    bandwidth_hz: FloatOrArray, corner_hz: Floats, corner_dbm: Floats
) -> Floats:
    """Return the limit of noise-like interference by its bandwidth.

    Parameters
    ----------
    bandwidth_hz : float or array
        Bandwidth of the interference. [Hz]
    corner_hz : array
        Bandwidths of the corners, rising. [Hz]
    corner_dbm : array
        Levels of the corners. [dBm]

    Returns
    -------
    array
        Limit. [dBm]

    Raises
    ------
    ValueError
        If a bandwidth is not positive.

    Notes
    -----
    Between corners below 1 MHz straight in the logarithm of the bandwidth, above straight in the
    bandwidth itself, as printed.

    Examples
    --------
    >>> corners = np.array([700.0, 1e4]), np.array([-120.5, -113.5])
    >>> round(float(noise_like_limit_dbm(7000.0, *corners)), 1)
    -114.4
    """
    positive(bandwidth_hz=bandwidth_hz)
    narrow = np.interp(np.log(bandwidth_hz), np.log(corner_hz), corner_dbm)
    wide = np.interp(bandwidth_hz, corner_hz, corner_dbm)
    return np.asarray(np.where(np.asarray(bandwidth_hz) < _LINEAR_FROM_HZ, narrow, wide))


_LINEAR_FROM_HZ = 1.0e6


@cites(_LEVEL, returns="dBm")
def interference_dbm(
    power_dbm: FloatOrArray,
    below_carrier_db: FloatOrArray,
    isolation_db: FloatOrArray,
    losses_db: FloatOrArray = 0.0,
) -> FloatOrArray:
    """Return the level of an emission at the port of another antenna.

    Parameters
    ----------
    power_dbm : float or array
        Power of the carrier at the transmitter. [dBm]
    below_carrier_db : float or array
        How far the emission lies below the carrier; zero for the carrier. [dB]
    isolation_db : float or array
        Isolation from port to port at the frequency of the emission. [dB]
    losses_db : float or array
        Losses of feeder and filter on the transmitter's side. [dB]

    Returns
    -------
    float or array
        Level. [dBm]

    Notes
    -----
    Isolation from port to port holds gains and mismatch already: neither is added again.

    Examples
    --------
    >>> interference_dbm(40.0, 60.0, 50.0)
    -70.0
    """
    return power_dbm - below_carrier_db - losses_db - isolation_db


@cites(_LEVEL, returns="dB")
def needed_below_carrier_db(
    power_dbm: FloatOrArray, limit_dbm: FloatOrArray, isolation_db: FloatOrArray
) -> FloatOrArray:
    """Return how far below the carrier an emission must lie to meet a limit.

    Parameters
    ----------
    power_dbm : float or array
        Power of the carrier at the transmitting antenna. [dBm]
    limit_dbm : float or array
        Limit at the port of the other antenna. [dBm]
    isolation_db : float or array
        Isolation from port to port at the frequency of the emission. [dB]

    Returns
    -------
    float or array
        Suppression needed; negative where none is. [dB]

    Notes
    -----
    P - limit - isolation. With the carrier itself as emission and no isolation this is the
    isolation needed.

    Examples
    --------
    >>> round(float(needed_below_carrier_db(40.0, -120.5, 32.1)), 1)
    128.4
    """
    return power_dbm - limit_dbm - isolation_db


@cites(TEXTBOOK_NOISE.at("addition of powers"), ECO_HANDBOOK.at("eq. 8"), returns="dB")
def noise_rise_db(interference_to_noise_db: FloatOrArray) -> FloatOrArray:
    """Return how much interference lifts the noise of a receiver.

    Parameters
    ----------
    interference_to_noise_db : float or array
        Interference over noise in the same bandwidth. [dB]

    Returns
    -------
    float or array
        Loss of sensitivity. [dB]

    Notes
    -----
    10 log10(1 + 10^(I/N / 10)).

    Examples
    --------
    >>> round(float(noise_rise_db(-6.0)), 3)
    0.973
    """
    return 10.0 * np.log10(1.0 + 10.0 ** (np.asarray(interference_to_noise_db) / 10.0))


@cites(TEXTBOOK_NOISE.at("addition of powers"), returns="dB")
def bearable_over_noise_db(rise_db: FloatOrArray) -> FloatOrArray:
    """Return how strong interference may be over the noise to lift it by no more than so much.

    Parameters
    ----------
    rise_db : float or array
        Loss of sensitivity that is borne. [dB]

    Returns
    -------
    float or array
        Interference over noise in the same bandwidth. [dB]

    Raises
    ------
    ValueError
        If a rise is not positive.

    Notes
    -----
    10 log10(10^(rise / 10) - 1), the inverse of the noise rise.

    Examples
    --------
    >>> round(float(bearable_over_noise_db(1.0)), 2)
    -5.87
    """
    positive(rise_db=rise_db)
    return 10.0 * np.log10(10.0 ** (np.asarray(rise_db) / 10.0) - 1.0)
