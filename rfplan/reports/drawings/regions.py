# SPDX-License-Identifier: Apache-2.0
"""Zones and ground planes on a view: hatched by what they mean, tagged where there is room."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from contextlib import nullcontext

from rfplan.model.airframe import Airframe, Zone
from rfplan.reports.drawing import Drawing, box, text_width
from rfplan.reports.drawings.hatching import hatched, round_outline
from rfplan.reports.drawings.marks import PLANE, Tag
from rfplan.reports.drawings.paper import Window
from rfplan.reports.drawings.shapes import INFINITE, drawn_in, hull_outline, region_spans
from rfplan.reports.strokes import XY, Points

TAG_SIZE = 2.2
TAG_HEIGHT = 2.8

Box = tuple[float, float, float, float]
"""Left, top, right and bottom on paper."""

_TRIED = (0.5, 0.2, 0.8, 0.35, 0.65, 0.08, 0.92)


def draw_regions(
    drawing: Drawing, window: Window, tags: Iterable[Tag], airframe: Airframe
) -> list[tuple[Tag, Box]]:
    """Draw the regions that a view shows, zones over planes; return the box of each seen."""
    outline = [window.xy(*one) for one in hull_outline(airframe, window.look)]
    ordered = sorted(tags, key=lambda tag: tag.hatch != PLANE)
    boxes = [(tag, _draw_region(drawing, window, tag, outline)) for tag in ordered]
    return [(tag, box) for tag, box in boxes if box is not None]


def _draw_region(drawing: Drawing, window: Window, tag: Tag, hull: Sequence[XY]) -> Box | None:
    """Draw one region; one on top or belly ends with the hull."""
    region = tag.region
    if not drawn_in(region.on, window.look):
        return None
    if isinstance(region, Zone) and region.at is not None:
        return _round(drawing, window, region, tag.hatch)
    found = _box(window, tag)
    if found is None:
        return None
    corner, size = found
    with drawing.within(hull) if region.on in ("top", "belly") else nullcontext():
        draw_patch(drawing, box(corner, size), tag.hatch)
    return *corner, corner[0] + size[0], corner[1] + size[1]


def draw_patch(drawing: Drawing, outline: Points, hatch: str) -> None:
    """Draw a ground plane in its tint, or a zone with its hatching."""
    if hatch == PLANE:
        drawing.outline(outline, "plane")
    else:
        drawing.runs(hatched(outline, hatch), hatch)
        drawing.outline(outline, "zone")


def _box(window: Window, tag: Tag) -> tuple[XY, XY] | None:
    """The rectangle of a region as the view sees it; None without bounds across the view."""
    spans, look = region_spans(tag.region), window.look
    right, up = spans[look.right], spans[look.up]
    if INFINITE in (abs(right[0]), abs(right[1]), abs(up[0]), abs(up[1])):
        return None
    ends = sorted(end * look.sense for end in up)
    return window.box(right, (ends[0], ends[1]))


def _round(drawing: Drawing, window: Window, zone: Zone, hatch: str) -> Box | None:
    assert zone.at is not None
    point = zone.at.fs_m, zone.at.bl_m, zone.at.wl_m or 0.0
    radius = (zone.radius_m or 0.0) * window.per_m
    if not window.holds(*window.look.flat(point)) or not radius:
        return None
    x, y = window.of(point)
    drawing.runs(hatched(round_outline((x, y), radius), hatch), hatch)
    drawing.circle((x, y), radius, "zone")
    return x - radius, y - radius, x + radius, y + radius


def draw_tags(
    drawing: Drawing,
    boxes: Iterable[tuple[Tag, Box]],
    occupied: Sequence[Box],
    caption: Box | None = None,
) -> None:
    """Write the tag of each region inside it, where nothing else is drawn if it can be had.

    A region of which nothing is seen but what the caption covers has no tag.
    """
    taken = list(occupied)
    for tag, seen in boxes:
        place = _free(seen, text_width(tag.tag, TAG_SIZE) + 0.6, taken, caption)
        if place is None:
            continue
        taken.append(place)
        left, top, right, bottom = place
        drawing.rect((left, top), (right - left, bottom - top), "paper")
        drawing.text(((left + right) / 2.0, bottom - 0.6), tag.tag, TAG_SIZE, anchor="middle")


def _free(box: Box, width: float, taken: Sequence[Box], caption: Box | None) -> Box | None:
    """A place for a tag inside a box, free if it can be had; None where it does not fit."""
    left, top, right, bottom = box
    places = [
        _around(left + (right - left) * across, top + (bottom - top) * down, width)
        for down in _TRIED
        for across in _TRIED
    ]
    inside = [one for one in places if _within(one, box)]
    inside = [one for one in inside if caption is None or not overlap(one, caption)]
    free = (one for one in inside if not any(overlap(one, other) for other in taken))
    return next(free, inside[0] if inside else None)


def _around(x: float, y: float, width: float) -> Box:
    return x - width / 2.0, y - TAG_HEIGHT / 2.0, x + width / 2.0, y + TAG_HEIGHT / 2.0


def _within(one: Box, box: Box) -> bool:
    return one[0] >= box[0] and one[1] >= box[1] and one[2] <= box[2] and one[3] <= box[3]


def overlap(one: Box, other: Box) -> bool:
    """Whether two boxes on paper have something in common."""
    return one[0] < other[2] and other[0] < one[2] and one[1] < other[3] and other[1] < one[3]


def along(one: XY, other: XY, step: float = 1.5) -> list[Box]:
    """Return small boxes along a line, so that nothing is written across it."""
    reach = max(abs(other[0] - one[0]), abs(other[1] - one[1]))
    count = max(1, int(reach / step))
    points = [
        (
            one[0] + (other[0] - one[0]) * place / count,
            one[1] + (other[1] - one[1]) * place / count,
        )
        for place in range(count + 1)
    ]
    return [(x - 0.4, y - 0.4, x + 0.4, y + 0.4) for x, y in points]
