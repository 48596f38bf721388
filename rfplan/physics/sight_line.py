# SPDX-License-Identifier: Apache-2.0
"""What stands in the straight line between two points: the hull, and plates such as a wing."""

from __future__ import annotations

import numpy as np
from numpy.typing import NDArray

from rfplan.physics.skin_geometry import Hull, section_at
from rfplan.sources import OWN_COMPUTATION, cites

Floats = NDArray[np.float64]
Bools = NDArray[np.bool_]

SAMPLES = 33
"""Points along a line at which it may enter the hull."""

GRAZING_M = 1.0e-3
"""How far a line may dip below the skin: the thickness of the skin itself."""

_FREE_EDGES = (0, 1, 2)
"""Edges by the corner they start at; the fourth one is the root."""


@cites(OWN_COMPUTATION.at("superellipse inequality along the line"), returns="1")
def passes_clear(hull: Hull, a_m: Floats, b_m: Floats) -> Bools:
    """Return whether straight lines stay out of the hull.

    Parameters
    ----------
    hull : Hull
        Section arrays. [m]
    a_m, b_m : array
        Ends (FS, BL, WL) in the last axis. [m]

    Returns
    -------
    array
        True where no sample between the ends lies inside. [1]

    Notes
    -----
    33 samples; a dip of less than 1 mm counts as clear.
    """
    t = np.linspace(0.0, 1.0, SAMPLES)[1:-1, None]
    points = a_m[..., None, :] + t * (b_m - a_m)[..., None, :]
    half_width, middle, half_height, roundness = section_at(hull, points[..., 0])
    across = np.abs(points[..., 1]) / (half_width - GRAZING_M)
    up = np.abs(points[..., 2] - middle) / (half_height - GRAZING_M)
    inside = across**roundness + up**roundness < 1.0
    return np.asarray(~inside.any(axis=-1))


@cites(OWN_COMPUTATION.at("shortest way over the free edges of a plate"), returns="m")
def plate_detours_m(a_m: Floats, b_m: Floats, plates_m: Floats) -> Floats:
    """Return how much longer the way over the nearest edge of each plate is, where one blocks.

    Parameters
    ----------
    a_m, b_m : array
        Ends (FS, BL, WL) in the last axis, shape (lines, 3). [m]
    plates_m : array
        Corners of flat plates in order round them, beginning and ending at the root, which is no
        free edge; shape (plates, 4, 3). [m]

    Returns
    -------
    array
        Shape (lines, plates); zero where the line misses the plate. [m]

    Notes
    -----
    The point of an edge with the least sum of distances is found by turning the plane of one end
    about the edge into that of the other.
    """
    if not len(plates_m):
        return np.zeros((len(a_m), 0))
    a_m, b_m = a_m[:, None, :], b_m[:, None, :]
    straight = np.linalg.norm(b_m - a_m, axis=-1)
    ways = [_over_edge_m(a_m, b_m, plates_m[:, i], plates_m[:, (i + 1) % 4]) for i in _FREE_EDGES]
    detour = np.maximum(np.min(np.stack(ways), axis=0) - straight, 0.0)
    return np.where(_crosses(a_m, b_m, plates_m), detour, 0.0)


def _over_edge_m(a_m: Floats, b_m: Floats, start_m: Floats, stop_m: Floats) -> Floats:
    """Return the length of the shortest way from a to b by way of an edge."""
    edge = stop_m - start_m
    length = np.maximum(np.linalg.norm(edge, axis=-1), 1.0e-12)
    unit = edge / length[:, None]
    along_a, along_b = (np.sum((end - start_m) * unit, axis=-1) for end in (a_m, b_m))
    off_a, off_b = (
        np.linalg.norm(end - start_m - along[..., None] * unit, axis=-1)
        for end, along in ((a_m, along_a), (b_m, along_b))
    )
    both = np.maximum(off_a + off_b, 1.0e-12)
    along = np.clip((along_a * off_b + along_b * off_a) / both, 0.0, length)
    return np.asarray(np.hypot(off_a, along - along_a) + np.hypot(off_b, along - along_b))


def _crosses(a_m: Floats, b_m: Floats, plates_m: Floats) -> Bools:
    """Return which lines go through which plates, each taken as two triangles."""
    found = np.zeros(np.broadcast_shapes(a_m.shape[:-1], plates_m.shape[:1]), dtype=bool)
    for first, second, third in ((0, 1, 2), (0, 2, 3)):
        found |= _crosses_triangle(
            a_m, b_m, plates_m[:, first], plates_m[:, second], plates_m[:, third]
        )
    return found


def _crosses_triangle(a_m: Floats, b_m: Floats, p: Floats, q: Floats, r: Floats) -> Bools:
    """Return whether the ends lie on either side and the three volumes share a sign."""
    normal = np.cross(q - p, r - p)
    sides = np.sum((a_m - p) * normal, axis=-1) * np.sum((b_m - p) * normal, axis=-1)
    way = b_m - a_m
    volumes = np.stack(
        [np.sum(way * np.cross(u - a_m, v - a_m), axis=-1) for u, v in ((p, q), (q, r), (r, p))]
    )
    one_sided = (volumes >= 0.0).all(axis=0) | (volumes <= 0.0).all(axis=0)
    return np.asarray((sides < 0.0) & one_sided)
