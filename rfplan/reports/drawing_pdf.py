# SPDX-License-Identifier: Apache-2.0
"""Drawings as shapes and text on a page to print, at the size they were drawn in."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from itertools import groupby
from typing import Any

from rfplan.reports.documents import library
from rfplan.reports.paper import HEAD_MM, Paper
from rfplan.reports.strokes import LETTERINGS, PENS, XY, Circle, Lines, Picture, Points, Text

MM_A_POINT = 25.4 / 72.0

SHIFTS = {"start": 0.0, "middle": 0.5, "end": 1.0}
"""The part of a text's width that stands before its point."""


def draw(page: Paper, picture: Picture) -> None:
    """Draw a picture below the head of a page, in the middle between its margins."""
    at = (page.page_width - picture.width) / 2.0, HEAD_MM
    _Strokes(page, at).draw(picture)


class _Strokes:
    """Shapes on one page, from the point at which the corner of the picture lies."""

    def __init__(self, page: Paper, at: XY) -> None:
        self._page, self._at = page, at
        self._paths = library("pdf", ".drawing")

    def draw(self, picture: Picture) -> None:
        with self._page.drawing() as context:
            for inside, shapes in groupby(picture.shapes, lambda shape: shape.inside):
                context.add_item(self._group(inside, shapes))
        for text in picture.texts:
            self._text(text)

    def _group(self, inside: Sequence[Points], shapes: Iterable[Lines | Circle]) -> Any:
        """Return shapes of which nothing shows outside some closed lines.

        What is added is copied, so that a group is full before it is put into another.
        """
        group = self._paths.GraphicsContext()
        for shape in shapes:
            group.add_item(self._shape(shape))
        for points in reversed(inside):
            content, group = group, self._paths.GraphicsContext()
            group.clipping_path = self._way(self._paths.ClippingPath(), points, closed=True)
            group.add_item(content)
        return group

    def _shape(self, shape: Lines | Circle) -> Any:
        path = self._paths.PaintedPath()
        if isinstance(shape, Circle):
            path.circle(*self._moved(shape.middle), shape.radius)
        else:
            for points in shape.runs:
                self._way(path, points, closed=shape.closed)
        self._styled(path, shape.pen)
        return path

    def _way(self, path: Any, points: Points, *, closed: bool) -> Any:
        path.move_to(*self._moved(points[0]))
        for point in points[1:]:
            path.line_to(*self._moved(point))
        if closed:
            path.close()
        return path

    def _styled(self, path: Any, name: str) -> None:
        pen, style = PENS[name], path.style
        style.auto_close = False
        style.fill_color = pen.fill
        style.stroke_color = pen.colour
        style.stroke_width = pen.width
        style.stroke_join_style = "round"
        style.stroke_dash_pattern = pen.dashes or None

    def _moved(self, point: XY) -> XY:
        return round(point[0] + self._at[0], 4), round(point[1] + self._at[1], 4)

    def _text(self, text: Text) -> None:
        lettering = LETTERINGS[text.lettering]
        size = text.size / MM_A_POINT
        x, y = self._moved(text.at)
        x -= SHIFTS[text.anchor] * self._page.width_of(text.text, lettering.bold, size)
        self._page.text(x, y, text.text, size=size, bold=lettering.bold, ink=lettering.colour)
