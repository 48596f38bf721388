# SPDX-License-Identifier: Apache-2.0
"""How far and how finely a swept measurement sees into a cable."""

from __future__ import annotations

from typing import Any, NamedTuple

import numpy as np
from numpy.typing import NDArray

from rfplan.physics.constants import SPEED_OF_LIGHT_M_PER_S
from rfplan.physics.domain import FloatOrArray, positive, within
from rfplan.sources import (
    DTF_NOTE,
    SCIKIT_RF,
    TEST_SET_DATA,
    TEXTBOOK_TRANSMISSION_LINE,
    cites,
)

Floats = NDArray[np.float64]

KAISER_BETA = 6.0
WINDOW = "Kaiser window, beta 6"
WINDOW_WIDTH_RATIO = 2.0
"""Width of one reflection at half its height over the resolution without a window."""

EVEN_STEP_RATIO = 1.0e-3
"""Frequency steps that differ by less than this count as even: analysers round to whole hertz."""

FINENESS = 8
"""Distances told for each step of the resolution without a window."""

FEWEST_POINTS = 16


class ReflectionProfile(NamedTuple):
    """Size of the reflection over distance."""

    distance_m: Floats
    magnitude: Floats


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


@cites(
    TEXTBOOK_TRANSMISSION_LINE.at("reflection over distance by inverse Fourier transform"),
    SCIKIT_RF.at("Network.windowed"),
    returns="m, 1",
)
def reflection_profile(
    frequency_hz: Floats, s11: NDArray[np.complexfloating[Any, Any]], velocity_ratio: float
) -> ReflectionProfile:
    """Return how large the reflection is at every distance along a line.

    Parameters
    ----------
    frequency_hz : array
        Frequencies of the sweep, rising by even steps, at least 16. [Hz]
    s11 : array
        Reflection seen into the line at each of them. [1]
    velocity_ratio : float
        Velocity in the line over the velocity of light. [1]

    Returns
    -------
    ReflectionProfile
        Distances from zero up to the range of `fault_range_m`, and at each the size of the
        reflection as it arrives at the near end. [m, 1]

    Raises
    ------
    ValueError
        If there are too few frequencies, their steps are not even, or the velocity is not in
        0 .. 1.

    Notes
    -----
    Band-pass: |IFFT(w s11)| over the mean of the window w, so that a single reflection stands
    with its own height at v c t / 2. Kaiser window with beta 6, side lobes 44 dB down; at half its
    height a reflection is 2.0 cells of `fault_resolution_m` wide, and no finer can two of them
    be told apart. What lies beyond the range appears nearer by the range. The loss of the line up
    to a place is still in the height.

    Examples
    --------
    >>> frequency_hz = np.linspace(0.5e9, 1.5e9, 201)
    >>> s11 = 0.1 * np.exp(-4j * np.pi * frequency_hz * 3.0 / (0.7 * 299792458.0))
    >>> profile = reflection_profile(frequency_hz, s11, 0.7)
    >>> top = profile.magnitude.argmax()
    >>> round(float(profile.distance_m[top]), 1), round(float(profile.magnitude[top]), 3)
    (3.0, 0.1)
    """
    step_hz = _even_step_hz(frequency_hz)
    positive(velocity_ratio=velocity_ratio)
    within(0.0, 1.0, velocity_ratio=velocity_ratio)
    window = np.kaiser(len(frequency_hz), KAISER_BETA)
    count = FINENESS * len(frequency_hz)
    echo = np.fft.ifft(window * s11, count) * count / window.sum()
    delay_s = np.arange(count) / (count * step_hz)
    distance_m = velocity_ratio * SPEED_OF_LIGHT_M_PER_S * delay_s / 2.0
    return ReflectionProfile(distance_m, np.abs(echo))


def _even_step_hz(frequency_hz: Floats) -> float:
    """Return the step of a sweep; ValueError if it is too short or its steps are not even."""
    if len(frequency_hz) < FEWEST_POINTS:
        raise ValueError(f"a sweep needs at least {FEWEST_POINTS} frequencies")
    steps_hz = np.diff(frequency_hz)
    mean_hz = float(steps_hz.mean())
    positive(frequency_step_hz=mean_hz)
    if np.abs(steps_hz - mean_hz).max() > EVEN_STEP_RATIO * mean_hz:
        raise ValueError("the frequencies of the sweep do not rise by even steps")
    return mean_hz
