# SPDX-License-Identifier: Apache-2.0
"""Lines to dots: which dots a polyline or a circle covers."""

from __future__ import annotations

import numpy as np
from numpy.typing import NDArray

Floats = NDArray[np.float64]
Ints = NDArray[np.intp]


def stroke(
    points: Floats, *, thick: bool = False, dash: tuple[float, float] | None = None
) -> tuple[Ints, Ints]:
    """Return columns and rows of the dots on a polyline, shape (n, 2); NaN lifts the pen.

    Dot i covers i to i + 1. A thick line is two dots across. `dash` tells dots drawn and left out.
    """
    starts, steps = points[:-1], np.diff(points, axis=0)
    drawn = np.isfinite(steps).all(axis=1)
    starts, steps = starts[drawn], steps[drawn]
    count = np.ceil(np.abs(steps).max(axis=1, initial=0.0)).astype(np.intp) + 2
    segment = np.repeat(np.arange(len(steps)), count)
    index = np.arange(len(segment)) - np.repeat(np.cumsum(count) - count, count)
    part = index / (count[segment] - 1)
    if dash is not None:
        kept = _dashed(steps, segment, part, dash)
        segment, part = segment[kept], part[kept]
    spots = starts[segment] + steps[segment] * part[:, None]
    return _thickened(spots, steps[segment]) if thick else _whole(spots)


def _dashed(
    steps: Floats, segment: Ints, part: Floats, dash: tuple[float, float]
) -> NDArray[np.bool_]:
    """Which spots lie on a dash, by their way along the whole line."""
    length = np.hypot(steps[:, 0], steps[:, 1])
    before = np.cumsum(length) - length
    way = before[segment] + length[segment] * part
    return np.asarray((way + 1e-9) % sum(dash) < dash[0])


def _thickened(spots: Floats, steps: Floats) -> tuple[Ints, Ints]:
    """Two dots beside each other, across the way the line mostly runs."""
    flat = np.abs(steps[:, 0]) >= np.abs(steps[:, 1])
    half = np.where(flat[:, None], (0.0, 0.5), (0.5, 0.0))
    return _whole(np.concatenate([spots - half, spots + half]))


def _whole(spots: Floats) -> tuple[Ints, Ints]:
    dots = np.floor(spots).astype(np.intp)
    return dots[:, 0], dots[:, 1]


def circle(centre: tuple[float, float], radius: float) -> Floats:
    """Return a closed polyline round a centre, fine enough to look round in dots."""
    corners = max(24, min(720, int(np.ceil(2.0 * np.pi * radius))))
    angle = np.linspace(0.0, 2.0 * np.pi, corners + 1)
    return np.asarray(centre) + radius * np.stack([np.cos(angle), np.sin(angle)], axis=-1)
