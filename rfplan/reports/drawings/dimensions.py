# SPDX-License-Identifier: Apache-2.0
"""Dimension lines: from point to point with arrows, the number where it can be read."""

from __future__ import annotations

import math
from dataclasses import dataclass

from rfplan.reports.cells import LengthUnit, length
from rfplan.reports.drawing import Drawing, box, text_width
from rfplan.reports.drawings.measures import Measure
from rfplan.reports.drawings.paper import Window
from rfplan.reports.drawings.regions import Box, along
from rfplan.reports.strokes import XY

SIZE = 2.5
ARROW = 1.6
SHORTEST = 2.0 * ARROW + 0.4
"""Below this many millimetres the arrows stand outside, pointing at each other."""

LEAST = 0.05
"""What is shorter on paper has no dimension."""


@dataclass(frozen=True, slots=True)
class Dimension:
    """One measure on paper: the two points of it, and its line `offset` up, or left, of them.

    Lines of level measures are moved up or down, those of upright ones to the left or right.
    """

    one: XY
    other: XY
    offset: float
    told: str

    @property
    def level(self) -> bool:
        """Whether it goes across the page rather than up."""
        return abs(self.other[0] - self.one[0]) >= abs(self.other[1] - self.one[1])

    @property
    def start(self) -> XY:
        """The first end of its line."""
        return self._moved(self.one)

    @property
    def end(self) -> XY:
        """The other end of its line."""
        return self._moved(self.other)

    def _moved(self, point: XY) -> XY:
        return _plus(point, (0.0, -self.offset) if self.level else (-self.offset, 0.0))

    @property
    def number(self) -> tuple[XY, XY]:
        """Corner and size of its number: over a level line, on the far side of an upright one."""
        x, y = (sum(both) / 2.0 for both in zip(self.start, self.end, strict=True))
        width = text_width(self.told, SIZE)
        if self.level:
            return (x - width / 2.0, y - 3.3), (width, 2.7)
        return (x - width - 1.0 if self.offset > 0.0 else x + 1.0, y - 1.35), (width, 2.7)

    def boxes(self) -> list[Box]:
        """Return small boxes that its line and its number take."""
        (left, top), (width, height) = self.number
        return [*along(self.start, self.end), (left, top, left + width, top + height)]


def dimension_of(
    window: Window, measure: Measure, units: LengthUnit, offset: float
) -> Dimension | None:
    """Return a measure as it stands on paper; None where it is too short to be seen."""
    one, other = window.xy(*measure.one), window.xy(*measure.other)
    if math.dist(one, other) < LEAST:
        return None
    return Dimension(one, other, offset, length(measure.length_m, units).text)


def draw_dimension(drawing: Drawing, dimension: Dimension) -> None:
    """Draw the line with its arrows beside what it measures, and the number on white."""
    start, end = dimension.start, dimension.end
    drawing.line(dimension.one, start, "dimension")
    drawing.line(dimension.other, end, "dimension")
    _arrowed(drawing, start, end)
    corner, size = dimension.number
    drawing.outline(box(corner, size), "paper")
    middle = corner[0] + size[0] / 2.0, corner[1] + 2.4
    drawing.text(middle, dimension.told, SIZE, "measure", anchor="middle")


def _plus(point: XY, way: XY) -> XY:
    return point[0] + way[0], point[1] + way[1]


def _arrowed(drawing: Drawing, start: XY, end: XY) -> None:
    span = math.dist(start, end)
    way = (end[0] - start[0]) / span, (end[1] - start[1]) / span
    outside = span < SHORTEST
    reach = 2.0 * ARROW if outside else 0.0
    first = start[0] - way[0] * reach, start[1] - way[1] * reach
    last = end[0] + way[0] * reach, end[1] + way[1] * reach
    drawing.line(first, last, "dimension")
    sense = -1.0 if outside else 1.0
    _arrow(drawing, start, (way[0] * sense, way[1] * sense))
    _arrow(drawing, end, (-way[0] * sense, -way[1] * sense))


def _arrow(drawing: Drawing, tip: XY, along: XY) -> None:
    back = tip[0] + along[0] * ARROW, tip[1] + along[1] * ARROW
    side = -along[1] * ARROW / 5.0, along[0] * ARROW / 5.0
    points = [tip, _plus(back, side), _plus(back, (-side[0], -side[1]))]
    drawing.outline(points, "arrow")
