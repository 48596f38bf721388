# SPDX-License-Identifier: Apache-2.0
"""A piece of line of another impedance between matched ends: harmless or harmful by its length."""

from __future__ import annotations

import numpy as np

from rfplan.physics.domain import FloatOrArray, at_least, positive
from rfplan.physics.free_space import wavelength_m
from rfplan.sources import POZAR_4E, TEXTBOOK_TRANSMISSION_LINE, cites

_PIECE = TEXTBOOK_TRANSMISSION_LINE.at("line of another impedance between matched ends")
_QUARTER_WAVE = POZAR_4E.at("quarter-wave transformer")


@cites(_PIECE, returns="dB")
def odd_piece_loss_db(
    piece_ohm: FloatOrArray,
    line_ohm: FloatOrArray,
    frequency_hz: FloatOrArray,
    length_m: FloatOrArray,
    velocity_ratio: FloatOrArray,
) -> FloatOrArray:
    """Return the reflection loss of a piece of another impedance in a matched line.

    Parameters
    ----------
    piece_ohm : float or array
        Impedance of the piece. [ohm]
    line_ohm : float or array
        Impedance on both of its sides. [ohm]
    frequency_hz : float or array
        Carrier frequency. [Hz]
    length_m : float or array
        Length of the piece. [m]
    velocity_ratio : float or array
        Velocity in the piece over the velocity of light. [1]

    Returns
    -------
    float or array
        Loss by reflection alone; what the piece turns into heat comes on top. [dB]

    Raises
    ------
    ValueError
        If an impedance, frequency or velocity is not positive, or a length is negative.

    Notes
    -----
    10 log10(1 + ((Z1 / Z0 - Z0 / Z1) / 2)^2 sin^2(2 pi l / wavelength)). None where the piece is
    a multiple of half a wavelength, most where it is an odd number of quarters.

    Examples
    --------
    >>> quarter_m = 0.25 * 0.66 * 299792458.0 / 1090e6
    >>> round(float(odd_piece_loss_db(75.0, 50.0, 1090e6, quarter_m, 0.66)), 4)
    0.6952
    """
    positive(piece_ohm=piece_ohm, line_ohm=line_ohm)
    at_least(0.0, length_m=length_m)
    turned_rad = 2.0 * np.pi * length_m / wavelength_m(frequency_hz, velocity_ratio)
    step = (piece_ohm / line_ohm - line_ohm / piece_ohm) / 2.0
    return 10.0 * np.log10(1.0 + (step * np.sin(turned_rad)) ** 2)


@cites(_QUARTER_WAVE, returns="1")
def odd_piece_worst_vswr(piece_ohm: FloatOrArray, line_ohm: FloatOrArray) -> FloatOrArray:
    """Return the standing-wave ratio ahead of a piece at its worst length.

    Parameters
    ----------
    piece_ohm : float or array
        Impedance of the piece. [ohm]
    line_ohm : float or array
        Impedance on both of its sides. [ohm]

    Returns
    -------
    float or array
        Voltage standing-wave ratio with a matched far end. [1]

    Raises
    ------
    ValueError
        If an impedance is not positive.

    Notes
    -----
    A quarter wave turns Z0 into Z1^2 / Z0, so (Z1 / Z0)^2, or its inverse where Z1 is the lower.

    Examples
    --------
    >>> float(odd_piece_worst_vswr(75.0, 50.0))
    2.25
    """
    positive(piece_ohm=piece_ohm, line_ohm=line_ohm)
    turned = (piece_ohm / line_ohm) ** 2
    return np.maximum(turned, 1.0 / turned)


@cites(_PIECE, returns="m")
def best_piece_length_m(
    length_m: FloatOrArray, frequency_hz: FloatOrArray, velocity_ratio: FloatOrArray
) -> FloatOrArray:
    """Return the length nearest to a given one at which a piece does not reflect.

    Parameters
    ----------
    length_m : float or array
        Length as it is. [m]
    frequency_hz : float or array
        Carrier frequency. [Hz]
    velocity_ratio : float or array
        Velocity in the piece over the velocity of light. [1]

    Returns
    -------
    float or array
        Nearest multiple of half a wavelength in the piece, at least one. [m]

    Raises
    ------
    ValueError
        If a length is negative or another argument not positive.

    Notes
    -----
    Holds at one frequency: over a band a long piece passes its best and its worst length.

    Examples
    --------
    >>> round(float(best_piece_length_m(0.20, 1090e6, 0.66)), 4)
    0.1815
    """
    at_least(0.0, length_m=length_m)
    half_m = wavelength_m(frequency_hz, velocity_ratio) / 2.0
    return np.asarray(half_m * np.maximum(1.0, np.round(length_m / half_m)))


@cites(_PIECE, returns="m")
def worst_piece_length_m(
    length_m: FloatOrArray, frequency_hz: FloatOrArray, velocity_ratio: FloatOrArray
) -> FloatOrArray:
    """Return the length nearest to a given one at which a piece reflects most.

    Parameters
    ----------
    length_m : float or array
        Length as it is. [m]
    frequency_hz : float or array
        Carrier frequency. [Hz]
    velocity_ratio : float or array
        Velocity in the piece over the velocity of light. [1]

    Returns
    -------
    float or array
        Nearest odd number of quarter waves in the piece. [m]

    Raises
    ------
    ValueError
        If a length is negative or another argument not positive.

    Notes
    -----
    Half-way between two of the best lengths.

    Examples
    --------
    >>> round(float(worst_piece_length_m(0.20, 1090e6, 0.66)), 4)
    0.2269
    """
    at_least(0.0, length_m=length_m)
    half_m = wavelength_m(frequency_hz, velocity_ratio) / 2.0
    return half_m * (np.floor(length_m / half_m) + 0.5)
