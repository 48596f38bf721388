# SPDX-License-Identifier: Apache-2.0
"""Noise of cables, amplifiers and receivers in a row."""

from __future__ import annotations

import numpy as np
from numpy.typing import NDArray

from rfplan.physics.constants import BOLTZMANN_J_PER_K, NOISE_REFERENCE_K
from rfplan.physics.decibel import dbm_from_w, power_ratio_db, ratio_from_db
from rfplan.physics.domain import FloatOrArray, at_least, positive
from rfplan.sources import SI_BROCHURE, TEXTBOOK_NOISE, cites

_FIGURE = TEXTBOOK_NOISE.at("noise figure and noise temperature")
_THERMAL = TEXTBOOK_NOISE.at("thermal noise")
_BOLTZMANN = SI_BROCHURE.at("Boltzmann constant")


@cites(TEXTBOOK_NOISE.at("formula of Friis for noise"), returns="dB")
def cascade_noise_figure_db(
    noise_figures_db: NDArray[np.float64], gains_db: NDArray[np.float64]
) -> FloatOrArray:
    """Return the noise figure of stages in a row.

    Parameters
    ----------
    noise_figures_db : array
        Noise figure of each stage, from the antenna on, along the last axis. [dB]
    gains_db : array
        Gain of each stage; negative for a cable. The last one does not matter. [dB]

    Returns
    -------
    float or array
        Noise figure of all together; one axis fewer than the inputs. [dB]

    Raises
    ------
    ValueError
        If a noise figure is negative or the two shapes differ.

    Notes
    -----
    F1 + (F2 - 1) / G1 + (F3 - 1) / (G1 G2) + ... A cable is a stage of its own: at 290 K its
    noise figure is its loss.

    Examples
    --------
    >>> round(float(cascade_noise_figure_db(np.array([2.5, 15, 10]), np.array([30, -15, 0]))), 2)
    3.21
    """
    at_least(0.0, noise_figures_db=noise_figures_db)
    if np.shape(noise_figures_db) != np.shape(gains_db):
        raise ValueError("every stage needs a noise figure and a gain")
    ahead_db = np.cumsum(gains_db, axis=-1) - gains_db
    excess = (ratio_from_db(noise_figures_db) - 1.0) / ratio_from_db(ahead_db)
    return power_ratio_db(1.0 + np.sum(excess, axis=-1), 1.0)


@cites(_FIGURE, returns="dB")
def passive_noise_figure_db(
    loss_db: FloatOrArray, temperature_k: FloatOrArray = NOISE_REFERENCE_K
) -> FloatOrArray:
    """Return the noise figure of a cable or pad.

    Parameters
    ----------
    loss_db : float or array
        Matched loss. [dB]
    temperature_k : float or array
        Its temperature. [K]

    Returns
    -------
    float or array
        Noise figure. [dB]

    Raises
    ------
    ValueError
        If the loss is negative or the temperature not positive.

    Notes
    -----
    F = 1 + (L - 1) T / 290, which is L itself at 290 K.

    Examples
    --------
    >>> float(passive_noise_figure_db(3.0))
    3.0
    """
    at_least(0.0, loss_db=loss_db)
    positive(temperature_k=temperature_k)
    excess = (ratio_from_db(loss_db) - 1.0) * temperature_k / NOISE_REFERENCE_K
    return 10.0 * np.log10(1.0 + excess)


@cites(_FIGURE, returns="K")
def noise_temperature_k(
    noise_figure_db: FloatOrArray, reference_k: FloatOrArray = NOISE_REFERENCE_K
) -> FloatOrArray:
    """Return the noise temperature of a noise figure.

    Parameters
    ----------
    noise_figure_db : float or array
        Noise figure. [dB]
    reference_k : float or array
        Temperature that the noise figure refers to. [K]

    Returns
    -------
    float or array
        Noise temperature at the input. [K]

    Raises
    ------
    ValueError
        If the noise figure is negative or the reference not positive.

    Notes
    -----
    T0 (F - 1).

    Examples
    --------
    >>> round(float(noise_temperature_k(3.0103)))
    290
    """
    at_least(0.0, noise_figure_db=noise_figure_db)
    positive(reference_k=reference_k)
    return reference_k * (ratio_from_db(noise_figure_db) - 1.0)


@cites(_FIGURE, returns="dB")
def noise_figure_db(
    temperature_k: FloatOrArray, reference_k: FloatOrArray = NOISE_REFERENCE_K
) -> FloatOrArray:
    """Return the noise figure of a noise temperature.

    Parameters
    ----------
    temperature_k : float or array
        Noise temperature at the input. [K]
    reference_k : float or array
        Temperature that the noise figure refers to. [K]

    Returns
    -------
    float or array
        Noise figure. [dB]

    Raises
    ------
    ValueError
        If the temperature is negative or the reference not positive.

    Notes
    -----
    10 log10(1 + T / T0).

    Examples
    --------
    >>> round(float(noise_figure_db(290.0)), 2)
    3.01
    """
    at_least(0.0, temperature_k=temperature_k)
    positive(reference_k=reference_k)
    return 10.0 * np.log10(1.0 + temperature_k / reference_k)


@cites(_THERMAL, _BOLTZMANN, returns="dBm")
def thermal_noise_dbm(temperature_k: FloatOrArray, bandwidth_hz: FloatOrArray) -> FloatOrArray:
    """Return the noise power of a resistance in a bandwidth.

    Parameters
    ----------
    temperature_k : float or array
        Noise temperature. [K]
    bandwidth_hz : float or array
        Noise bandwidth; one hertz gives the density. [Hz]

    Returns
    -------
    float or array
        Available noise power. [dBm]

    Raises
    ------
    ValueError
        If any argument is not positive.

    Notes
    -----
    k T B.

    Examples
    --------
    >>> round(float(thermal_noise_dbm(290.0, 1.0)), 2)
    -173.98
    """
    positive(temperature_k=temperature_k, bandwidth_hz=bandwidth_hz)
    return dbm_from_w(BOLTZMANN_J_PER_K * temperature_k * bandwidth_hz)


@cites(_FIGURE, _THERMAL, _BOLTZMANN, returns="dBHz")
def carrier_to_noise_dbhz(
    carrier_dbm: FloatOrArray, antenna_k: FloatOrArray, noise_figure_db: FloatOrArray
) -> FloatOrArray:
    """Return the ratio of a carrier to the noise density of antenna and receiver.

    Parameters
    ----------
    carrier_dbm : float or array
        Carrier at the output of the antenna element. [dBm]
    antenna_k : float or array
        Noise temperature of the antenna. [K]
    noise_figure_db : float or array
        Noise figure of everything behind the antenna element. [dB]

    Returns
    -------
    float or array
        Carrier to noise density. [dBHz]

    Raises
    ------
    ValueError
        If the antenna temperature is not positive or the noise figure negative.

    Notes
    -----
    P - 10 log10(k (Ta + 290 (F - 1))).

    Examples
    --------
    >>> round(float(carrier_to_noise_dbhz(-128.5, 100.0, 3.0)), 1)
    44.2
    """
    positive(antenna_k=antenna_k)
    return carrier_dbm - thermal_noise_dbm(antenna_k + noise_temperature_k(noise_figure_db), 1.0)
