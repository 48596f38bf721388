# SPDX-License-Identifier: Apache-2.0
"""From the mutual impedance of two antennas to the isolation between their ports."""

from __future__ import annotations

import numpy as np

from rfplan.physics.domain import ComplexOrArray, FloatOrArray, at_least, positive
from rfplan.physics.free_space import free_space_loss_db, near_field_radius_m, wavelength_m
from rfplan.physics.mutual_impedance import HALF_WAVE_OHM, scaled_mutual_ohm, side_by_side_ohm
from rfplan.sources import (
    OWN_COMPUTATION,
    TEXTBOOK_ANTENNAS,
    TEXTBOOK_TRANSMISSION_LINE,
    cites,
)

SKIN_GAIN_DBI = 2.15
"""Gain of each of two monopoles on one skin towards the other. Not 5.16 dBi: that gain holds
towards the sky and would make the pair 6 dB too strong."""

_TWO_PORT = TEXTBOOK_TRANSMISSION_LINE.at("impedance matrix to scattering matrix")
_LARGEST = TEXTBOOK_TRANSMISSION_LINE.at("maximum available gain of a passive two-port")
_FRIIS = TEXTBOOK_ANTENNAS.at("transmission formula of Friis")


@cites(_TWO_PORT, returns="1")
def coupled_s21_ratio(
    own_ohm: tuple[ComplexOrArray, ComplexOrArray],
    mutual_ohm: ComplexOrArray,
    reference_ohm: float = 50.0,
) -> ComplexOrArray:
    """Return the transmission from one port to the other.

    Parameters
    ----------
    own_ohm : two complex or arrays
        Impedances of the two antennas, each with the other one open. [ohm]
    mutual_ohm : complex or array
        Mutual impedance. [ohm]
    reference_ohm : float
        Resistance at both ports. [ohm]

    Returns
    -------
    complex or array
        S21. [1]

    Raises
    ------
    ValueError
        If the reference is not positive.

    Notes
    -----
    2 Z0 Z21 / ((Z11 + Z0)(Z22 + Z0) - Z21^2).

    Examples
    --------
    >>> round(float(abs(coupled_s21_ratio((50.0, 50.0), 10.0))), 4)
    0.101
    """
    positive(reference_ohm=reference_ohm)
    loops = (own_ohm[0] + reference_ohm) * (own_ohm[1] + reference_ohm)
    return 2.0 * reference_ohm * mutual_ohm / (loops - np.square(mutual_ohm))


@cites(_TWO_PORT, returns="dB")
def port_isolation_db(
    own_ohm: ComplexOrArray, mutual_ohm: ComplexOrArray, reference_ohm: float = 50.0
) -> FloatOrArray:
    """Return the isolation between the ports of two equal antennas.

    Parameters
    ----------
    own_ohm : complex or array
        Impedance of either antenna with the other one open. [ohm]
    mutual_ohm : complex or array
        Mutual impedance. [ohm]
    reference_ohm : float
        Resistance at both ports. [ohm]

    Returns
    -------
    float or array
        -20 log10 |S21|. [dB]

    Raises
    ------
    ValueError
        If the reference is not positive.

    Examples
    --------
    >>> round(float(port_isolation_db(50.0, 10.0)), 2)
    19.91
    """
    return -20.0 * np.log10(
        np.abs(coupled_s21_ratio((own_ohm, own_ohm), mutual_ohm, reference_ohm))
    )


@cites(_LARGEST, returns="dB")
def matched_isolation_db(own_ohm: ComplexOrArray, mutual_ohm: ComplexOrArray) -> FloatOrArray:
    """Return the isolation of two equal antennas with both ports matched as well as can be.

    Parameters
    ----------
    own_ohm : complex or array
        Impedance of either antenna with the other one open. [ohm]
    mutual_ohm : complex or array
        Mutual impedance. [ohm]

    Returns
    -------
    float or array
        Isolation under simultaneous conjugate match: no matching gives less. [dB]

    Raises
    ------
    ValueError
        If the resistance of the antenna is not positive.

    Notes
    -----
    With K = (2 R^2 - Re Z21^2) / |Z21|^2 the coupled power is K - sqrt(K^2 - 1).

    Examples
    --------
    >>> round(float(matched_isolation_db(36.5, 1.0)), 2)
    37.26
    """
    resistance_ohm = np.asarray(own_ohm).real
    positive(own_ohm=resistance_ohm)
    squared = np.square(np.asarray(mutual_ohm, dtype=complex))
    stability = (2.0 * resistance_ohm**2 - squared.real) / np.abs(squared)
    stability = np.maximum(stability, 1.0)
    return np.asarray(10.0 * np.log10(stability + np.sqrt(stability**2 - 1.0)))


@cites(_LARGEST, OWN_COMPUTATION.at("worst phase of the mutual impedance"), returns="dB")
def least_isolation_db(mutual_ratio: FloatOrArray) -> FloatOrArray:
    """Return the isolation that no phase of the mutual impedance and no matching undercuts.

    Parameters
    ----------
    mutual_ratio : float or array
        Magnitude of the mutual impedance over the resistance of the antennas. [1]

    Returns
    -------
    float or array
        Isolation; zero where the ratio reaches one. [dB]

    Raises
    ------
    ValueError
        If a ratio is negative.

    Notes
    -----
    20 log10(m / (1 - sqrt(1 - m^2))): the matched case for a real Z21. For weak coupling it is
    20 log10(2/m).

    Examples
    --------
    >>> round(float(least_isolation_db(0.02)), 3)
    39.999
    """
    at_least(0.0, mutual_ratio=mutual_ratio)
    weak = np.maximum(np.minimum(mutual_ratio, 1.0), 1.0e-150)
    return 20.0 * np.log10((1.0 + np.sqrt(1.0 - np.square(weak))) / weak)


@cites(_FRIIS, OWN_COMPUTATION.at("two monopoles couple like two dipoles"), returns="dB")
def friis_isolation_db(
    frequency_hz: FloatOrArray, distance_m: FloatOrArray, gains_dbi: FloatOrArray = 4.3
) -> FloatOrArray:
    """Return the isolation of two antennas by the transmission formula of Friis.

    Parameters
    ----------
    frequency_hz : float or array
        Carrier frequency. [Hz]
    distance_m : float or array
        Distance. [m]
    gains_dbi : float or array
        Sum of both gains, each towards the other antenna; 2.15 each for monopoles on one
        skin. [dBi]

    Returns
    -------
    float or array
        Isolation. [dB]

    Raises
    ------
    ValueError
        If a frequency or distance is not positive.

    Notes
    -----
    Free-space loss less the gains, with no distance below wavelength/(2 pi). Up close it is too
    small, which is the safe side: by 0.5 dB at one wavelength and 3 dB at a third.

    Examples
    --------
    >>> round(float(friis_isolation_db(1575.42e6, 5.0)), 2)
    46.08
    """
    nearest_m = near_field_radius_m(frequency_hz)
    positive(distance_m=distance_m)
    return free_space_loss_db(frequency_hz, np.maximum(distance_m, nearest_m)) - gains_dbi


@cites(OWN_COMPUTATION.at("induced EMF scaled to the antennas"), _TWO_PORT, returns="dB")
def plane_isolation_db(
    frequency_hz: FloatOrArray,
    distance_m: FloatOrArray,
    own_ohm: ComplexOrArray,
    reference_ohm: float = 50.0,
) -> FloatOrArray:
    """Return the isolation of two equal quarter-wave monopoles on one plane.

    Parameters
    ----------
    frequency_hz : float or array
        Carrier frequency. [Hz]
    distance_m : float or array
        Distance. [m]
    own_ohm : complex or array
        Impedance of either antenna with the other one open. [ohm]
    reference_ohm : float
        Resistance at both ports. [ohm]

    Returns
    -------
    float or array
        Isolation from port to port. [dB]

    Raises
    ------
    ValueError
        If a frequency or distance is not positive.

    Notes
    -----
    The mutual impedance by induced EMF is scaled to the resistance at hand.

    Examples
    --------
    >>> round(float(plane_isolation_db(1090e6, 1.0, 42.529 + 24.632j)), 2)
    29.57
    """
    mutual_ohm = 0.5 * side_by_side_ohm(distance_m / wavelength_m(frequency_hz))
    resistance_ohm = np.asarray(own_ohm).real
    half_ohm = 0.5 * HALF_WAVE_OHM.real
    scaled_ohm = scaled_mutual_ohm(mutual_ohm, half_ohm, resistance_ohm, resistance_ohm)
    return port_isolation_db(own_ohm, scaled_ohm, reference_ohm)
