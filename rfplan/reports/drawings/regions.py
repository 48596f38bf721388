# SPDX-License-Identifier: Apache-2.0
"""Zones and ground planes on a view: hatched by what they mean, tagged where there is room."""

from __future__ import annotations

from collections.abc import Iterable, Sequence

from rfplan.model.airframe import Airframe, Zone
from rfplan.reports.drawing_svg import XY, Drawing, number, text_width
from rfplan.reports.drawings.marks import PLANE, Tag
from rfplan.reports.drawings.paper import Window
from rfplan.reports.drawings.shapes import INFINITE, drawn_in, hull_outline, region_spans

TAG_SIZE = 2.2
TAG_HEIGHT = 2.8

Box = tuple[float, float, float, float]
"""Left, top, right and bottom on paper."""

_TRIED = (0.5, 0.2, 0.8, 0.35, 0.65, 0.08, 0.92)

_HATCHES = {
    "forbidden": (45, 1.5, "#8a4b08"),
    "edge": (90, 1.8, "#4d7ea8"),
    "removable": (135, 2.0, "#6b6b6b"),
    "hot": (20, 1.3, "#b03030"),
    "caution": (160, 2.4, "#8f7a1e"),
    "sensor": (0, 1.6, "#5b3f8c"),
    "allowed": (75, 3.0, "#3d8a4a"),
}
"""Angle, distance and colour of the lines, by what a zone means for an antenna."""


def define_hatches(drawing: Drawing) -> None:
    """Add the patterns that zones are filled with."""
    for name, (angle, step, colour) in _HATCHES.items():
        size = f'width="{number(step)}" height="{number(step)}"'
        turned = f'patternUnits="userSpaceOnUse" patternTransform="rotate({angle})"'
        way = f'd="M0 0V{number(step)}" style="stroke:{colour};stroke-width:.2"'
        drawing.define(f'<pattern id="{name}" {size} {turned}><path {way}/></pattern>')


def draw_regions(
    drawing: Drawing, window: Window, tags: Iterable[Tag], airframe: Airframe
) -> list[tuple[Tag, Box]]:
    """Draw the regions that a view shows; return the box in which each is seen."""
    outline = [window.xy(*one) for one in hull_outline(airframe, window.look)]
    boxes = ((tag, _draw_region(drawing, window, tag, outline)) for tag in tags)
    return [(tag, box) for tag, box in boxes if box is not None]


def _draw_region(drawing: Drawing, window: Window, tag: Tag, outline: Sequence[XY]) -> Box | None:
    """Draw one region; one on top or belly ends with the hull."""
    region = tag.region
    if not drawn_in(region.on, window.look):
        return None
    if isinstance(region, Zone) and region.at is not None:
        return _round(drawing, window, region, tag.hatch)
    box = _box(window, tag)
    if box is None:
        return None
    corner, size = box
    hull = outline if region.on in ("top", "belly") else ()
    if hull:
        drawing.clip_to(hull)
    if tag.hatch == PLANE:
        drawing.rect(corner, size, "plane")
    else:
        drawing.rect(corner, size, "zone", hatch=tag.hatch)
    if hull:
        drawing.end()
    return *corner, corner[0] + size[0], corner[1] + size[1]


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
    drawing.circle((x, y), radius, "zone", hatch=hatch)
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
    for tag, box in boxes:
        place = _free(box, text_width(tag.tag, TAG_SIZE) + 0.6, taken, caption)
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
