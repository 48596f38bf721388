# SPDX-License-Identifier: Apache-2.0
"""Dimension lines: from point to point with arrows, the number where it can be read."""

from __future__ import annotations

import math

from rfplan.reports.cells import LengthUnit, length
from rfplan.reports.drawing_svg import XY, Drawing, text_width
from rfplan.reports.drawings.measures import Measure
from rfplan.reports.drawings.paper import Window

SIZE = 2.5
ARROW = 1.6
SHORTEST = 2.0 * ARROW + 0.4
"""Below this many millimetres the arrows stand outside, pointing at each other."""


def draw_dimension(
    drawing: Drawing, window: Window, measure: Measure, units: LengthUnit, offset: float
) -> None:
    """Draw one measure beside what it measures: `offset` up for level ones, left for upright."""
    one, other = window.xy(*measure.one), window.xy(*measure.other)
    told = length(measure.length_m, units).text
    if math.dist(one, other) < 0.05:
        return
    level = abs(other[0] - one[0]) >= abs(other[1] - one[1])
    moved = (0.0, -offset) if level else (-offset, 0.0)
    start, end = _plus(one, moved), _plus(other, moved)
    drawing.line(one, start, "dimension")
    drawing.line(other, end, "dimension")
    _arrowed(drawing, start, end)
    _number(drawing, start, end, told, level=level)


def _plus(point: XY, way: XY) -> XY:
    return point[0] + way[0], point[1] + way[1]


def _arrowed(drawing: Drawing, start: XY, end: XY) -> None:
    span = math.dist(start, end)
    along = (end[0] - start[0]) / span, (end[1] - start[1]) / span
    outside = span < SHORTEST
    reach = 2.0 * ARROW if outside else 0.0
    first = start[0] - along[0] * reach, start[1] - along[1] * reach
    last = end[0] + along[0] * reach, end[1] + along[1] * reach
    drawing.line(first, last, "dimension")
    sense = -1.0 if outside else 1.0
    _arrow(drawing, start, (along[0] * sense, along[1] * sense))
    _arrow(drawing, end, (-along[0] * sense, -along[1] * sense))


def _arrow(drawing: Drawing, tip: XY, along: XY) -> None:
    back = tip[0] + along[0] * ARROW, tip[1] + along[1] * ARROW
    side = -along[1] * ARROW / 5.0, along[0] * ARROW / 5.0
    points = [tip, _plus(back, side), _plus(back, (-side[0], -side[1]))]
    drawing.path(points, "arrow", closed=True)


def _number(drawing: Drawing, start: XY, end: XY, told: str, *, level: bool) -> None:
    """Write the number over a level line, beside an upright one, on white to be read."""
    middle = (start[0] + end[0]) / 2.0, (start[1] + end[1]) / 2.0
    width = text_width(told, SIZE)
    if level:
        box, base = (middle[0] - width / 2.0, middle[1] - 3.3), middle[1] - 0.9
        drawing.rect(box, (width, 2.7), "paper")
        drawing.text((middle[0], base), told, SIZE, "dimension_text", anchor="middle")
    else:
        box = middle[0] - width - 1.0, middle[1] - 1.4
        drawing.rect(box, (width, 2.8), "paper")
        drawing.text((middle[0] - 1.0, middle[1] + 0.9), told, SIZE, "dimension_text", anchor="end")
