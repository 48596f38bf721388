# SPDX-License-Identifier: Apache-2.0
"""Outlines of the aircraft in metres: hull, sections, plates, and which way each view looks."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

import numpy as np

from rfplan.analysis.placement import hull_of
from rfplan.model.airframe import Airframe, Zone
from rfplan.model.plan import GroundPlane
from rfplan.physics.skin_geometry import point_at_angle_m, section_at
from rfplan.units import Missing, Place, Range

Point = tuple[float, float, float]
Span = tuple[float, float]

FS, BL, WL = 0, 1, 2

SECTION_POINTS = 97
INFINITE = float("inf")


@dataclass(frozen=True, slots=True)
class Look:
    """A way of looking: the axes to the right and up the page, the sense of the second."""

    title: str
    right: int
    up: int
    sense: float
    shows: tuple[str, ...]

    def flat(self, point: Point) -> tuple[float, float]:
        """Return a point as this view sees it, right and up."""
        return point[self.right], point[self.up] * self.sense


ABOVE = Look("Plan, seen from above", FS, BL, 1.0, ("top",))
LEFT = Look("Side, seen from the left", FS, WL, 1.0, ("left", "right"))
BELOW = Look("Plan, seen from below", FS, BL, -1.0, ("belly",))


def hull_outline(airframe: Airframe, look: Look) -> list[tuple[float, float]]:
    """Return the hull as a view sees it, once round."""
    rows = airframe.sections
    if look.up == WL:
        upper = [(row.fs_m, row.top_m) for row in rows]
        lower = [(row.fs_m, row.bottom_m) for row in rows]
    else:
        upper = [(row.fs_m, row.half_width_m) for row in rows]
        lower = [(row.fs_m, -row.half_width_m) for row in rows]
    return [*upper, *reversed(lower)]


def section_outline(airframe: Airframe, fs_m: float) -> list[tuple[float, float]]:
    """Return butt and water lines round the hull at a station; nothing ahead or aft of it."""
    hull = hull_of(airframe)
    if not hull.fs_m[0] <= fs_m <= hull.fs_m[-1]:
        return []
    angles = np.linspace(-np.pi, np.pi, SECTION_POINTS)
    points = point_at_angle_m(hull, np.full(SECTION_POINTS, fs_m), angles)
    return [(float(bl), float(wl)) for _, bl, wl in points]


def half_width_m(airframe: Airframe, fs_m: float) -> float:
    """Return how wide the hull is at a station, 0 where there is none."""
    half, *_ = section_at(hull_of(airframe), np.array([fs_m]))
    return 0.0 if np.isnan(half[0]) else float(half[0])


def plates(airframe: Airframe) -> Iterator[tuple[str, list[Point]]]:
    """Yield the corners of each plate, and of its mirror image on the other side."""
    for id, plate in airframe.plates.items():
        corners = [_point(one) for one in (*plate.root, *reversed(plate.tip))]
        yield id, corners
        if plate.mirror:
            yield id, [(fs, -bl, wl) for fs, bl, wl in corners]


def _point(place: Place) -> Point:
    return place.fs_m, place.bl_m, place.wl_m or 0.0


def span_of(span: Range | None) -> Span:
    """Return both ends of a range; an end that is not there lies without bounds."""
    if span is None:
        return -INFINITE, INFINITE
    low = -INFINITE if isinstance(span.low, Missing) else span.low
    return low, INFINITE if isinstance(span.high, Missing) else span.high


def region_spans(region: Zone | GroundPlane) -> tuple[Span, Span, Span]:
    """Return how far a region reaches along each axis."""
    wl = None if isinstance(region, GroundPlane) else region.wl_m
    return span_of(region.fs_m), span_of(region.bl_m), span_of(wl)


def drawn_in(on: str | None, look: Look) -> bool:
    """Whether a region on a surface is drawn in a view: on its own side, or free in space."""
    if on is None or on in look.shows or on == "all":
        return True
    if on in ("belly", "top", "left", "right"):
        return False
    return look is not BELOW if on != "side" else look is LEFT
