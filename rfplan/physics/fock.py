# SPDX-License-Identifier: Apache-2.0
"""Surface Fock functions: how a wave that creeps along a curved skin fades and turns in phase."""

from __future__ import annotations

from functools import cache
from math import gamma
from typing import NamedTuple

import numpy as np
from numpy.typing import NDArray

from rfplan.physics.domain import FloatOrArray, at_least
from rfplan.sources import OWN_COMPUTATION, RECALLED, SCIPY_DOCS, cites

Complexes = NDArray[np.complex128]
Floats = NDArray[np.float64]

AIRY_ZEROS = (
    *(2.3381074104597670, 4.0879494441309706, 5.5205598280955511, 6.7867080900717589),
    *(7.9441335871208531, 9.0226508533409803, 10.0401743415580859, 11.0085243037332629),
    *(11.9360155632362625, 12.8287767528657572, 13.6914890352107179, 14.5278299517753349),
    *(15.3407551359779968, 16.1326851569457714, 16.9056339974299426, 17.6613001056970576),
)
"""Where Ai(-x) vanishes; the first is printed in the SciPy documentation."""

AIRY_SLOPE_ZEROS = (
    *(1.0187929716474711, 3.2481975821798366, 4.8200992111787356, 6.1633073556394865),
    *(7.3721772550477702, 8.4884867340197221, 9.5354490524335474, 10.5276603969574072),
    *(11.4750566334802453, 12.3847883718457656, 13.2622189616652114, 14.1115019704629953),
    *(14.9359371967205117, 15.7382013736925279, 16.5205038254337936, 17.2846950502164330),
)
"""Where the derivative Ai'(-x) vanishes; the first is printed in the SciPy documentation."""

SERIES_UP_TO = 2.0
"""Below, the power series; above, the sum over residues."""

TERMS = 34
"""Terms of the power series; the last is below 1e-13 at the changeover."""

_TURN = np.exp(0.25j * np.pi)
_SERIES = OWN_COMPUTATION.at("Riccati equation of the Airy functions, transformed term by term")
_RESIDUES = RECALLED.at("residue series of the surface Fock functions")
_ZEROS = SCIPY_DOCS.at("scipy.special.ai_zeros, printed example")


class FockPair(NamedTuple):
    """The hard function v and (u - v) / x with x = exp(j pi/4) xi^1.5, finite at zero."""

    hard: Complexes
    slope: Complexes


@cites(_SERIES, returns="1, 1")
def fock_series() -> tuple[Floats, Floats]:
    """Return the coefficients of the power series of the hard and the soft Fock function.

    Returns
    -------
    two arrays
        Coefficients of x^n, n from 0, with x = exp(j pi/4) xi^1.5; hard and soft. [1, 1]

    Notes
    -----
    Ai/Ai' = g and Ai'/Ai = y fulfil g' = 1 - z g^2 and y' = z - y^2. Their expansions for large z
    follow by recurrence, and z^-p transforms into xi^(p-1) / gamma(p). The series converge for
    every xi. The first four terms are those found in print from memory; the terms in xi^6, often
    quoted as 4.141e-3 and 3.701e-2, come out as 4.3981e-3 and 3.6541e-2.

    Examples
    --------
    >>> hard, soft = fock_series()
    >>> bool(np.isclose(hard[2], 7 / 60)), bool(np.isclose(soft[2], 5 / 12))
    (True, True)
    """
    return _hard_coefficients(), _soft_coefficients()


@cites(_SERIES, _RESIDUES, _ZEROS, returns="1")
def hard_fock(xi: FloatOrArray) -> Complexes:
    """Return the hard surface Fock function v, for a field normal to the skin.

    Parameters
    ----------
    xi : float or array
        Shade parameter of the way along the skin. [1]

    Returns
    -------
    complex or array
        v; one at zero. [1]

    Raises
    ------
    ValueError
        If a shade parameter is negative.

    Notes
    -----
    exp(+j w t). Above 2: exp(-j pi/4) sqrt(pi xi) sum of exp(-j xi t) / t over t = |zero|
    exp(-j pi/3), zeros of Ai'. Below: the power series. They meet to 1e-9.

    Examples
    --------
    >>> complex(np.round(hard_fock(1.0), 6))
    (0.699914-0.213383j)
    """
    at_least(0.0, xi=xi)
    xi = np.asarray(xi, dtype=float)
    return np.where(xi < SERIES_UP_TO, _hard_series(xi), _hard_residues(xi))


@cites(_SERIES, _RESIDUES, _ZEROS, returns="1")
def soft_fock(xi: FloatOrArray) -> Complexes:
    """Return the soft surface Fock function u, for a field along the skin.

    Parameters
    ----------
    xi : float or array
        Shade parameter of the way along the skin. [1]

    Returns
    -------
    complex or array
        u; one at zero. [1]

    Raises
    ------
    ValueError
        If a shade parameter is negative.

    Notes
    -----
    exp(+j w t). Above 2: 2 exp(j pi/4) sqrt(pi) xi^1.5 sum of exp(-j xi t) over t = |zero|
    exp(-j pi/3), zeros of Ai. Below: the power series.

    Examples
    --------
    >>> complex(np.round(soft_fock(1.0), 6))
    (0.440321-0.303544j)
    """
    at_least(0.0, xi=xi)
    xi = np.asarray(xi, dtype=float)
    series = _polynomial(_turned(np.minimum(xi, SERIES_UP_TO)), _soft_coefficients())
    return np.where(xi < SERIES_UP_TO, series, _soft_residues(xi))


@cites(_SERIES, _RESIDUES, returns="1, 1")
def fock_pair(xi: FloatOrArray) -> FockPair:
    """Return v and (u - v) / x by interpolation in a table, as fast rays need them.

    Parameters
    ----------
    xi : float or array
        Shade parameter of the way along the skin. [1]

    Returns
    -------
    FockPair
        v, and (u - v) / x with x = exp(j pi/4) xi^1.5. [1, 1]

    Raises
    ------
    ValueError
        If a shade parameter is negative.

    Notes
    -----
    The table runs in sqrt(xi), in which both functions are smooth through zero, with the decay of
    the first residue taken out. Linear interpolation: relative error below 4e-6 up to xi = 100.
    A table of u and v themselves would lose (u - v) / cos^2 near the axis of a cylinder.

    Examples
    --------
    >>> float(np.round(abs(fock_pair(1.0).hard), 4))
    0.7317
    """
    at_least(0.0, xi=xi)
    xi = np.asarray(xi, dtype=float)
    table = _table()
    place = np.sqrt(xi) / _STEP
    below = np.minimum(place.astype(np.intp), table.shape[-1] - 2)
    part = place - below
    hard, slope = (row[below] + part * (row[below + 1] - row[below]) for row in table)
    decay = np.exp(-1j * _FIRST * xi)
    return FockPair(hard * decay, slope * decay)


@cites(OWN_COMPUTATION.at("term by term from series and residues"), returns="1, 1, 1")
def hard_fock_terms(xi: FloatOrArray) -> tuple[Complexes, Complexes, Complexes]:
    """Return what the first-order correction of the hard ray needs beside v itself.

    Parameters
    ----------
    xi : float or array
        Shade parameter of the way along the skin. [1]

    Returns
    -------
    three arrays
        L v / x and L L v / x, L = xi d/dxi, x = exp(j pi/4) xi^1.5, all finite at zero; and the
        integral of s^0.5 v(s) from xi on. [1, 1, 1]

    Raises
    ------
    ValueError
        If a shade parameter is negative.

    Notes
    -----
    From zero on the integral is sqrt(pi) exp(-j pi/4).
    """
    at_least(0.0, xi=xi)
    xi = np.asarray(xi, dtype=float)
    small = xi < SERIES_UP_TO
    pairs = zip(_series_terms(xi), _residue_terms(xi), strict=True)
    first, second, rest = (np.where(small, series, residues) for series, residues in pairs)
    return first, second, rest


_FIRST = AIRY_SLOPE_ZEROS[0] * np.exp(-1j * np.pi / 3.0)
_STEP = 0.004
_TO = 10.0


@cache
def _hard_coefficients() -> Floats:
    """Return the transform of Ai/Ai', scaled to one at zero."""
    return _transformed(_airy_ratio(1.0), 0.5)


@cache
def _soft_coefficients() -> Floats:
    """Return the transform of Ai'/Ai, scaled to one at zero."""
    return _transformed(_airy_ratio(2.0), -0.5)


def _airy_ratio(shift: float) -> list[float]:
    """Solve the Riccati equation for the terms of a ratio of Airy functions."""
    row = [-1.0]
    for n in range(1, TERMS):
        crossed = sum(row[i] * row[n - i] for i in range(1, n))
        row.append((crossed - (1.5 * n - shift) * row[n - 1]) / 2.0)
    return row


def _transformed(row: list[float], power: float) -> Floats:
    return np.array([-a * gamma(power) / gamma(power + 1.5 * n) for n, a in enumerate(row)])


@cache
def _table() -> Complexes:
    """Return v and (u - v) / x over sqrt(xi), the decay of the first residue taken out."""
    xi = np.square(np.arange(0.0, _TO + _STEP / 2.0, _STEP))
    near = np.minimum(xi, SERIES_UP_TO)
    slope = _polynomial(_turned(near), (_soft_coefficients() - _hard_coefficients())[1:])
    far = xi >= SERIES_UP_TO
    slope[far] = (_soft_residues(xi[far]) - _hard_residues(xi[far])) / _turned(xi[far])
    return np.asarray(np.stack([hard_fock(xi), slope]) * np.exp(1j * _FIRST * xi))


def _turned(xi: Floats) -> Complexes:
    """Return exp(j pi/4) xi^1.5, the variable of the series."""
    return np.asarray(_TURN * xi**1.5)


def _polynomial(x: Complexes, coefficients: Floats) -> Complexes:
    """Return a polynomial by the scheme of Horner."""
    total = np.full(np.shape(x), coefficients[-1], dtype=complex)
    for coefficient in coefficients[-2::-1]:
        total = total * x + coefficient
    return total


def _hard_series(xi: Floats) -> Complexes:
    return _polynomial(_turned(np.minimum(xi, SERIES_UP_TO)), _hard_coefficients())


def _poles(zeros: tuple[float, ...]) -> Complexes:
    return np.asarray(np.array(zeros) * np.exp(-1j * np.pi / 3.0))


def _hard_residues(xi: Floats) -> Complexes:
    far, pole = np.maximum(xi, SERIES_UP_TO), _poles(AIRY_SLOPE_ZEROS)
    total = np.sum(np.exp(-1j * far[..., None] * pole) / pole, axis=-1)
    return np.asarray(np.sqrt(np.pi * far) * total / _TURN)


def _soft_residues(xi: Floats) -> Complexes:
    far, pole = np.maximum(xi, SERIES_UP_TO), _poles(AIRY_ZEROS)
    total = np.sum(np.exp(-1j * far[..., None] * pole), axis=-1)
    return np.asarray(2.0 * _TURN * np.sqrt(np.pi) * far**1.5 * total)


def _series_terms(xi: Floats) -> tuple[Complexes, Complexes, Complexes]:
    near, hard = np.minimum(xi, SERIES_UP_TO), _hard_coefficients()
    order = 1.5 * np.arange(TERMS)
    x = _turned(near)
    passed = near**1.5 * _polynomial(x, hard / (order + 1.5))
    rest = np.sqrt(np.pi) / _TURN - passed
    return _polynomial(x, (order * hard)[1:]), _polynomial(x, (order**2 * hard)[1:]), rest


def _residue_terms(xi: Floats) -> tuple[Complexes, Complexes, Complexes]:
    far, pole = np.maximum(xi, SERIES_UP_TO)[..., None], _poles(AIRY_SLOPE_ZEROS)
    wave = np.sqrt(np.pi) / _TURN * np.exp(-1j * far * pole) / pole
    slope = 0.5 - 1j * far * pole
    scale = 1.0 / (_TURN * far[..., 0])
    first = scale * np.sum(wave * slope, axis=-1)
    second = scale * np.sum(wave * (slope**2 - 1j * far * pole), axis=-1)
    return first, second, np.sum(wave * (far / (1j * pole) - 1.0 / pole**2), axis=-1)
