# SPDX-License-Identifier: Apache-2.0
"""Pairs of channels of two transmitters with a mixing product in a band, counted without a list."""

from __future__ import annotations

from typing import NamedTuple

import numpy as np
from numpy.typing import NDArray

from rfplan.physics.domain import positive
from rfplan.sources import OWN_COMPUTATION, cites

Floats = NDArray[np.float64]
Integers = NDArray[np.int64]

SLACK_HZ = 1.0
"""A product this near outside a band is still in it: carriers are thirds of 25 kHz."""


@cites(OWN_COMPUTATION.at("runs of channels, their union counted"), returns="1")
def channel_pair_count(
    first_hz: Floats, second_hz: Floats, weight: Integers, low_hz: float, high_hz: float
) -> int:
    """Return how many pairs of channels have at least one of some products in a band.

    Parameters
    ----------
    first_hz : array
        Carriers of one transmitter. [Hz]
    second_hz : array
        Carriers of the other one, rising. [Hz]
    weight : array
        How many times each carrier enters, shape (products, 2), none zero. [1]
    low_hz, high_hz : float
        Ends of the band, both included. [Hz]

    Returns
    -------
    int
        Pairs, each counted once. [1]

    Raises
    ------
    ValueError
        If a carrier is not positive.

    Notes
    -----
    For one carrier of the first and one product, the carriers of the second that bring it into the
    band lie in one run. Counted is the union of the runs of all products, either sign.

    Examples
    --------
    >>> channels = np.arange(118.0e6, 136.9751e6, 25.0e3)
    >>> third = np.array([[2, -1], [1, -2]])
    >>> channel_pair_count(channels, channels, third, 108.0e6, 117.975e6)
    224000
    """
    positive(first_hz=first_hz, second_hz=second_hz)
    rest_hz, times = _rest_hz(first_hz, weight)
    ends_hz = [(edge_hz - rest_hz) / times for edge_hz in (low_hz - SLACK_HZ, high_hz + SLACK_HZ)]
    start = np.searchsorted(second_hz, np.minimum(*ends_hz), side="left")
    stop = np.searchsorted(second_hz, np.maximum(*ends_hz), side="right")
    rising = np.argsort(start, axis=0)
    start, stop = (np.take_along_axis(one, rising, axis=0) for one in (start, stop))
    reached = np.maximum.accumulate(stop, axis=0)
    told = np.concatenate([np.zeros_like(reached[:1]), reached[:-1]])
    return int(np.maximum(stop - np.maximum(start, told), 0).sum())


class NearestPair(NamedTuple):
    """A pair of channels by their places, with the signed weights and where the product falls."""

    first: int
    second: int
    weight: tuple[int, int]
    lands_hz: float


@cites(OWN_COMPUTATION.at("n f1 + m f2 nearest to the middle"), returns="1, 1, 1, Hz")
def nearest_channel_pair(
    first_hz: Floats, second_hz: Floats, weight: Integers, low_hz: float, high_hz: float
) -> NearestPair | None:
    """Return the pair of channels with a product nearest to the middle of a band.

    Parameters
    ----------
    first_hz : array
        Carriers of one transmitter, rising. [Hz]
    second_hz : array
        Carriers of the other one, rising. [Hz]
    weight : array
        How many times each carrier enters, shape (products, 2), none zero. [1]
    low_hz, high_hz : float
        Ends of the band, both included. [Hz]

    Returns
    -------
    NearestPair or None
        Places of the two channels, signed weights, product; None where no product is in the
        band. Of equally near pairs that of the lowest channels. [1, 1, 1, Hz]

    Raises
    ------
    ValueError
        If a carrier is not positive.

    Examples
    --------
    >>> channels = np.arange(118.0e6, 136.9751e6, 25.0e3)
    >>> pair = nearest_channel_pair(channels, channels, np.array([[2, -1]]), 108.0e6, 117.975e6)
    >>> float(channels[pair.first]), float(channels[pair.second]), pair.weight, pair.lands_hz
    (118000000.0, 123000000.0, (2, -1), 113000000.0)
    """
    positive(first_hz=first_hz, second_hz=second_hz)
    if not first_hz.size or not second_hz.size:
        return None
    middle_hz = (low_hz + high_hz) / 2.0
    rest_hz, times = _rest_hz(first_hz, weight)
    between_hz = (second_hz[1:] + second_hz[:-1]) / 2.0
    second = np.searchsorted(between_hz, (middle_hz - rest_hz) / times)
    lands_hz = rest_hz + times * second_hz[second]
    off_hz = np.round(np.abs(lands_hz - middle_hz))
    first = np.broadcast_to(np.arange(first_hz.size), second.shape)
    best = np.lexsort((second.ravel(), first.ravel(), off_hz.ravel()))[0]
    row, place = np.unravel_index(best, second.shape)
    if off_hz[row, place] > (high_hz - low_hz) / 2.0 + SLACK_HZ:
        return None
    own, other = _either_sign(weight)[row].tolist()
    return NearestPair(
        int(place), int(second[row, place]), (own, other), float(lands_hz[row, place])
    )


def _either_sign(weight: Integers) -> Integers:
    """Return products with both signs: a negative difference is the same line as a positive."""
    return np.concatenate([weight, -weight])


def _rest_hz(first_hz: Floats, weight: Integers) -> tuple[Floats, Floats]:
    """Return what the first carrier gives to each product, and how often the second enters."""
    own, times = _either_sign(weight).astype(np.float64).T[:, :, None]
    return own * first_hz, times
