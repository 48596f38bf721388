# SPDX-License-Identifier: Apache-2.0
"""Chain matrices of two-ports, arrays of shape (..., 2, 2) over any axes in front."""

from __future__ import annotations

from collections.abc import Sequence
from functools import reduce
from typing import TypeAlias

import numpy as np
from numpy.typing import NDArray

from rfplan.physics.constants import DB_PER_NEPER
from rfplan.physics.domain import ComplexOrArray, FloatOrArray, at_least, positive
from rfplan.sources import TEXTBOOK_TRANSMISSION_LINE, cites

Matrices: TypeAlias = NDArray[np.complex128]

_Element: TypeAlias = FloatOrArray | ComplexOrArray

_CHAIN_UNITS = "1, ohm, S, 1"
_TABLE = TEXTBOOK_TRANSMISSION_LINE.at("chain (ABCD) matrix")


def _matrices(a: _Element, b: _Element, c: _Element, d: _Element) -> Matrices:
    """Stack the four elements into matrices over their broadcast shape."""
    elements = np.broadcast_arrays(
        *(np.asarray(element, dtype=complex) for element in (a, b, c, d))
    )
    return np.stack(elements, axis=-1).reshape(*elements[0].shape, 2, 2)


@cites(_TABLE, returns=_CHAIN_UNITS)
def line_abcd(
    propagation_per_m: ComplexOrArray, line_ohm: ComplexOrArray, length_m: FloatOrArray
) -> Matrices:
    """Return the chain matrix of a length of line.

    Parameters
    ----------
    propagation_per_m : complex or array
        Attenuation in nepers and phase in radians, per metre. [1/m]
    line_ohm : complex or array
        Characteristic impedance. [ohm]
    length_m : float or array
        Length. [m]

    Returns
    -------
    array
        Shape of the broadcast inputs, then 2 by 2. [1, ohm, S, 1]

    Raises
    ------
    ValueError
        If a length is negative or the impedance has no positive real part.

    Notes
    -----
    A = D = cosh(g l), B = Z0 sinh(g l), C = sinh(g l) / Z0.

    Examples
    --------
    >>> line_abcd(1j * np.pi, 50.0, 0.5).round(6)[0, 1]
    np.complex128(50j)
    """
    at_least(0.0, length_m=length_m)
    positive(line_resistance_ohm=np.asarray(line_ohm).real)
    cosh, sinh = np.cosh(propagation_per_m * length_m), np.sinh(propagation_per_m * length_m)
    return _matrices(cosh, line_ohm * sinh, sinh / line_ohm, cosh)


@cites(_TABLE, returns=_CHAIN_UNITS)
def series_abcd(series_ohm: ComplexOrArray) -> Matrices:
    """Return the chain matrix of an impedance in series.

    Parameters
    ----------
    series_ohm : complex or array
        The impedance. [ohm]

    Returns
    -------
    array
        Shape of the input, then 2 by 2. [1, ohm, S, 1]

    Notes
    -----
    A = D = 1, B = Z, C = 0.

    Examples
    --------
    >>> series_abcd(5.0).real.tolist()
    [[1.0, 5.0], [0.0, 1.0]]
    """
    return _matrices(1.0, series_ohm, 0.0, 1.0)


@cites(_TABLE, returns=_CHAIN_UNITS)
def shunt_abcd(shunt_s: ComplexOrArray) -> Matrices:
    """Return the chain matrix of an admittance across the line.

    Parameters
    ----------
    shunt_s : complex or array
        The admittance. [S]

    Returns
    -------
    array
        Shape of the input, then 2 by 2. [1, ohm, S, 1]

    Notes
    -----
    A = D = 1, B = 0, C = Y.

    Examples
    --------
    >>> shunt_abcd(0.02).real.tolist()
    [[1.0, 0.0], [0.02, 1.0]]
    """
    return _matrices(1.0, 0.0, shunt_s, 1.0)


@cites(_TABLE, returns=_CHAIN_UNITS)
def attenuator_abcd(loss_db: FloatOrArray, reference_ohm: float = 50.0) -> Matrices:
    """Return the chain matrix of a matched attenuator.

    Parameters
    ----------
    loss_db : float or array
        Attenuation. [dB]
    reference_ohm : float
        Impedance it is matched to. [ohm]

    Returns
    -------
    array
        Shape of `loss_db`, then 2 by 2. [1, ohm, S, 1]

    Raises
    ------
    ValueError
        If a loss is negative or the impedance is not positive.

    Notes
    -----
    A line of that impedance with attenuation and no phase.

    Examples
    --------
    >>> attenuator_abcd(0.0).real.tolist()
    [[1.0, 0.0], [0.0, 1.0]]
    """
    at_least(0.0, loss_db=loss_db)
    positive(reference_ohm=reference_ohm)
    cosh, sinh = np.cosh(loss_db / DB_PER_NEPER), np.sinh(loss_db / DB_PER_NEPER)
    return _matrices(cosh, reference_ohm * sinh, sinh / reference_ohm, cosh)


@cites(TEXTBOOK_TRANSMISSION_LINE.at("ideal transformer"), returns=_CHAIN_UNITS)
def mismatch_abcd(vswr: FloatOrArray) -> Matrices:
    """Return the chain matrix of a mismatch without loss and without length.

    Parameters
    ----------
    vswr : float or array
        Standing-wave ratio that it shows when its far side is matched. [1]

    Returns
    -------
    array
        Shape of the input, then 2 by 2. [1, ohm, S, 1]

    Raises
    ------
    ValueError
        If a VSWR is below one.

    Notes
    -----
    An ideal transformer, A = 1 / D = sqrt(s): what follows looks s times as high. The phase of
    a real mismatch is not known; for bounds use `mismatch_bounds_db`.

    Examples
    --------
    >>> mismatch_abcd(4.0).real.tolist()
    [[2.0, 0.0], [0.0, 0.5]]
    """
    at_least(1.0, vswr=vswr)
    turns = np.sqrt(vswr)
    return _matrices(turns, 0.0, 0.0, 1.0 / turns)


@cites(_TABLE, returns=_CHAIN_UNITS)
def cascade_abcd(parts: Sequence[Matrices]) -> Matrices:
    """Return the chain matrix of two-ports one after the other.

    Parameters
    ----------
    parts : sequence of arrays
        Chain matrices, from the unit to the antenna. [-]

    Returns
    -------
    array
        Broadcast shape of the parts; the identity if there are none. [1, ohm, S, 1]

    Notes
    -----
    The matrix product in the order of the signal.

    Examples
    --------
    >>> cascade_abcd([series_abcd(2.0), series_abcd(3.0)]).real.tolist()
    [[1.0, 5.0], [0.0, 1.0]]
    """
    return reduce(np.matmul, parts, np.eye(2, dtype=complex))


@cites(TEXTBOOK_TRANSMISSION_LINE.at("conversion of two-port parameters"), returns="1")
def s_parameters(abcd: Matrices, reference_ohm: float = 50.0) -> Matrices:
    """Return the scattering matrix of a two-port.

    Parameters
    ----------
    abcd : array
        Chain matrices, shape (..., 2, 2). [1, ohm, S, 1]
    reference_ohm : float
        Impedance at both ports. [ohm]

    Returns
    -------
    array
        S11, S12, S21, S22 in the same shape. [1]

    Raises
    ------
    ValueError
        If the reference impedance is not positive.

    Notes
    -----
    With b = B / Z0 and c = C Z0, S21 = 2 / (A + b + c + D). The reference stays what the
    equipment has, also where the line has another impedance.

    Examples
    --------
    >>> round(float(abs(s_parameters(attenuator_abcd(6.0))[1, 0])), 4)
    0.5012
    """
    positive(reference_ohm=reference_ohm)
    a, b = abcd[..., 0, 0], abcd[..., 0, 1] / reference_ohm
    c, d = abcd[..., 1, 0] * reference_ohm, abcd[..., 1, 1]
    total = a + b + c + d
    forward = 2.0 / total
    reverse = forward * (a * d - b * c)
    return _matrices((a + b - c - d) / total, reverse, forward, (-a + b - c + d) / total)
