# SPDX-License-Identifier: Apache-2.0
"""The aircraft as lines in metres: hull, plates and regions, and what of them a view may show."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from itertools import pairwise

import numpy as np
from numpy.typing import NDArray

from rfplan.model.airframe import Airframe
from rfplan.physics.skin_geometry import (
    Floats,
    Hull,
    point_at_angle_m,
    section_at,
    superellipse_offset_m,
)
from rfplan.tui.layout import ViewKind
from rfplan.tui.projection import View
from rfplan.units import Missing, Place, Range

Bools = NDArray[np.bool_]

AXES = {ViewKind.PLAN: (0, 1), ViewKind.SIDE: (0, 2), ViewKind.SECTION: (1, 2)}
"""Which two coordinates of a point each view shows."""

SECTION_CORNERS = 181
EDGE_SPOTS = 65


@dataclass(frozen=True, slots=True)
class Extent:
    """How far an airframe reaches. All in metres."""

    fs_m: tuple[float, float]
    wl_m: tuple[float, float]
    hull_wl_m: tuple[float, float]
    half_width_m: float


def extent(airframe: Airframe, hull: Hull) -> Extent:
    """Return the reach of hull and plates; the width is the hull's, since views cut the wing."""
    corners = np.concatenate([np.zeros((0, 3)), *(edge for _, edge in plate_edges_m(airframe))])
    bottom, top = float(hull.bottom_m.min()), float(hull.top_m.max())
    return Extent(
        _span(np.append(corners[:, 0], hull.fs_m)),
        _span(np.append(corners[:, 2], (bottom, top))),
        (bottom, top),
        float(hull.half_width_m.max()),
    )


def _span(values_m: Floats) -> tuple[float, float]:
    return float(values_m.min()), float(values_m.max())


def hull_outline_m(hull: Hull, kind: ViewKind, station_m: float | None) -> Floats:
    """Return the closed outline of the hull in a view, shape (n, 3); empty off its stations."""
    if kind is ViewKind.SECTION:
        angle_rad = np.linspace(-np.pi, np.pi, SECTION_CORNERS)
        return point_at_angle_m(hull, np.full(SECTION_CORNERS, station_m or 0.0), angle_rad)
    middle_m = (hull.top_m + hull.bottom_m) / 2.0
    zero_m = np.zeros_like(hull.fs_m)
    if kind is ViewKind.PLAN:
        one = np.stack([hull.fs_m, -hull.half_width_m, middle_m], axis=-1)
        other = np.stack([hull.fs_m, hull.half_width_m, middle_m], axis=-1)
    else:
        one = np.stack([hull.fs_m, zero_m, hull.top_m], axis=-1)
        other = np.stack([hull.fs_m, zero_m, hull.bottom_m], axis=-1)
    return np.concatenate([one, other[::-1], one[:1]])


def is_in_hull(
    hull: Hull, kind: ViewKind, right_m: Floats, down_m: Floats, station_m: float | None
) -> Bools:
    """Return whether spots of a view, in its two coordinates, lie inside the hull's outline."""
    if kind is ViewKind.SECTION:
        half_width_m, middle_m, half_height_m, roundness = section_at(
            hull, np.asarray(station_m or 0.0)
        )
        reach_m = superellipse_offset_m(down_m - middle_m, half_height_m, half_width_m, roundness)
        return np.asarray(np.abs(right_m) < reach_m)
    half_width_m, middle_m, half_height_m, _ = section_at(hull, right_m)
    if kind is ViewKind.PLAN:
        return np.asarray(np.abs(down_m) < half_width_m)
    return np.asarray(np.abs(down_m - middle_m) < half_height_m)


def cells_in_hull(view: View, hull: Hull) -> Bools:
    """Return which cells of a view's area lie wholly inside the hull."""
    corners = [view.grid_m(row, column) for row in (0.0, 1.0) for column in (0.0, 1.0)]
    inside = [is_in_hull(hull, view.kind, *corner, view.station_m) for corner in corners]
    return np.asarray(np.all(inside, axis=0))


def outside_hull(hull: Hull, view: View, points_m: Floats) -> Floats:
    """Return points with NaN where a view would show them across the hull."""
    right, down = AXES[view.kind]
    shown = points_m[:, right], points_m[:, down]
    hidden = is_in_hull(hull, view.kind, *shown, view.station_m)
    return np.where(hidden[:, None], np.nan, points_m)


def _corner(place: Place) -> tuple[float, float, float]:
    return place.fs_m, place.bl_m, place.wl_m or 0.0


def plate_edges_m(airframe: Airframe) -> Iterator[tuple[str, Floats]]:
    """Yield id and closed edge of every plate, the other side of a mirrored one too."""
    for id, plate in airframe.plates.items():
        (lead, trail), (tip_lead, tip_trail) = plate.root, plate.tip
        around = (lead, tip_lead, tip_trail, trail, lead)
        edge_m = np.array([_corner(place) for place in around])
        yield id, edge_m
        if plate.mirror:
            yield id, edge_m * (1.0, -1.0, 1.0)


def is_upright(airframe: Airframe, on: str) -> bool:
    """Whether a surface is seen from the side: a side of the hull, or a plate that stands."""
    plate = airframe.plates.get(on)
    return on in ("left", "right") or (plate is not None and not plate.mirror)


def cut_m(edge_m: Floats, station_m: float) -> Floats:
    """Return where a plane across a station cuts the edge of a plate, two points or none."""
    cuts: list[Floats] = []
    for start_m, end_m in pairwise(edge_m):
        if (start_m[0] <= station_m) != (end_m[0] <= station_m):
            part = (station_m - start_m[0]) / (end_m[0] - start_m[0])
            cuts.append(start_m + part * (end_m - start_m))
    return np.array(cuts[:2]).reshape(-1, 3)


def walked(edge_m: Floats, spots: int = EDGE_SPOTS) -> Floats:
    """Return a polyline with every side cut into many, so that parts of it can be left out."""
    part = np.linspace(0.0, 1.0, spots)[:, None]
    sides = [start + part * (end - start) for start, end in pairwise(edge_m)]
    return np.concatenate(sides) if sides else edge_m


def is_in_polygon(right_m: Floats, down_m: Floats, edge_m: Floats) -> Bools:
    """Return whether spots lie inside a closed polygon of shape (n, 2), by the even-odd rule."""
    shape = np.broadcast_shapes(right_m.shape, down_m.shape)
    inside = np.zeros(shape, dtype=np.bool_)
    for (x_m, y_m), (next_x_m, next_y_m) in pairwise(edge_m):
        if y_m == next_y_m:
            continue
        crosses = (y_m > down_m) != (next_y_m > down_m)
        inside ^= crosses & (right_m < x_m + (next_x_m - x_m) * (down_m - y_m) / (next_y_m - y_m))
    return inside


def bounds_m(span: Range | None, within_m: tuple[float, float]) -> tuple[float, float]:
    """Return both ends of a range; one that is absent or missing reaches as far as `within_m`."""
    if span is None:
        return within_m
    low, high = span.low, span.high
    return (
        within_m[0] if isinstance(low, Missing) else low,
        within_m[1] if isinstance(high, Missing) else high,
    )


def rectangle_m(fs_m: tuple[float, float], across_m: tuple[float, float], kind: ViewKind) -> Floats:
    """Return the closed edge of a rectangle of a plan or side view, shape (5, 3)."""
    (fore, aft), (low, high) = fs_m, across_m
    around = ((fore, low), (aft, low), (aft, high), (fore, high), (fore, low))
    edge_m = np.zeros((5, 3))
    edge_m[:, AXES[kind]] = around
    return edge_m
