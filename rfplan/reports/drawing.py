# SPDX-License-Identifier: Apache-2.0
"""A page of a drawing while it is being drawn, and how much room its texts take."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from contextlib import contextmanager
from functools import cache

from rfplan.reports.sheet import fit_to_show
from rfplan.reports.strokes import XY, Anchor, Circle, Lines, Picture, Points, Text
from rfplan.reports.wrapping import display_width

_WIDTHS = (
    ("ijlI.,:;'|!", 0.34),
    (" ()[]ftr-/", 0.42),
    ("mwMW@%", 0.98),
    ("ABCDEFGHJKLNOPQRSTUVXYZ&+<>=", 0.76),
)
"""Widths of characters of the usual fonts in parts of their size, on the wide side."""
_WIDE, _USUAL, _BOLD = 1.05, 0.64, 1.12


def text_width(text: str, size: float, *, strong: bool = False) -> float:
    """Return how wide a text stands at most."""
    width = sum(map(_character_width, fit_to_show(text)))
    return width * size * (_BOLD if strong else 1.0)


@cache
def _character_width(character: str) -> float:
    if not character.isascii():
        return _WIDE * display_width(character)
    return next((width for some, width in _WIDTHS if character in some), _USUAL)


def fitted(text: str, size: float, room: float) -> str:
    """Return a text cut with '...' where it would be wider than its room."""
    shown = fit_to_show(text)
    if text_width(shown, size) <= room:
        return shown
    while shown and text_width(f"{shown}...", size) > room:
        shown = shown[:-1]
    return f"{shown.rstrip()}..."


def box(corner: XY, size: XY) -> Points:
    """Return the corners of a rectangle from its upper left one."""
    (x, y), (width, height) = corner, size
    return (x, y), (x + width, y), (x + width, y + height), (x, y + height)


class Drawing:
    """What has been drawn so far; x to the right, y down, in millimetres on paper."""

    def __init__(self, width: float, height: float) -> None:
        self._size = width, height
        self._shapes: list[Lines | Circle] = []
        self._texts: list[Text] = []
        self._inside: tuple[Points, ...] = ()

    def line(self, one: XY, other: XY, pen: str = "line") -> None:
        """Draw a straight line."""
        self.runs([(one, other)], pen)

    def runs(self, runs: Sequence[Points], pen: str = "line", *, closed: bool = False) -> None:
        """Draw straight lines from point to point, in one run or several."""
        if runs:
            self._shapes.append(Lines(tuple(runs), pen, closed, self._inside))

    def outline(self, points: Sequence[XY], pen: str = "line") -> None:
        """Draw a line from point to point and back to the first."""
        if points:
            self.runs([tuple(points)], pen, closed=True)

    def rect(self, corner: XY, size: XY, pen: str = "line") -> None:
        """Draw a rectangle from its upper left corner."""
        self.outline(box(corner, size), pen)

    def circle(self, middle: XY, radius: float, pen: str = "line") -> None:
        """Draw a circle."""
        self._shapes.append(Circle(middle, radius, pen, self._inside))

    def text(
        self, at: XY, text: str, size: float, lettering: str = "plain", *, anchor: Anchor = "start"
    ) -> None:
        """Write text with its base line at a point: the start, middle or end of it there."""
        if shown := fit_to_show(text).strip():
            self._texts.append(Text(at, shown, size, lettering, anchor))

    @contextmanager
    def within(self, outline: Sequence[XY]) -> Iterator[None]:
        """Let nothing but texts show outside a closed line."""
        before = self._inside
        self._inside = (*before, tuple(outline))
        try:
            yield
        finally:
            self._inside = before

    def picture(self) -> Picture:
        """Return what has been drawn."""
        return Picture(*self._size, tuple(self._shapes), tuple(self._texts))
