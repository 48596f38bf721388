# SPDX-License-Identifier: Apache-2.0
"""A chain over frequency in few steps: neighbours of one impedance are joined before they count."""

from __future__ import annotations

import math
from collections.abc import Sequence
from typing import NamedTuple

import numpy as np

from rfplan.physics.constants import DB_PER_NEPER, SPEED_OF_LIGHT_M_PER_S
from rfplan.physics.domain import ComplexOrArray, FloatOrArray, positive
from rfplan.physics.path_loss import pair_dissipation_db
from rfplan.physics.two_port import REFERENCE_OHM, LineSection, Part
from rfplan.sources import TEXTBOOK_TRANSMISSION_LINE, cites

_CASCADE = TEXTBOOK_TRANSMISSION_LINE.at("cascade of two-ports")


class Waves(NamedTuple):
    """Scattering parameters of a reciprocal chain between 50 ohm ends; unit side first."""

    s11: ComplexOrArray
    s21: ComplexOrArray
    s22: ComplexOrArray


class _Run(NamedTuple):
    """Neighbours of one impedance as one line; with `turns`, an ideal transformer behind it."""

    line_ohm: float
    loss_db: FloatOrArray
    delay_s: float
    turns: float = 1.0


class _Matrix(NamedTuple):
    """The four elements of a chain matrix, each over frequency."""

    a: ComplexOrArray
    b: ComplexOrArray
    c: ComplexOrArray
    d: ComplexOrArray


@cites(_CASCADE, returns="dB")
def chain_loss_db(frequency_hz: FloatOrArray, parts: Sequence[Part]) -> FloatOrArray:
    """Return the insertion loss of cables and connectors in a row between 50 ohm ends.

    Parameters
    ----------
    frequency_hz : float or array
        Carrier frequencies. [Hz]
    parts : sequence of LineSection or LumpedLoss
        What the signal passes, from the unit to the antenna. [-]

    Returns
    -------
    float or array
        Insertion loss, reflections between the parts included. [dB]

    Raises
    ------
    ValueError
        If a part is outside its range.

    Notes
    -----
    The product of the chain matrices, as `chain_abcd` and `insertion_loss_db` give it. Two parts
    of one impedance never reflect between each other, so their losses and delays are added
    first; what is 50 ohm at either end adds its loss and nothing else.

    Examples
    --------
    >>> from rfplan.physics.two_port import LumpedLoss
    >>> round(float(chain_loss_db(1.0e9, [LumpedLoss(0.1), LumpedLoss(3.0)])), 6)
    3.1
    """
    first, inner, last = _peeled(_runs(parts))
    ends_db = first.loss_db + last.loss_db
    if not inner:
        return np.broadcast_to(ends_db, np.shape(frequency_hz))
    through = _total(_matrix(frequency_hz, inner))
    return ends_db + 20.0 * np.log10(np.abs(through) / 2.0)


@cites(_CASCADE, returns="1, 1, 1")
def chain_waves(frequency_hz: FloatOrArray, parts: Sequence[Part]) -> Waves:
    """Return what cables and connectors in a row reflect and let through.

    Parameters
    ----------
    frequency_hz : float or array
        Carrier frequencies. [Hz]
    parts : sequence of LineSection or LumpedLoss
        What the signal passes, from the unit to the antenna. [-]

    Returns
    -------
    Waves
        S11, S21 and S22 between 50 ohm ends; S12 is S21. [1, 1, 1]

    Raises
    ------
    ValueError
        If a part is outside its range.

    Notes
    -----
    As `chain_loss_db`. With A, b = B / 50, c = 50 C and D of the part between the 50 ohm ends,
    S21 = 2 / (A + b + c + D); the ends delay and weaken.

    Examples
    --------
    >>> from rfplan.physics.two_port import LumpedLoss
    >>> round(float(abs(chain_waves(1.0e9, [LumpedLoss(6.0)]).s21)), 4)
    0.5012
    """
    first, inner, last = _peeled(_runs(parts))
    ahead: ComplexOrArray = np.exp(-_exponent(frequency_hz, first))
    if not inner:
        return Waves(0.0 * ahead, ahead, 0.0 * ahead)
    behind: ComplexOrArray = np.exp(-_exponent(frequency_hz, last))
    a, b, c, d = matrix = _matrix(frequency_hz, inner)
    total = _total(matrix)
    b, c = b / REFERENCE_OHM, c * REFERENCE_OHM
    return Waves(
        (a + b - c - d) / total * ahead**2,
        2.0 / total * ahead * behind,
        (-a + b - c + d) / total * behind**2,
    )


@cites(TEXTBOOK_TRANSMISSION_LINE.at("terminated two-port"), returns="1")
def reflection_at_input_ratio(waves: Waves, load_reflection: ComplexOrArray) -> ComplexOrArray:
    """Return the reflection that the unit sees through a chain.

    Parameters
    ----------
    waves : Waves
        Scattering parameters of the chain. [1]
    load_reflection : complex or array
        Reflection coefficient of the antenna. [1]

    Returns
    -------
    complex or array
        Reflection coefficient at the unit. [1]

    Notes
    -----
    S11 + S21^2 r / (1 - S22 r).

    Examples
    --------
    >>> round(float(abs(reflection_at_input_ratio(Waves(0.0, 0.5, 0.0), 0.2))), 3)
    0.05
    """
    return waves.s11 + waves.s21**2 * load_reflection / (1.0 - waves.s22 * load_reflection)


@cites(TEXTBOOK_TRANSMISSION_LINE.at("transducer gain"), returns="dB")
def delivered_loss_db(
    waves: Waves, source_reflection: ComplexOrArray, load_reflection: ComplexOrArray
) -> FloatOrArray:
    """Return the power a source can give over the power that the antenna gets.

    Parameters
    ----------
    waves : Waves
        Scattering parameters of the chain. [1]
    source_reflection : complex or array
        Reflection coefficient of the unit. [1]
    load_reflection : complex or array
        Reflection coefficient of the antenna. [1]

    Returns
    -------
    float or array
        Loss from available to delivered power. [dB]

    Raises
    ------
    ValueError
        If a reflection is not below one.

    Notes
    -----
    -10 log10 of (1 - |rs|^2) |S21|^2 (1 - |rl|^2) over |(1 - S11 rs)(1 - S22 rl) - S21^2 rs rl|^2.

    Examples
    --------
    >>> through = Waves(0.0, 1.0, 0.0)
    >>> round(float(delivered_loss_db(through, 0.0, 1.0 / 3.0)), 4)
    0.5115
    """
    s11, s21, s22 = waves
    absorbed = (1.0 - np.abs(source_reflection) ** 2) * (1.0 - np.abs(load_reflection) ** 2)
    positive(absorbed_ratio=absorbed)
    echo = (1.0 - s11 * source_reflection) * (1.0 - s22 * load_reflection)
    echo = echo - s21**2 * source_reflection * load_reflection
    loss_db: FloatOrArray = -10.0 * np.log10(absorbed * np.abs(s21) ** 2 / np.abs(echo) ** 2)
    return loss_db


def _runs(parts: Sequence[Part]) -> list[_Run]:
    """Join neighbours of one impedance; a mismatch of its own stands as a transformer."""
    runs: list[_Run] = []
    for part in parts:
        run = _run(part)
        if runs and runs[-1].line_ohm == run.line_ohm and runs[-1].turns == 1.0:
            before = runs.pop()
            joined = before.loss_db + run.loss_db, before.delay_s + run.delay_s
            run = _Run(run.line_ohm, *joined, run.turns)
        runs.append(run)
    return runs


def _run(part: Part) -> _Run:
    if isinstance(part, LineSection):
        if not (part.length_m >= 0.0 and 0.0 < part.velocity_ratio <= 1.0 and part.line_ohm > 0.0):
            raise ValueError(f"no such line: {part}")
        _check_loss(part.attenuation_db_per_m)
        delay_s = part.length_m / (SPEED_OF_LIGHT_M_PER_S * part.velocity_ratio)
        return _Run(part.line_ohm, part.attenuation_db_per_m * part.length_m, delay_s)
    if part.vswr == 1.0:
        _check_loss(part.insertion_loss_db)
        return _Run(REFERENCE_OHM, part.insertion_loss_db, 0.0)
    dissipation_db = pair_dissipation_db(part.insertion_loss_db, part.vswr)
    return _Run(REFERENCE_OHM, dissipation_db, 0.0, math.sqrt(part.vswr))


def _check_loss(loss: FloatOrArray) -> None:
    """Raise ValueError for a loss below zero; `at_least` costs as much as all else here."""
    holds = loss >= 0.0
    if not (holds if isinstance(holds, bool) else holds.all()):
        raise ValueError(f"a loss must be at least 0, got {loss}")


_THROUGH = _Run(REFERENCE_OHM, 0.0, 0.0)


def _peeled(runs: list[_Run]) -> tuple[_Run, list[_Run], _Run]:
    """Part a chain into its 50 ohm ends and what lies between them."""
    first = last = _THROUGH
    if runs and runs[0].line_ohm == REFERENCE_OHM:
        first, runs = runs[0], runs[1:]
        if first.turns != 1.0:
            first, runs = first._replace(turns=1.0), [_THROUGH._replace(turns=first.turns), *runs]
    if runs and runs[-1].line_ohm == REFERENCE_OHM and runs[-1].turns == 1.0:
        last, runs = runs[-1], runs[:-1]
    return first, runs, last


def _exponent(frequency_hz: FloatOrArray, run: _Run) -> ComplexOrArray:
    phase_rad = 2.0 * math.pi * run.delay_s * frequency_hz
    return run.loss_db / DB_PER_NEPER + 1j * phase_rad


def _matrix(frequency_hz: FloatOrArray, runs: list[_Run]) -> _Matrix:
    """Return the chain matrix of runs, one after the other."""
    total = _run_matrix(frequency_hz, runs[0])
    for run in runs[1:]:
        a, b, c, d = total
        e, f, g, h = _run_matrix(frequency_hz, run)
        total = _Matrix(a * e + b * g, a * f + b * h, c * e + d * g, c * f + d * h)
    return total


def _run_matrix(frequency_hz: FloatOrArray, run: _Run) -> _Matrix:
    grown: ComplexOrArray = np.exp(_exponent(frequency_hz, run))
    shrunk: ComplexOrArray = 1.0 / grown
    cosh, sinh = (grown + shrunk) / 2.0, (grown - shrunk) / 2.0
    into, out = run.turns, 1.0 / run.turns
    return _Matrix(
        cosh * into, sinh * (run.line_ohm * out), sinh * (into / run.line_ohm), cosh * out
    )


def _total(matrix: _Matrix) -> ComplexOrArray:
    """Return A + B / 50 + 50 C + D."""
    return matrix.a + matrix.b / REFERENCE_OHM + matrix.c * REFERENCE_OHM + matrix.d
