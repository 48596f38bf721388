# SPDX-License-Identifier: Apache-2.0
"""Where do antennas stand? Places snapped to the skin, what skin and zones are there."""

from __future__ import annotations

import math
from collections.abc import Iterable, Sequence
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from rfplan.model.airframe import INSIDE, OUTER_HULL, Airframe, Panel, Plate, Zone
from rfplan.model.catalog import AntennaType
from rfplan.model.plan import Antenna, GroundPlane, Port
from rfplan.physics.skin_geometry import Hull, skin_normal, skin_point_m
from rfplan.units import Missing, Place, Range

Floats = NDArray[np.float64]
Bools = NDArray[np.bool_]

_EDGE_M = 1e-9
"""What lies on the edge of a region lies in it."""


@dataclass(frozen=True, slots=True)
class Places:
    """Any number of places on one surface: points and outward normals, shape (n, 3)."""

    on: str
    point_m: Floats
    normal: Floats

    @property
    def inside(self) -> bool:
        """Whether the surface lies inside the skin."""
        return self.on in INSIDE

    @property
    def across_m(self) -> Floats:
        """The second coordinate of the surface: water line on the sides, else butt line."""
        return self.point_m[:, 2 if self.on in ("left", "right") else 1]


@dataclass(frozen=True, slots=True)
class Fitted:
    """An antenna as it stands, with the radios it serves."""

    id: str
    antenna: Antenna
    type: AntennaType
    ports: tuple[Port, ...]
    radios: frozenset[str]
    families: frozenset[str]
    places: Places
    radius_m: float

    @property
    def point_m(self) -> tuple[float, float, float]:
        """The middle of the base."""
        x, y, z = self.places.point_m[0]
        return float(x), float(y), float(z)

    @property
    def most_power_w(self) -> float:
        """The most power of any transmitter behind it; 0 for receivers."""
        highs = [port.power_w.high for port in self.ports if port.power_w is not None]
        return max((high for high in highs if not isinstance(high, Missing)), default=0.0)


def hull_of(airframe: Airframe) -> Hull:
    """Return the section arrays of an airframe."""
    rows = airframe.sections
    return Hull(
        np.array([row.fs_m for row in rows]),
        np.array([row.half_width_m for row in rows]),
        np.array([row.bottom_m for row in rows]),
        np.array([row.top_m for row in rows]),
        np.array([row.roundness for row in rows]),
    )


def _plate_normal(plate: Plate) -> Floats:
    lead, trail, tip = (
        np.array([p.fs_m, p.bl_m, p.wl_m or 0.0]) for p in (*plate.root, plate.tip[0])
    )
    normal = np.cross(trail - lead, tip - lead)
    upward = normal if normal[2] > 0.0 or (normal[2] == 0.0 and normal[1] < 0.0) else -normal
    return np.asarray(upward / np.linalg.norm(upward))


def snap(airframe: Airframe, hull: Hull, on: str, at: Iterable[Place]) -> Places:
    """Return places on their surface; on the outer hull the skin gives the third coordinate."""
    rows = list(at)
    fs = np.array([place.fs_m for place in rows])
    bl = np.array([place.bl_m for place in rows])
    wl = np.array([np.nan if place.wl_m is None else place.wl_m for place in rows])
    if on in OUTER_HULL:
        across = wl if on in ("left", "right") else bl
        return hull_places(hull, on, fs, across)
    point = np.stack([fs, bl, np.nan_to_num(wl)], axis=-1)
    up = np.array([0.0, 0.0, 1.0])
    normal = _plate_normal(airframe.plates[on]) if on in airframe.plates else up
    return Places(on, point, np.broadcast_to(normal, point.shape))


def hull_places(hull: Hull, on: str, fs_m: Floats, across_m: Floats) -> Places:
    """Return places of the outer hull from station and butt line (or water line on a side)."""
    return Places(on, skin_point_m(hull, on, fs_m, across_m), skin_normal(hull, on, fs_m, across_m))


def _within(span: Range | None, value: Floats) -> Bools:
    """Return where a coordinate lies in a span; what is off the hull lies in none."""
    if span is None:
        return ~np.isnan(value)
    low, high = _ends(span)
    return (value >= low - _EDGE_M) & (value <= high + _EDGE_M)


def covers(region: Panel | Zone | GroundPlane, places: Places) -> Bools:
    """Return at which places a region of the skin lies; `on` must fit, then spans or radius."""
    point = places.point_m
    if not lies_on(region.on, places.on):
        return np.zeros(len(point), dtype=bool)
    if isinstance(region, Zone) and region.at is not None:
        return np.asarray(clearances_m([region], places, np.zeros(2))[0] <= _EDGE_M)
    wl = None if isinstance(region, GroundPlane) else region.wl_m
    return (
        _within(region.fs_m, point[:, 0])
        & _within(region.bl_m, point[:, 1])
        & _within(wl, point[:, 2])
    )


def covers_point(region: Zone, point: tuple[float, float, float]) -> bool:
    """Whether one point lies in a region, whatever its surface; `covers` does it for many."""
    if any(map(math.isnan, point)):
        return False
    if region.at is not None:
        return from_middle_m(region.at, point) <= _radius_m(region) + _EDGE_M
    return all(
        span is None or _reaches(span, coordinate)
        for span, coordinate in zip(_spans(region), point, strict=True)
    )


def from_middle_m(at: Place, point: tuple[float, float, float]) -> float:
    """Return how far a point is from a place, seen from above where that has no water line."""
    wl_m = point[2] if at.wl_m is None else at.wl_m
    return math.dist((at.fs_m, at.bl_m, wl_m), point)


def _reaches(span: Range, coordinate: float) -> bool:
    low, high = _ends(span)
    return low - _EDGE_M <= coordinate <= high + _EDGE_M


def lies_on(on: str | None, surface: str) -> bool:
    """Whether a region said to be `on` something reaches a surface."""
    return on in (None, "all", surface) or (on == "side" and surface in ("left", "right"))


def panel_at(airframe: Airframe, places: Places) -> list[str | None]:
    """Return, for each place, the id of the first skin panel that fits."""
    found: list[str | None] = [None] * len(places.point_m)
    for id, panel in airframe.skin.items():
        for index in np.flatnonzero(covers(panel, places)):
            found[index] = found[index] or id
    return found


def clearances_m(regions: Sequence[Zone | GroundPlane], places: Places, grown: Floats) -> Floats:
    """Return the distance of base edges from each region of the skin; negative inside it.

    Shape (regions, places). `grown` holds half the base length and width, by which a region
    counts as larger. A region round a place without water line is seen from above.
    """
    ends = np.array([[_ends(span) for span in _spans(region)] for region in regions])
    half = np.array([grown[0], grown[1], grown[1]])
    point = places.point_m[None, :, :]
    beyond = np.maximum(ends[:, None, :, 0] - point, point - ends[:, None, :, 1]) - half
    outside = lengths_m(np.maximum(beyond, 0.0))
    edge_m = np.array([[_radius_m(region)] for region in regions])
    return np.asarray(np.where(outside > 0.0, outside, beyond.max(axis=-1)) - edge_m)


def lengths_m(vectors_m: Floats) -> Floats:
    """Return the lengths of vectors in the last axis; for a few np.linalg.norm takes longer."""
    return np.asarray(np.sqrt((vectors_m * vectors_m).sum(axis=-1)))


def _radius_m(region: Zone | GroundPlane) -> float:
    return (region.radius_m or 0.0) if isinstance(region, Zone) and region.at is not None else 0.0


def _spans(region: Zone | GroundPlane) -> tuple[Range | None, Range | None, Range | None]:
    if isinstance(region, Zone) and region.at is not None:
        fs_m, bl_m, wl_m = region.at.fs_m, region.at.bl_m, region.at.wl_m
        return Range(fs_m, fs_m), Range(bl_m, bl_m), None if wl_m is None else Range(wl_m, wl_m)
    return region.fs_m, region.bl_m, None if isinstance(region, GroundPlane) else region.wl_m


def _ends(span: Range | None) -> tuple[float, float]:
    if span is None:
        return -np.inf, np.inf
    low = -np.inf if isinstance(span.low, Missing) else span.low
    return low, np.inf if isinstance(span.high, Missing) else span.high


def half_base_m(type: AntennaType) -> Floats:
    """Return half the base length and width, zero where the type states no base."""
    base = type.base
    return np.array([base.length_m, base.width_m]) / 2.0 if base else np.zeros(2)
