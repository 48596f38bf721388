# SPDX-License-Identifier: Apache-2.0
"""Reflections: standing-wave ratio, return loss, mismatch loss, and two mismatches on one line."""

from __future__ import annotations

from typing import NamedTuple

import numpy as np

from rfplan.physics.domain import FloatOrArray, at_least, positive
from rfplan.sources import (
    POWER_SENSOR_MANUAL,
    POZAR_4E,
    RF_REFERENCE,
    TEXTBOOK_TRANSMISSION_LINE,
    cites,
)

_TERMINATED_LINE = POZAR_4E.at("terminated lossless line")
_TWO_MISMATCHES = TEXTBOOK_TRANSMISSION_LINE.at("mismatched source and load")


class LossBounds(NamedTuple):
    """The smallest and the largest loss that the unknown phase allows."""

    low_db: FloatOrArray
    high_db: FloatOrArray


@cites(_TERMINATED_LINE, returns="1")
def reflection_ratio(vswr: FloatOrArray) -> FloatOrArray:
    """Return the size of the reflection behind a standing-wave ratio.

    Parameters
    ----------
    vswr : float or array
        Voltage standing-wave ratio, at least one. [1]

    Returns
    -------
    float or array
        Magnitude of the reflection coefficient. [1]

    Raises
    ------
    ValueError
        If a VSWR is below one.

    Notes
    -----
    (s - 1) / (s + 1).

    Examples
    --------
    >>> float(reflection_ratio(3.0))
    0.5
    """
    at_least(1.0, vswr=vswr)
    return (vswr - 1.0) / (vswr + 1.0)


@cites(_TERMINATED_LINE, returns="1")
def vswr_from_reflection(reflection: FloatOrArray) -> FloatOrArray:
    """Return the standing-wave ratio of a reflection.

    Parameters
    ----------
    reflection : float or array
        Magnitude of the reflection coefficient, below one. [1]

    Returns
    -------
    float or array
        Voltage standing-wave ratio. [1]

    Raises
    ------
    ValueError
        If a magnitude is negative or not below one.

    Notes
    -----
    (1 + r) / (1 - r).

    Examples
    --------
    >>> float(vswr_from_reflection(0.5))
    3.0
    """
    at_least(0.0, reflection=reflection)
    positive(absorbed_ratio=1.0 - reflection)
    return (1.0 + reflection) / (1.0 - reflection)


@cites(_TERMINATED_LINE, returns="dB")
def return_loss_db(vswr: FloatOrArray) -> FloatOrArray:
    """Return the return loss of a standing-wave ratio.

    Parameters
    ----------
    vswr : float or array
        Voltage standing-wave ratio, at least one. [1]

    Returns
    -------
    float or array
        Return loss, positive; infinite for a VSWR of one. [dB]

    Raises
    ------
    ValueError
        If a VSWR is below one.

    Notes
    -----
    -20 log10((s - 1) / (s + 1)).

    Examples
    --------
    >>> round(float(return_loss_db(1.5)), 2)
    13.98
    """
    with np.errstate(divide="ignore"):
        return -20.0 * np.log10(reflection_ratio(vswr))


@cites(_TERMINATED_LINE, returns="1")
def vswr_from_return_loss(return_loss_db: FloatOrArray) -> FloatOrArray:
    """Return the standing-wave ratio of a return loss.

    Parameters
    ----------
    return_loss_db : float or array
        Return loss, positive. [dB]

    Returns
    -------
    float or array
        Voltage standing-wave ratio. [1]

    Raises
    ------
    ValueError
        If a return loss is not positive.

    Notes
    -----
    (1 + r) / (1 - r) with r = 10^(-RL / 20).

    Examples
    --------
    >>> round(float(vswr_from_return_loss(23.0)), 3)
    1.152
    """
    positive(return_loss_db=return_loss_db)
    return vswr_from_reflection(10.0 ** (-return_loss_db / 20.0))


@cites(_TERMINATED_LINE, returns="dB")
def mismatch_loss_db(vswr: FloatOrArray) -> FloatOrArray:
    """Return the loss of one mismatch between matched ends.

    Parameters
    ----------
    vswr : float or array
        Voltage standing-wave ratio, at least one. [1]

    Returns
    -------
    float or array
        Part of the available power that is reflected, as a loss. [dB]

    Raises
    ------
    ValueError
        If a VSWR is below one.

    Notes
    -----
    -10 log10(1 - r^2).

    Examples
    --------
    >>> round(float(mismatch_loss_db(3.0)), 4)
    1.2494
    """
    return -10.0 * np.log10(1.0 - reflection_ratio(vswr) ** 2)


@cites(_TWO_MISMATCHES, returns="dB")
def mismatch_bounds_db(
    vswr_source: FloatOrArray, vswr_load: FloatOrArray, loss_db: FloatOrArray
) -> LossBounds:
    """Return the bounds of the loss between two mismatched ends of a line.

    Parameters
    ----------
    vswr_source : float or array
        Standing-wave ratio of the unit. [1]
    vswr_load : float or array
        Standing-wave ratio of the antenna. [1]
    loss_db : float or array
        Matched loss of the line between them. [dB]

    Returns
    -------
    LossBounds
        Smallest and largest loss; shape of the broadcast inputs. [dB]

    Raises
    ------
    ValueError
        If a VSWR is below one or the loss is negative.

    Notes
    -----
    high = L + ML1 + ML2 + 20 log10(1 + r1 r2 A), low = L + ML1 + ML2 + 20 log10(1 - r1 r2 A)
    with A = 10^(-2 L / 20): the ripple makes one round trip of the line. For L = 0 the bounds
    are the mismatch losses of s1 s2 and of s1 / s2.

    Examples
    --------
    >>> low, high = mismatch_bounds_db(2.0, 1.5, 0.0)
    >>> round(float(low), 4), round(float(high), 4)
    (0.0895, 1.2494)
    """
    matched_db = loss_db + mismatch_loss_db(vswr_source) + mismatch_loss_db(vswr_load)
    echo = _echo_ratio(vswr_source, vswr_load, loss_db)
    return LossBounds(
        matched_db + 20.0 * np.log10(1.0 - echo), matched_db + 20.0 * np.log10(1.0 + echo)
    )


@cites(_TWO_MISMATCHES, returns="dB")
def mismatch_ripple_db(
    vswr_source: FloatOrArray, vswr_load: FloatOrArray, loss_db: FloatOrArray
) -> FloatOrArray:
    """Return how far the loss of a line swings between two mismatched ends.

    Parameters
    ----------
    vswr_source : float or array
        Standing-wave ratio of the unit. [1]
    vswr_load : float or array
        Standing-wave ratio of the antenna. [1]
    loss_db : float or array
        Matched loss of the line between them. [dB]

    Returns
    -------
    float or array
        Ripple over length or frequency, peak to peak. [dB]

    Raises
    ------
    ValueError
        If a VSWR is below one or the loss is negative.

    Notes
    -----
    20 log10((1 + r1 r2 A) / (1 - r1 r2 A)).

    Examples
    --------
    >>> round(float(mismatch_ripple_db(1.5, 2.0, 0.0)), 4)
    1.1598
    """
    echo = _echo_ratio(vswr_source, vswr_load, loss_db)
    return 20.0 * np.log10((1.0 + echo) / (1.0 - echo))


@cites(POWER_SENSOR_MANUAL.at("mismatch uncertainty"), returns="1")
def mismatch_uncertainty_ratio(vswr_source: FloatOrArray, vswr_load: FloatOrArray) -> FloatOrArray:
    """Return the largest error of a power reading between two mismatches.

    Parameters
    ----------
    vswr_source : float or array
        Standing-wave ratio of the source. [1]
    vswr_load : float or array
        Standing-wave ratio of the sensor. [1]

    Returns
    -------
    float or array
        Relative error of the power, upper side. [1]

    Raises
    ------
    ValueError
        If a VSWR is below one.

    Notes
    -----
    (1 + r1 r2)^2 - 1; the lower side is 1 - (1 - r1 r2)^2.

    Examples
    --------
    >>> round(100 * float(mismatch_uncertainty_ratio(1.30, 1.20)), 2)
    2.39
    """
    return (1.0 + _echo_ratio(vswr_source, vswr_load, 0.0)) ** 2 - 1.0


@cites(RF_REFERENCE.at("cascaded VSWR"), returns="1")
def worst_vswr(vswr_first: FloatOrArray, vswr_second: FloatOrArray) -> FloatOrArray:
    """Return the largest standing-wave ratio of two mismatches in a row.

    Parameters
    ----------
    vswr_first : float or array
        Standing-wave ratio of the first part. [1]
    vswr_second : float or array
        Standing-wave ratio of what follows. [1]

    Returns
    -------
    float or array
        Standing-wave ratio where both reflections add. [1]

    Raises
    ------
    ValueError
        If a VSWR is below one.

    Notes
    -----
    s1 s2, without loss between the two; the smallest is the larger over the smaller.

    Examples
    --------
    >>> worst_vswr(2.5, 2.0)
    5.0
    """
    at_least(1.0, vswr_first=vswr_first, vswr_second=vswr_second)
    return vswr_first * vswr_second


def _echo_ratio(
    vswr_source: FloatOrArray, vswr_load: FloatOrArray, loss_db: FloatOrArray
) -> FloatOrArray:
    """Return the wave reflected at both ends, after one round trip, over the direct wave."""
    at_least(0.0, loss_db=loss_db)
    round_trip = 10.0 ** (-2.0 * loss_db / 20.0)
    return reflection_ratio(vswr_source) * reflection_ratio(vswr_load) * round_trip
