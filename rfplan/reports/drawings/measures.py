# SPDX-License-Identifier: Apache-2.0
"""How far an antenna is from what can be measured on the aircraft: frame, centre line, zone."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass
from typing import Literal

from rfplan.model.airframe import Airframe, Plate, Zone
from rfplan.reports.drawings.marks import Mark, Tag
from rfplan.reports.drawings.shapes import BL, INFINITE, WL, Look, region_spans
from rfplan.units import Place

Ends = tuple[float, float]
Side = Literal["below", "beside", "above"]
"""On which side of the base a dimension stands."""


@dataclass(frozen=True, slots=True)
class Measure:
    """One distance in the plane of a view, between two points of it."""

    words: str
    length_m: float
    one: Ends
    other: Ends
    side: Side


def measures(mark: Mark, look: Look, airframe: Airframe, tags: Sequence[Tag]) -> list[Measure]:
    """Return the distances to what is near: edges of a plate or a frame, centre line, zone."""
    across = to_centre_line(mark, look), to_zone(mark, look, tags)
    return [*along(mark, look, airframe), *(one for one in across if one is not None)]


def along(mark: Mark, look: Look, airframe: Airframe) -> list[Measure]:
    """Return the distances along the station: to both edges of a plate, else to a frame."""
    plate = airframe.plates.get(mark.place.surface)
    return to_edges(mark, look, plate) if plate else [to_frame(mark, look, airframe)]


def to_edges(mark: Mark, look: Look, plate: Plate) -> list[Measure]:
    """Return the ways along the station to the leading and to the trailing edge of a plate."""
    fs_m, up_m = look.flat(mark.point)
    (lead, trail), (tip_lead, tip_trail) = plate.root, plate.tip
    root_m, tip_m = (_up(one, look) for one in (lead, tip_lead))
    part = (abs(up_m) - root_m) / (tip_m - root_m) if tip_m != root_m else 0.0
    leading_m = lead.fs_m + (tip_lead.fs_m - lead.fs_m) * part
    trailing_m = trail.fs_m + (tip_trail.fs_m - trail.fs_m) * part
    surface, here = mark.place.surface, (fs_m, up_m)
    return [
        Measure(f"aft of the leading edge of {surface}", *_between(leading_m, here), "below"),
        Measure(f"ahead of the trailing edge of {surface}", *_between(trailing_m, here), "above"),
    ]


def _up(place: Place, look: Look) -> float:
    return abs((place.wl_m or 0.0) if look.up == WL else place.bl_m)


def _between(edge_m: float, here: Ends) -> tuple[float, Ends, Ends]:
    return abs(here[0] - edge_m), (edge_m, here[1]), here


def to_frame(mark: Mark, look: Look, airframe: Airframe) -> Measure:
    """Return the way along the station to the nearest frame, else to the nearest hull section."""
    fs_m, up_m = look.flat(mark.point)
    known = {id: frame.fs_m for id, frame in airframe.frames.items()}
    stations = known or {"nose": airframe.sections[0].fs_m, "tail": airframe.sections[-1].fs_m}
    name = min(stations, key=lambda one: (abs(stations[one] - fs_m), one))
    at_m = stations[name]
    way = "aft of" if fs_m >= at_m else "ahead of"
    return Measure(f"{way} {name}", abs(fs_m - at_m), (at_m, up_m), (fs_m, up_m), "below")


def to_centre_line(mark: Mark, look: Look) -> Measure | None:
    """Return the way across to the centre line, in the plans."""
    if look.up != BL:
        return None
    fs_m, bl_m, _ = mark.point
    side = "right of" if bl_m > 0.0 else "left of"
    words = f"{side} the centre line" if abs(bl_m) > 1e-9 else "on the centre line"
    flat = look.flat(mark.point)
    return Measure(words, abs(bl_m), (fs_m, 0.0), flat, "beside")


def to_zone(mark: Mark, look: Look, tags: Sequence[Tag]) -> Measure | None:
    """Return the gap from the edge of the base to the nearest zone on the same skin."""
    gaps = [
        gap
        for tag in tags
        if isinstance(tag.region, Zone)
        and tag.region.on in (mark.place.surface, "all")
        and (gap := _gap(mark, look, tag)) is not None
    ]
    return min(gaps, key=lambda one: (one.length_m, one.words), default=None)


def _gap(mark: Mark, look: Look, tag: Tag) -> Measure | None:
    """The shortest way from the base to the rectangle of a zone; 0 where they meet."""
    spans, middle = region_spans(tag.region), look.flat(mark.point)
    half = mark.length_m / 2.0, mark.width_m / 2.0
    one, other = [0.0, 0.0], [0.0, 0.0]
    for place, axis in enumerate((look.right, look.up)):
        low, high = sorted(end * (look.sense if place else 1.0) for end in spans[axis])
        start, end = middle[place] - half[place], middle[place] + half[place]
        one[place], other[place] = _nearest(start, end, low, high, middle[place])
    if INFINITE in map(abs, other):
        return None
    gap_m = math.dist(one, other)
    words = f"clear of {tag.tag} {tag.id}" if gap_m > 1e-9 else f"in {tag.tag} {tag.id}"
    return Measure(words, gap_m, (one[0], one[1]), (other[0], other[1]), "above")


def _nearest(start: float, end: float, low: float, high: float, middle: float) -> Ends:
    """The points of two spans that are nearest to each other; the same one where they overlap."""
    if end < low:
        return end, low
    if start > high:
        return start, high
    inside = min(max(middle, low), high)
    return inside, inside
