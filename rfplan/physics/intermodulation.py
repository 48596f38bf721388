# SPDX-License-Identifier: Apache-2.0
"""Harmonics and mixing products of transmitters, by interval arithmetic on their bands."""

from __future__ import annotations

from collections.abc import Iterator
from functools import cache
from itertools import combinations
from typing import NamedTuple

import numpy as np
from numpy.typing import NDArray

from rfplan.physics.domain import FloatOrArray, positive
from rfplan.sources import HAUSMAN, IEC_60050, OWN_COMPUTATION, TEXTBOOK_NOISE, cites

Floats = NDArray[np.float64]
Integers = NDArray[np.int64]
Bools = NDArray[np.bool_]

HIGHEST_ORDER = 7

_INTERVALS = OWN_COMPUTATION.at("interval arithmetic on bands")


@cites(_INTERVALS, returns="Hz")
def harmonic_band_hz(band_hz: Floats, order: int) -> Floats:
    """Return the band of a harmonic.

    Parameters
    ----------
    band_hz : array
        Low and high end in the last axis. [Hz]
    order : int
        Number of the harmonic. [1]

    Returns
    -------
    array
        Low and high end. [Hz]

    Raises
    ------
    ValueError
        If an end is not positive.

    Examples
    --------
    >>> harmonic_band_hz(np.array([118.0e6, 137.0e6]), 13).tolist()
    [1534000000.0, 1781000000.0]
    """
    positive(band_hz=band_hz)
    return band_hz * order


@cites(OWN_COMPUTATION.at("n f less the protected frequency"), returns="Hz")
def harmonic_offset_hz(
    carrier_hz: FloatOrArray, order: FloatOrArray, centre_hz: FloatOrArray
) -> FloatOrArray:
    """Return how far a harmonic lies from a protected frequency.

    Parameters
    ----------
    carrier_hz : float or array
        Carrier, not the name of a channel. [Hz]
    order : float or array
        Number of the harmonic. [1]
    centre_hz : float or array
        Protected frequency. [Hz]

    Returns
    -------
    float or array
        Offset, positive above it. [Hz]

    Raises
    ------
    ValueError
        If a frequency is not positive.

    Examples
    --------
    >>> harmonic_offset_hz(121.15e6, 13, 1575.42e6)
    -470000.0
    """
    positive(carrier_hz=carrier_hz, centre_hz=centre_hz)
    return carrier_hz * order - centre_hz


@cites(_INTERVALS, returns="Hz")
def subharmonic_band_hz(centre_hz: FloatOrArray, half_width_hz: FloatOrArray, order: int) -> Floats:
    """Return the band whose harmonic falls into a protected one.

    Parameters
    ----------
    centre_hz : float or array
        Middle of the protected band. [Hz]
    half_width_hz : float or array
        Half its width. [Hz]
    order : int
        Number of the harmonic. [1]

    Returns
    -------
    array
        Low and high end in the last axis. [Hz]

    Raises
    ------
    ValueError
        If the middle is not positive.

    Examples
    --------
    >>> np.round(subharmonic_band_hz(1575.42e6, 10e6, 12) / 1e6, 4).tolist()
    [130.4517, 132.1183]
    """
    positive(centre_hz=centre_hz)
    ends = (centre_hz - half_width_hz, centre_hz + half_width_hz)
    return np.stack(np.broadcast_arrays(*ends), axis=-1) / order


class Products(NamedTuple):
    """Mixing products of one order: who takes part, how many times each, and where they fall."""

    who: Integers
    weight: Integers
    band_hz: Floats


@cites(_INTERVALS, IEC_60050.at("order of an intermodulation product"), returns="1, 1, Hz")
def mixing_products(
    bands_hz: Floats, order: int, size: int = 2, together: Bools | None = None
) -> Products:
    """Return every mixing product of an order among transmitters that send together.

    Parameters
    ----------
    bands_hz : array
        Low and high end, one row a transmitter. [Hz]
    order : int
        Sum of the magnitudes of the weights, 2 to 7. [1]
    size : int
        Number of transmitters in a product, 2 or 3. [1]
    together : array, optional
        Symmetric matrix, True where two may transmit at one time; all of them without it. [1]

    Returns
    -------
    Products
        Places in `bands_hz`, weights, both of shape (products, size), and bands (products, 2),
        folded to positive frequencies. The first weight is positive. [1, 1, Hz]

    Raises
    ------
    ValueError
        If the order is not 2 to 7 or the size not 2 or 3.

    Notes
    -----
    Each end of a product is the sum of the ends that the signs call for.

    Examples
    --------
    >>> bands = np.array([[118.0e6, 137.0e6], [1025.0e6, 1150.0e6]])
    >>> found = mixing_products(bands, 3)
    >>> found.weight.tolist()
    [[1, 2], [1, -2], [2, 1], [2, -1]]
    >>> found.band_hz[3].tolist()
    [751000000.0, 914000000.0]
    """
    if not 2 <= order <= HIGHEST_ORDER or size not in (2, 3):
        raise ValueError(f"order must be 2 to {HIGHEST_ORDER} and size 2 or 3")
    who = _teams(len(bands_hz), size, together)
    weight = _weights(order, size)
    low_hz, high_hz = (
        np.minimum(weight, 0) @ far_hz[who].T + np.maximum(weight, 0) @ near_hz[who].T
        for near_hz, far_hz in (bands_hz.T, bands_hz.T[::-1])
    )
    folded = np.abs(np.stack([low_hz.T, high_hz.T], axis=-1).reshape(-1, 2))
    straddles = (low_hz.T < 0.0) & (high_hz.T > 0.0)
    least_hz = np.where(straddles.ravel(), 0.0, folded.min(axis=1))
    return Products(
        np.repeat(who, len(weight), axis=0),
        np.tile(weight, (len(who), 1)),
        np.stack([least_hz, folded.max(axis=1)], axis=-1),
    )


@cites(_INTERVALS, returns="1")
def reaches(product_hz: Floats, victim_hz: Floats) -> Bools:
    """Return which products may fall into which bands.

    Parameters
    ----------
    product_hz : array
        Low and high end, one row a product. [Hz]
    victim_hz : array
        Low and high end, one row a band. [Hz]

    Returns
    -------
    array
        Shape (products, bands), True where they overlap. [1]

    Notes
    -----
    An overlap of whole bands: some channels of them meet, not each.
    """
    below = product_hz[:, None, 0] <= victim_hz[None, :, 1]
    return np.asarray(below & (product_hz[:, None, 1] >= victim_hz[None, :, 0]))


@cites(TEXTBOOK_NOISE.at("third-order intercept"), HAUSMAN.at("two-tone products"), returns="dBm")
def third_order_dbm(
    near_dbm: FloatOrArray, far_dbm: FloatOrArray, intercept_dbm: FloatOrArray
) -> FloatOrArray:
    """Return the level of the product 2 f1 - f2 at the input of a receiver or amplifier.

    Parameters
    ----------
    near_dbm : float or array
        Level of the signal that enters twice. [dBm]
    far_dbm : float or array
        Level of the other one. [dBm]
    intercept_dbm : float or array
        Third-order intercept point at the input. [dBm]

    Returns
    -------
    float or array
        Level referred to the input. [dBm]

    Notes
    -----
    2 P1 + P2 - 2 IIP3. The product f1 + f2 - f3 of three equal signals is 6 dB stronger.

    Examples
    --------
    >>> third_order_dbm(-20.0, -20.0, 10.0)
    -80.0
    """
    return 2.0 * near_dbm + far_dbm - 2.0 * intercept_dbm


def _teams(count: int, size: int, together: Bools | None) -> Integers:
    """Return all groups of transmitters of which any two send together."""
    who = np.array(list(combinations(range(count), size)), dtype=np.int64).reshape(-1, size)
    if together is None:
        return who
    pairs = [together[who[:, a], who[:, b]] for a, b in combinations(range(size), 2)]
    return who[np.logical_and.reduce(pairs)]


@cache
def _weights(order: int, size: int) -> Integers:
    """Return all weights of some transmitters, none zero, the first positive."""
    return np.array(list(_signed(order, size)), dtype=np.int64).reshape(-1, size)


def _signed(order: int, size: int, first: bool = True) -> Iterator[tuple[int, ...]]:
    """Yield the ways to spread an order over some transmitters with signs."""
    signs = (1,) if first else (1, -1)
    if size == 1:
        yield from ((sign * order,) for sign in signs)
        return
    for own in range(1, order - size + 2):
        for rest in _signed(order - own, size - 1, first=False):
            yield from ((sign * own, *rest) for sign in signs)
