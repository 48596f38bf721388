# SPDX-License-Identifier: Apache-2.0
"""One antenna with its surroundings and dimensions, and the section of the hull it stands on."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from rfplan.model.airframe import Airframe
from rfplan.reports.cells import LengthUnit, length
from rfplan.reports.drawing import Drawing, fitted, text_width
from rfplan.reports.drawings.dimensions import Dimension, dimension_of, draw_dimension
from rfplan.reports.drawings.marks import Mark, Subject
from rfplan.reports.drawings.measures import Measure, measures
from rfplan.reports.drawings.paper import (
    Window,
    bounds,
    caption_box,
    centred,
    draw_caption,
    scale_for,
)
from rfplan.reports.drawings.regions import Box, draw_regions, draw_tags, overlap
from rfplan.reports.drawings.section import draw_section
from rfplan.reports.drawings.shapes import ABOVE, BELOW, LEFT, Look
from rfplan.reports.drawings.views import (
    SMALL,
    antenna_box,
    draw_antenna,
    draw_balloon,
    draw_frames,
    draw_structure,
)
from rfplan.reports.strokes import XY

CELL: XY = (246.0, 75.0)
HEADER = 9.5
FOOT = 4.5
GAP = 3.0
MARGIN_M = 0.03
EDGE = 11.0
"""What is shown round the antenna and the features it is measured from, in metres and on paper."""

FARTHEST_M = 1.6
"""A feature farther off is told in words and not drawn."""


def look_at(mark: Mark, airframe: Airframe) -> Look:
    """Return the way of looking in which an antenna is dimensioned."""
    surface = mark.place.surface
    if surface == "belly":
        return BELOW
    upright = surface in airframe.plates and abs(mark.place.normal[2]) < 0.5
    return LEFT if upright or surface in ("left", "right") else ABOVE


def draw_cell(drawing: Drawing, corner: XY, mark: Mark, subject: Subject) -> None:
    """Draw detail and section of one antenna in its cell."""
    airframe, units = subject.airframe, subject.units
    drawing.rect(corner, CELL)
    _header(drawing, corner, mark, units)
    look = look_at(mark, airframe)
    told = measures(mark, look, airframe, subject.tags)
    drawn = [one for one in told if _is_drawn(one, mark, airframe)]
    height = CELL[1] - HEADER - FOOT - GAP
    left = (CELL[0] - 3.0 * GAP) * 0.58
    right = CELL[0] - 3.0 * GAP - left
    box = corner[0] + GAP, corner[1] + HEADER
    seen = _Seen(mark, look, drawn)
    _detail(drawing, _window(seen, box, (left, height)), seen, subject)
    draw_section(drawing, ((box[0] + left + GAP, box[1]), (right, height)), mark, subject)
    _foot(drawing, corner, told, units)


@dataclass(frozen=True, slots=True)
class _Seen:
    """An antenna as a detail shows it, with the distances drawn."""

    mark: Mark
    look: Look
    drawn: Sequence[Measure]


def _header(drawing: Drawing, corner: XY, mark: Mark, units: LengthUnit) -> None:
    x, y = corner
    draw_balloon(drawing, (x + 5.0, y + 4.6), mark)
    fs, bl, wl = mark.told(units)
    drawing.text((x + 9.5, y + 4.2), mark.id, 3.2, "strong")
    told = f"{mark.place.type} on {mark.place.surface}, {mark.change}"
    drawing.text((x + 9.5, y + 7.9), fitted(told, SMALL, 84.0), SMALL, "grey")
    place = f"FS {fs}   BL {bl}   WL {wl}   {units}"
    drawing.text((x + CELL[0] - GAP, y + 4.6), place, 2.8, "strong", anchor="end")


def _foot(drawing: Drawing, corner: XY, told: Sequence[Measure], units: LengthUnit) -> None:
    words = "; ".join(_words(one, units) for one in told)
    line = corner[0] + GAP, corner[1] + CELL[1] - 1.6
    drawing.text(line, fitted(words, SMALL, CELL[0] - 2.0 * GAP), SMALL, "grey")


def _words(measure: Measure, units: LengthUnit) -> str:
    """A distance in words; what is met exactly has no number."""
    told = length(measure.length_m, units).text
    return f"{told} {units} {measure.words}" if float(told) else measure.words


def _is_drawn(measure: Measure, mark: Mark, airframe: Airframe) -> bool:
    """Whether a distance is drawn: no farther off, and on a wing not to the centre line."""
    across = measure.side == "beside" and mark.place.surface in airframe.plates
    return measure.length_m <= FARTHEST_M and not across


def _window(seen: _Seen, box: XY, room: XY) -> Window:
    """A window that shows the antenna and the features near enough to be drawn."""
    mark, (middle_r, middle_u) = seen.mark, seen.look.flat(seen.mark.point)
    rights = [middle_r - mark.length_m / 2.0, middle_r + mark.length_m / 2.0]
    ups = [middle_u - mark.width_m / 2.0, middle_u + mark.width_m / 2.0]
    for one in seen.drawn:
        rights += [one.one[0], one.other[0]]
        ups += [one.one[1], one.other[1]]
    right, up = bounds(rights, MARGIN_M), bounds(ups, MARGIN_M)
    spare = room[0] - 2.0 * EDGE, room[1] - 2.0 * EDGE
    scale = scale_for(right[1] - right[0], up[1] - up[0], spare)
    return centred(seen.look, ((sum(right) / 2.0, sum(up) / 2.0), scale), box, room)


def _detail(drawing: Drawing, window: Window, seen: _Seen, subject: Subject) -> None:
    caption = f"{window.look.title}, 1:{window.scale}"
    with drawing.within(window.outline):
        boxes = draw_regions(drawing, window, subject.tags, subject.airframe)
        draw_structure(drawing, window, subject.airframe)
        draw_frames(drawing, window, subject.airframe)
        draw_antenna(drawing, window, seen.mark)
        named = _name_frames(drawing, window, subject.airframe)
        occupied = [antenna_box(window, seen.mark), *named]
        draw_tags(drawing, boxes, occupied, caption_box(window, caption))
        for one in _dimensions(window, seen, subject.units):
            draw_dimension(drawing, one)
    draw_caption(drawing, window, caption)


def _name_frames(drawing: Drawing, window: Window, airframe: Airframe) -> list[Box]:
    """Write the name of each frame beside the head of its line; return where that is."""
    taken: list[Box] = []
    for id, frame in airframe.frames.items():
        x, width = window.xy(frame.fs_m, 0.0)[0], text_width(id, SMALL) + 0.6
        left = x + 0.6 if x + 0.6 + width < window.right else x - 0.6 - width
        place = left, window.top + 0.6, left + width, window.top + 3.4
        if window.left < x < window.right and not any(overlap(place, one) for one in taken):
            drawing.rect(place[:2], (width, 2.8), "paper")
            drawing.text((left + 0.3, window.top + 2.8), id, SMALL, "grey")
            taken.append(place)
    return taken


def _dimensions(window: Window, seen: _Seen, units: LengthUnit) -> list[Dimension]:
    """Each measure on its own side of the base, the one beside it where it crosses least."""
    side, ahead = (one * window.per_m / 2.0 for one in (seen.mark.width_m, seen.mark.length_m))
    offsets = {
        "above": (side + 4.0,),
        "below": (-side - 6.5,),
        "beside": (ahead + 5.0, -ahead - 5.0),
    }
    placed: list[Dimension] = []
    for measure in sorted(seen.drawn, key=lambda one: one.side == "beside"):
        taken = [box for one in placed for box in one.boxes()] + _features(seen, window)
        choices = [dimension_of(window, measure, units, one) for one in offsets[measure.side]]
        known = [one for one in choices if one is not None]
        placed += sorted(known, key=lambda one: _crossed(one, taken))[:1]
    return placed


def _features(seen: _Seen, window: Window) -> list[Box]:
    """The upright edges that are measured from: no dimension line is to lie on one."""
    xs = [window.xy(*one.one)[0] for one in seen.drawn if one.side != "beside"]
    xs += [window.xy(*one.other)[0] for one in seen.drawn if one.side == "above"]
    return [(x - 1.0, window.top, x + 1.0, window.bottom) for x in xs]


def _crossed(dimension: Dimension, taken: Sequence[Box]) -> int:
    return sum(overlap(one, other) for one in dimension.boxes() for other in taken)
