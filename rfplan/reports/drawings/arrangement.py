# SPDX-License-Identifier: Apache-2.0
"""The aircraft from above, from below and from the left, all at the largest scale that fits."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from rfplan.reports.drawing import Drawing
from rfplan.reports.drawings.marks import Subject
from rfplan.reports.drawings.page import BORDER, FLOOR, FRAME, draw_scale_bar
from rfplan.reports.drawings.paper import Window, bounds, scale_for
from rfplan.reports.drawings.shapes import ABOVE, BELOW, LEFT, WL, Look, Span, plates
from rfplan.reports.drawings.views import ABOVE_ROOM, BELOW_ROOM, TITLE_ROOM, draw_view, seen_in

RULER = 12.0
RIGHT = 5.0
LEAST_GAP = 2.0
"""Left and right of a view, and between two of them, in millimetres."""

MARGIN_M = 0.10
LOOKS = (ABOVE, BELOW, LEFT)

_OVERHEAD = ABOVE_ROOM + BELOW_ROOM
_ROOM = FRAME[0] - RULER - RIGHT, FLOOR - BORDER


def view_pages(subject: Subject) -> list[list[Window]]:
    """Return the views, as many on a page below each other as it takes."""
    right = _stations(subject)
    ups = {look: _across(subject, look) for look in LOOKS}
    room = _ROOM[0], _ROOM[1] - _OVERHEAD - 2.0 * LEAST_GAP
    tallest = max(up[1] - up[0] for up in ups.values())
    scale = scale_for(right[1] - right[0], tallest, room)
    views = [Window(look, right, ups[look], scale, (0.0, 0.0)) for look in LOOKS]
    return [list(_placed(some)) for some in _paged(views)]


def _paged(views: Sequence[Window]) -> list[list[Window]]:
    """Fill page by page from top to bottom."""
    pages: list[list[Window]] = []
    left = 0.0
    for view in views:
        height = view.size[1] + _OVERHEAD + LEAST_GAP
        if height > left:
            pages.append([])
            left = _ROOM[1] - LEAST_GAP
        pages[-1].append(view)
        left -= height
    return pages


def _placed(views: Sequence[Window]) -> Iterator[Window]:
    """Share what is left of a page between its views."""
    taken = sum(view.size[1] + _OVERHEAD for view in views)
    gap = (_ROOM[1] - taken) / (len(views) + 1)
    y = BORDER + gap
    for view in views:
        corner = BORDER + RULER + (_ROOM[0] - view.size[0]) / 2.0, y + ABOVE_ROOM
        yield Window(view.look, view.right_m, view.up_m, view.scale, corner)
        y += view.size[1] + _OVERHEAD + gap


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


def draw_views(drawing: Drawing, windows: Sequence[Window], subject: Subject) -> None:
    """Draw the views of one page, and a bar of their scale."""
    for window in windows:
        draw_view(drawing, window, subject)
    top = windows[0].top - ABOVE_ROOM + TITLE_ROOM - 2.4
    draw_scale_bar(drawing, windows[0], (windows[0].right, top), subject.units)
