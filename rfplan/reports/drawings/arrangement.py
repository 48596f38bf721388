# SPDX-License-Identifier: Apache-2.0
"""The first page: the aircraft from above, from the left and from below, with the legend."""

from __future__ import annotations

from rfplan.reports.drawing_svg import XY, Drawing, bounds
from rfplan.reports.drawings.legend import draw_notes, draw_regions, draw_schedule, draw_signs
from rfplan.reports.drawings.marks import Subject
from rfplan.reports.drawings.page import BLOCK, BORDER, HEIGHT, WIDTH, Page, draw_scale_bar
from rfplan.reports.drawings.paper import Window, scale_for
from rfplan.reports.drawings.shapes import ABOVE, BELOW, LEFT, WL, Look, Span, plates
from rfplan.reports.drawings.views import ABOVE_ROOM, BELOW_ROOM, draw_view, seen_in

LEGEND = 134.0
RULER = 9.0
MARGIN_M = 0.10
LOOKS = (ABOVE, LEFT, BELOW)


def windows(subject: Subject, top: float) -> list[Window]:
    """Return the three views below each other, at the largest scale at which all fit."""
    right = _stations(subject)
    ups = {look: _across(subject, look) for look in LOOKS}
    overhead = len(LOOKS) * (ABOVE_ROOM + BELOW_ROOM)
    room = (
        WIDTH - 2.0 * BORDER - LEGEND - RULER - 6.0,
        HEIGHT - 2.0 * BORDER - BLOCK - overhead - 4.0,
    )
    tall = sum(up[1] - up[0] for up in ups.values())
    scale = scale_for(right[1] - right[0], tall, room)
    spare = (room[1] - tall * 1000.0 / scale) / len(LOOKS)
    placed, y = [], top + BORDER + 2.0
    for look in LOOKS:
        window = Window(look, right, ups[look], scale, (BORDER + RULER + 2.0, y + ABOVE_ROOM))
        placed.append(window)
        y += ABOVE_ROOM + window.size[1] + BELOW_ROOM + spare
    return placed


def _stations(subject: Subject) -> Span:
    """From the first to the last of hull, fin and antennas."""
    airframe = subject.airframe
    stations = [row.fs_m for row in airframe.sections]
    stations += [mark.point[0] for mark in subject.marks]
    stations += [corner[0] for _, corners in plates(airframe) for corner in corners]
    return bounds(stations, MARGIN_M)


def _across(subject: Subject, look: Look) -> Span:
    """From edge to edge of the hull and of the antennas seen; wings are cut off in the plans."""
    rows = subject.airframe.sections
    shown = [mark for mark in subject.marks if seen_in(mark, look)]
    ends = [look.flat(mark.point)[1] for mark in shown]
    if look.up != WL:
        halves = [row.half_width_m for row in rows]
        return bounds([*ends, *halves, *(-half for half in halves)], MARGIN_M)
    ends += [look.flat(mark.tip)[1] for mark in shown]
    ends += [corner[2] for _, corners in plates(subject.airframe) for corner in corners]
    return bounds([*ends, *(row.top_m for row in rows), *(row.bottom_m for row in rows)], MARGIN_M)


def draw_arrangement(drawing: Drawing, page: Page, subject: Subject) -> None:
    """Draw the views of the whole aircraft and the legend beside them."""
    placed = windows(subject, page.top)
    for window in placed:
        draw_view(drawing, window, subject)
    x, floor = WIDTH - BORDER - LEGEND, page.top + HEIGHT - BORDER - BLOCK
    drawing.line((x - 3.0, page.top + BORDER), (x - 3.0, floor), "")
    y = draw_schedule(drawing, (x, page.top + BORDER + 6.0), subject.marks, subject.units)
    y = draw_regions(drawing, (x, y + 3.0), subject.tags, (LEGEND - 3.0, floor - y - 74.0))
    y = draw_signs(drawing, (x, y + 3.0))
    draw_notes(drawing, (x, y + 3.0), subject.airframe.datum)
    bar: XY = (x, floor - 6.0)
    draw_scale_bar(drawing, placed[0], bar, subject.units)
