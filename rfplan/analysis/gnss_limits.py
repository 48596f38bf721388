# SPDX-License-Identifier: Apache-2.0
"""What level a GNSS receiver must bear at a frequency, and from which level on FAIL is certain."""

from __future__ import annotations

from dataclasses import dataclass
from functools import cache

import numpy as np
from numpy.typing import NDArray

from rfplan.model.gnss_masks import Mask, MaskCorner
from rfplan.physics.gnss_interference import noise_like_limit_dbm, piecewise_level_db

Floats = NDArray[np.float64]


@dataclass(frozen=True, slots=True)
class BearableLevel:
    """The limit, and the level that lies above every corner read next to the frequency.

    Between the two the limit rests on rows that were not read: no FAIL. Infinite where no corner
    on one of the sides was read.
    """

    limit_dbm: Floats
    fail_above_dbm: Floats


def bearable_at(mask: Mask, frequency_hz: Floats) -> BearableLevel:
    """Return what a mask over frequency allows; a bandwidth mask takes bandwidths."""
    at_hz = np.asarray(frequency_hz, dtype=float)
    corner_hz, corner_dbm = _corners(mask.corners)
    over_bandwidth = mask.corners[0].bandwidth_hz is not None
    limit_of = noise_like_limit_dbm if over_bandwidth else piecewise_level_db
    return BearableLevel(limit_of(at_hz, corner_hz, corner_dbm), _fail_above_dbm(mask, at_hz))


@cache
def least_density_dbm(mask: Mask) -> float:
    """Return the least level in 1 Hz that a mask over bandwidth allows, of noise that is wide.

    Any part of the noise is held against the mask; where its level rises no more with the
    bandwidth, more of the noise lies outside the receiver's band.
    """
    corner_hz, corner_dbm = _corners(mask.corners)
    widest_hz = corner_hz[int(np.argmax(corner_dbm))]
    slice_hz = np.geomspace(corner_hz[0], widest_hz, _SLICES)
    return float((bearable_at(mask, slice_hz).limit_dbm - 10.0 * np.log10(slice_hz)).min())


_SLICES = 2000


def _corners(corners: tuple[MaskCorner, ...]) -> tuple[Floats, Floats]:
    at_hz = [corner.frequency_hz or corner.bandwidth_hz or 0.0 for corner in corners]
    return np.array(at_hz), np.array([corner.level_dbm for corner in corners])


def _fail_above_dbm(mask: Mask, at_hz: Floats) -> Floats:
    """The higher of the nearest corners read at or below, and at or above, each frequency."""
    corner_hz, corner_dbm = _corners(tuple(c for c in mask.corners if c.status == "read"))
    level_dbm = np.concatenate([[np.inf], corner_dbm, [np.inf]])
    below = level_dbm[np.searchsorted(corner_hz, at_hz, side="right")]
    above = level_dbm[np.searchsorted(corner_hz, at_hz, side="left") + 1]
    return np.asarray(np.maximum(below, above))
