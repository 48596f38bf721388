# SPDX-License-Identifier: Apache-2.0
"""A chain of cables and connectors as a two-port over frequency, and its check by scikit-rf."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from typing import TYPE_CHECKING, TypeAlias

import numpy as np

from rfplan.physics.abcd import (
    Matrices,
    attenuator_abcd,
    cascade_abcd,
    line_abcd,
    mismatch_abcd,
    s_parameters,
)
from rfplan.physics.constants import DB_PER_NEPER, SPEED_OF_LIGHT_M_PER_S
from rfplan.physics.domain import ComplexOrArray, FloatOrArray, at_least, positive, within
from rfplan.physics.path_loss import pair_dissipation_db
from rfplan.sources import MIL_PRF_39012, POZAR_4E, SCIKIT_RF, TEXTBOOK_TRANSMISSION_LINE, cites

if TYPE_CHECKING:
    from skrf import Frequency, Network

REFERENCE_OHM = 50.0


@dataclass(frozen=True, slots=True)
class LineSection:
    """A cable of a chain; the attenuation is a float or one value a frequency."""

    attenuation_db_per_m: FloatOrArray
    velocity_ratio: float
    line_ohm: float
    length_m: float


@dataclass(frozen=True, slots=True)
class LumpedLoss:
    """A connector, adapter or pad: insertion loss with its reflection, and its VSWR."""

    insertion_loss_db: FloatOrArray
    vswr: float = 1.0


Part: TypeAlias = LineSection | LumpedLoss


@cites(TEXTBOOK_TRANSMISSION_LINE.at("low-loss line"), returns="1/m")
def propagation_per_m(
    frequency_hz: FloatOrArray, attenuation_db_per_m: FloatOrArray, velocity_ratio: FloatOrArray
) -> ComplexOrArray:
    """Return the propagation constant of a cable.

    Parameters
    ----------
    frequency_hz : float or array
        Carrier frequency. [Hz]
    attenuation_db_per_m : float or array
        Attenuation of the cable. [dB/m]
    velocity_ratio : float or array
        Velocity in the cable over the velocity of light. [1]

    Returns
    -------
    complex or array
        Attenuation in nepers and phase in radians, per metre. [1/m]

    Raises
    ------
    ValueError
        If a frequency is not positive, an attenuation negative, or a velocity not in 0 .. 1.

    Notes
    -----
    a / 8.686 + j 2 pi f / (v c).

    Examples
    --------
    >>> round(float(propagation_per_m(1.0e9, 0.5, 0.695).imag), 2)
    30.16
    """
    positive(frequency_hz=frequency_hz, velocity_ratio=velocity_ratio)
    within(0.0, 1.0, velocity_ratio=velocity_ratio)
    at_least(0.0, attenuation_db_per_m=attenuation_db_per_m)
    phase_rad_per_m = 2.0 * np.pi * frequency_hz / (SPEED_OF_LIGHT_M_PER_S * velocity_ratio)
    return attenuation_db_per_m / DB_PER_NEPER + 1j * phase_rad_per_m


@cites(
    TEXTBOOK_TRANSMISSION_LINE.at("chain (ABCD) matrix"),
    MIL_PRF_39012.at("4.6.24"),
    returns="1, ohm, S, 1",
)
def chain_abcd(frequency_hz: FloatOrArray, parts: Sequence[Part]) -> Matrices:
    """Return the chain matrix of cables and connectors in a row.

    Parameters
    ----------
    frequency_hz : float or array
        Carrier frequencies. [Hz]
    parts : sequence of LineSection or LumpedLoss
        What the signal passes, from the unit to the antenna. [-]

    Returns
    -------
    array
        Shape of `frequency_hz`, then 2 by 2. [1, ohm, S, 1]

    Raises
    ------
    ValueError
        If a part is outside its range.

    Notes
    -----
    A lumped loss is a matched pad of its dissipation and an ideal mismatch of its VSWR, which
    together have the stated insertion loss between 50 ohm ends.

    Examples
    --------
    >>> chain_abcd(1.0e9, [LumpedLoss(0.1)]).shape
    (2, 2)
    """
    matrices = [_part_abcd(frequency_hz, part) for part in parts]
    return np.broadcast_to(cascade_abcd(matrices), (*np.shape(frequency_hz), 2, 2))


def _part_abcd(frequency_hz: FloatOrArray, part: Part) -> Matrices:
    """Return the chain matrix of one part."""
    if isinstance(part, LineSection):
        gamma = propagation_per_m(frequency_hz, part.attenuation_db_per_m, part.velocity_ratio)
        return line_abcd(gamma, part.line_ohm, part.length_m)
    dissipation_db = pair_dissipation_db(part.insertion_loss_db, part.vswr)
    return attenuator_abcd(dissipation_db, REFERENCE_OHM) @ mismatch_abcd(part.vswr)


@cites(TEXTBOOK_TRANSMISSION_LINE.at("insertion loss"), returns="dB")
def insertion_loss_db(abcd: Matrices, reference_ohm: float = REFERENCE_OHM) -> FloatOrArray:
    """Return the loss that a two-port causes between two resistances.

    Parameters
    ----------
    abcd : array
        Chain matrices, shape (..., 2, 2). [1, ohm, S, 1]
    reference_ohm : float
        Resistance at both ports. [ohm]

    Returns
    -------
    float or array
        Insertion loss, reflection included. [dB]

    Raises
    ------
    ValueError
        If the resistance is not positive.

    Notes
    -----
    -20 log10 |S21|.

    Examples
    --------
    >>> round(float(insertion_loss_db(attenuator_abcd(3.0))), 6)
    3.0
    """
    return -20.0 * np.log10(np.abs(s_parameters(abcd, reference_ohm)[..., 1, 0]))


@cites(TEXTBOOK_TRANSMISSION_LINE.at("terminated two-port"), returns="ohm")
def input_impedance_ohm(abcd: Matrices, load_ohm: ComplexOrArray) -> ComplexOrArray:
    """Return the impedance seen into a two-port with a load behind it.

    Parameters
    ----------
    abcd : array
        Chain matrices, shape (..., 2, 2). [1, ohm, S, 1]
    load_ohm : complex or array
        Impedance of the load. [ohm]

    Returns
    -------
    complex or array
        Input impedance. [ohm]

    Notes
    -----
    (A ZL + B) / (C ZL + D).

    Examples
    --------
    >>> complex(input_impedance_ohm(line_abcd(0.5j * np.pi, 50.0, 1.0), 100.0)).real
    25.0
    """
    volts = abcd[..., 0, 0] * load_ohm + abcd[..., 0, 1]
    amperes = abcd[..., 1, 0] * load_ohm + abcd[..., 1, 1]
    return volts / amperes


@cites(POZAR_4E.at("impedance of a terminated line"), returns="ohm")
def line_input_impedance_ohm(
    load_ohm: ComplexOrArray,
    line_ohm: ComplexOrArray,
    propagation_per_m: ComplexOrArray,
    length_m: FloatOrArray,
) -> ComplexOrArray:
    """Return the impedance seen into a line with a load at its end.

    Parameters
    ----------
    load_ohm : complex or array
        Impedance of the load. [ohm]
    line_ohm : complex or array
        Characteristic impedance of the line. [ohm]
    propagation_per_m : complex or array
        Attenuation in nepers and phase in radians, per metre. [1/m]
    length_m : float or array
        Length of the line. [m]

    Returns
    -------
    complex or array
        Input impedance. [ohm]

    Raises
    ------
    ValueError
        If a length is negative or the line impedance has no positive real part.

    Notes
    -----
    Z0 (ZL + Z0 tanh(g l)) / (Z0 + ZL tanh(g l)).

    Examples
    --------
    >>> seen = complex(line_input_impedance_ohm(40 + 70j, 100.0, 2j * np.pi, 0.3))
    >>> round(seen.real, 1), round(seen.imag, 1)
    (36.5, -61.1)
    """
    return input_impedance_ohm(line_abcd(propagation_per_m, line_ohm, length_m), load_ohm)


@cites(TEXTBOOK_TRANSMISSION_LINE.at("reflection at the input"), returns="1")
def input_reflection_ratio(
    abcd: Matrices, load_ohm: ComplexOrArray, reference_ohm: float = REFERENCE_OHM
) -> ComplexOrArray:
    """Return the reflection seen into a two-port with a load behind it.

    Parameters
    ----------
    abcd : array
        Chain matrices, shape (..., 2, 2). [1, ohm, S, 1]
    load_ohm : complex or array
        Impedance of the load. [ohm]
    reference_ohm : float
        Resistance of the unit. [ohm]

    Returns
    -------
    complex or array
        Reflection coefficient. [1]

    Raises
    ------
    ValueError
        If the resistance is not positive.

    Notes
    -----
    (Zin - R) / (Zin + R).

    Examples
    --------
    >>> round(float(abs(input_reflection_ratio(attenuator_abcd(3.0), 1.0e12))), 4)
    0.5012
    """
    positive(reference_ohm=reference_ohm)
    seen_ohm = input_impedance_ohm(abcd, load_ohm)
    return (seen_ohm - reference_ohm) / (seen_ohm + reference_ohm)


@cites(SCIKIT_RF.at("media.DefinedGammaZ0"), returns="dB")
def cross_check_chain_db(frequency_hz: FloatOrArray, parts: Sequence[Part]) -> float:
    """Return how far this chain and the same chain in scikit-rf differ.

    Parameters
    ----------
    frequency_hz : float or array
        Carrier frequencies, rising. [Hz]
    parts : sequence of LineSection or LumpedLoss
        What the signal passes, from the unit to the antenna; at least one. [-]

    Returns
    -------
    float
        Largest difference of insertion loss between 50 ohm ends. [dB]

    Raises
    ------
    ValueError
        If a part is outside its range, or there is none.

    Notes
    -----
    Ports stay at 50 ohm whatever the impedance of the cables.
    """
    from skrf import Frequency
    from skrf.network import cascade_list

    if not parts:
        raise ValueError("a chain needs at least one part")
    points = Frequency.from_f(np.atleast_1d(frequency_hz), unit="Hz")
    network = cascade_list([_part_network(points, part) for part in parts])
    theirs_db = -20.0 * np.log10(np.abs(network.s[:, 1, 0]))
    ours_db = insertion_loss_db(chain_abcd(points.f, parts))
    return float(np.max(np.abs(ours_db - theirs_db)))


def _part_network(points: Frequency, part: Part) -> Network:
    """Build one part from scikit-rf's own elements."""
    from skrf.media import DefinedGammaZ0

    if isinstance(part, LineSection):
        gamma = propagation_per_m(points.f, part.attenuation_db_per_m, part.velocity_ratio)
        line = DefinedGammaZ0(points, z0_port=REFERENCE_OHM, z0=part.line_ohm, gamma=gamma)
        return line.line(part.length_m, "m")
    matched = DefinedGammaZ0(points, z0=REFERENCE_OHM)
    pad = matched.attenuator(-pair_dissipation_db(part.insertion_loss_db, part.vswr))
    return pad ** matched.impedance_mismatch(REFERENCE_OHM, REFERENCE_OHM * part.vswr)
