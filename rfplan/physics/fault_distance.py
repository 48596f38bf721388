# SPDX-License-Identifier: Apache-2.0
"""How far and how finely a swept measurement sees into a cable."""

from __future__ import annotations

from rfplan.physics.constants import SPEED_OF_LIGHT_M_PER_S
from rfplan.physics.domain import FloatOrArray, positive, within
from rfplan.sources import DTF_NOTE, TEST_SET_DATA, TEXTBOOK_TRANSMISSION_LINE, cites


@cites(DTF_NOTE.at("range"), TEST_SET_DATA.at("p. 278"), returns="m")
def fault_range_m(
    intervals: int, velocity_ratio: FloatOrArray, span_hz: FloatOrArray
) -> FloatOrArray:
    """Return the largest distance that a frequency sweep shows without ambiguity.

    Parameters
    ----------
    intervals : int
        Number of frequency steps in the sweep. [1]
    velocity_ratio : float or array
        Velocity in the cable over the velocity of light. [1]
    span_hz : float or array
        Highest less lowest frequency. [Hz]

    Returns
    -------
    float or array
        Range. [m]

    Raises
    ------
    ValueError
        If any argument is not positive or the velocity above one.

    Notes
    -----
    N v c / (2 span). Some test sets show only the nearer half of it.

    Examples
    --------
    >>> round(float(fault_range_m(256, 0.66, 1.0e9)), 1)
    25.3
    """
    positive(intervals=float(intervals))
    return intervals * fault_resolution_m(velocity_ratio, span_hz)


@cites(TEXTBOOK_TRANSMISSION_LINE.at("resolution of a frequency sweep"), returns="m")
def fault_resolution_m(velocity_ratio: FloatOrArray, span_hz: FloatOrArray) -> FloatOrArray:
    """Return the least distance of two faults that a frequency sweep tells apart.

    Parameters
    ----------
    velocity_ratio : float or array
        Velocity in the cable over the velocity of light. [1]
    span_hz : float or array
        Highest less lowest frequency. [Hz]

    Returns
    -------
    float or array
        Resolution. [m]

    Raises
    ------
    ValueError
        If any argument is not positive or the velocity above one.

    Notes
    -----
    v c / (2 span): the wave passes there and back.

    Examples
    --------
    >>> round(float(fault_resolution_m(0.695, 1.0e9)), 4)
    0.1042
    """
    positive(velocity_ratio=velocity_ratio, span_hz=span_hz)
    within(0.0, 1.0, velocity_ratio=velocity_ratio)
    return velocity_ratio * SPEED_OF_LIGHT_M_PER_S / (2.0 * span_hz)
