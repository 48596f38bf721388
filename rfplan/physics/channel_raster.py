# SPDX-License-Identifier: Apache-2.0
"""Channels of the VHF band: what a name on the radio means on the air."""

from __future__ import annotations

import numpy as np
from numpy.typing import NDArray

from rfplan.physics.domain import FloatOrArray, positive
from rfplan.sources import OWN_COMPUTATION, RECALLED, cites

Floats = NDArray[np.float64]

RASTER_HZ = 25.0e3
STEP_HZ = 5.0e3
CLOSE_SPACING_HZ = RASTER_HZ / 3.0

_NAMES = RECALLED.at("names of 8.33 kHz channels")
_CHANNELS = (1, 2, 3)
"""Fives of kHz above a 25 kHz block that name a close channel; 0 and 4 do not."""


@cites(_NAMES, returns="Hz")
def carrier_hz(name_hz: FloatOrArray) -> FloatOrArray:
    """Return the carrier of a channel by its name.

    Parameters
    ----------
    name_hz : float or array
        Frequency as the radio shows it. [Hz]

    Returns
    -------
    float or array
        Carrier; NaN where no channel has that name. [Hz]

    Raises
    ------
    ValueError
        If a name is not positive.

    Notes
    -----
    In each 25 kHz block b the name b is the carrier b with 25 kHz spacing; b + 5, b + 10 and
    b + 15 kHz name the carriers b, b + 25/3 and b + 50/3 kHz. The list is from memory.

    Examples
    --------
    >>> round(float(carrier_hz(121.185e6)) / 1e6, 6)
    121.183333
    """
    positive(name_hz=name_hz)
    fives = np.round(np.asarray(name_hz) / STEP_HZ)
    block, place = np.divmod(fives, 5.0)
    close_hz = block * RASTER_HZ + np.maximum(place - 1.0, 0.0) * CLOSE_SPACING_HZ
    named = (place < 4.0) & (np.abs(name_hz - fives * STEP_HZ) < 1.0)
    return np.where(named, close_hz, np.nan)


@cites(_NAMES, returns="Hz")
def channel_names_hz(low_hz: float, high_hz: float, close: bool) -> Floats:
    """Return the names of all channels whose carriers lie in a band.

    Parameters
    ----------
    low_hz, high_hz : float
        Ends of the band, both included. [Hz]
    close : bool
        Whether the radio has channels of 8.33 kHz beside those of 25 kHz. [-]

    Returns
    -------
    array
        Names, rising. [Hz]

    Raises
    ------
    ValueError
        If the low end is not positive.

    Examples
    --------
    >>> [float(name) / 1e6 for name in channel_names_hz(121.175e6, 121.2e6, True)]
    [121.175, 121.18, 121.185, 121.19, 121.2, 121.205]
    """
    positive(low_hz=low_hz)
    first, last = np.floor(low_hz / RASTER_HZ), np.ceil(high_hz / RASTER_HZ)
    places = (0, *_CHANNELS) if close else (0,)
    blocks = np.arange(first, last + 1.0)
    names_hz = np.add.outer(blocks * RASTER_HZ, np.array(places) * STEP_HZ).ravel()
    carriers_hz = np.asarray(carrier_hz(names_hz))
    return names_hz[(carriers_hz >= low_hz - 1.0) & (carriers_hz <= high_hz + 1.0)]


@cites(OWN_COMPUTATION.at("harmonics of every channel"), returns="Hz")
def channels_with_harmonic_in_hz(
    names_hz: Floats, order: int, low_hz: float, high_hz: float
) -> Floats:
    """Return the names of the channels with a harmonic in a band.

    Parameters
    ----------
    names_hz : array
        Names of channels. [Hz]
    order : int
        Number of the harmonic. [1]
    low_hz, high_hz : float
        Ends of the band, both included. [Hz]

    Returns
    -------
    array
        Names. [Hz]

    Raises
    ------
    ValueError
        If a name is not positive.

    Notes
    -----
    The harmonic is that of the carrier, not of the name.

    Examples
    --------
    >>> names = np.array([121.125e6, 121.150e6, 121.400e6])
    >>> [float(name) / 1e6 for name in channels_with_harmonic_in_hz(names, 13, 1574e6, 1577e6)]
    [121.125, 121.15]
    """
    harmonic_hz = order * np.asarray(carrier_hz(names_hz))
    return names_hz[(harmonic_hz >= low_hz) & (harmonic_hz <= high_hz)]
