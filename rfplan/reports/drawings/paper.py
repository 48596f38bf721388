# SPDX-License-Identifier: Apache-2.0
"""From metres on the aircraft to millimetres on paper, at scales that are used."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from dataclasses import dataclass

from rfplan.reports.cells import LengthUnit
from rfplan.reports.drawing import Drawing, box, text_width
from rfplan.reports.drawings.shapes import Look, Point, Span
from rfplan.reports.strokes import XY, Points
from rfplan.units import LENGTH, from_unit, in_unit

SCALES = (2, 5, 10, 15, 20, 25, 30, 40, 50, 60, 75, 100, 150, 200, 250, 500, 1000)
"""One to this; the largest drawing that fits is taken."""

RULED: dict[LengthUnit, tuple[float, ...]] = {
    "in": (1.0, 2.0, 5.0, 10.0, 20.0, 50.0, 100.0, 200.0, 500.0),
    "mm": (25.0, 50.0, 100.0, 250.0, 500.0, 1000.0, 2000.0, 5000.0, 10000.0),
}
CAPTION = 2.2
CLOSEST_RULES = 9.5
"""Rules stand at least this far apart, in millimetres on paper."""


@dataclass(frozen=True, slots=True)
class Window:
    """A piece of the aircraft on a piece of the paper."""

    look: Look
    right_m: Span
    up_m: Span
    scale: int
    corner: XY

    @property
    def per_m(self) -> float:
        """Millimetres on paper for a metre on the aircraft."""
        return 1000.0 / self.scale

    @property
    def size(self) -> XY:
        """How wide and high the window is on paper."""
        return (
            (self.right_m[1] - self.right_m[0]) * self.per_m,
            (self.up_m[1] - self.up_m[0]) * self.per_m,
        )

    @property
    def left(self) -> float:
        """The left edge on paper."""
        return self.corner[0]

    @property
    def right(self) -> float:
        """The right edge on paper."""
        return self.corner[0] + self.size[0]

    @property
    def top(self) -> float:
        """The upper edge on paper."""
        return self.corner[1]

    @property
    def bottom(self) -> float:
        """The lower edge on paper."""
        return self.corner[1] + self.size[1]

    @property
    def outline(self) -> Points:
        """The window's own edge on paper."""
        return box(self.corner, self.size)

    def xy(self, right_m: float, up_m: float) -> XY:
        """Return where a point of the view is on paper."""
        x = self.corner[0] + (right_m - self.right_m[0]) * self.per_m
        return x, self.corner[1] + (self.up_m[1] - up_m) * self.per_m

    def of(self, point: Point) -> XY:
        """Return where a point of the aircraft is on paper."""
        return self.xy(*self.look.flat(point))

    def box(self, right_m: Span, up_m: Span) -> tuple[XY, XY] | None:
        """Return corner and size of a rectangle, cut to the window; None where nothing is left."""
        low_r, high_r = max(right_m[0], self.right_m[0]), min(right_m[1], self.right_m[1])
        low_u, high_u = max(up_m[0], self.up_m[0]), min(up_m[1], self.up_m[1])
        if low_r >= high_r or low_u >= high_u:
            return None
        size = (high_r - low_r) * self.per_m, (high_u - low_u) * self.per_m
        return self.xy(low_r, high_u), size

    def holds(self, right_m: float, up_m: float) -> bool:
        """Whether a point of the view lies inside."""
        inside = self.right_m[0] <= right_m <= self.right_m[1]
        return inside and self.up_m[0] <= up_m <= self.up_m[1]


def bounds(values: Iterable[float], margin: float) -> Span:
    """Return the least and the most of some numbers, with a margin on both sides."""
    some = list(values)
    return min(some) - margin, max(some) + margin


def centred(look: Look, middle: tuple[XY, int], corner: XY, room: XY) -> Window:
    """Return a window of a size on paper, from the point in its middle and its scale."""
    (right_m, up_m), scale = middle
    half_r, half_u = (side * scale / 2000.0 for side in room)
    right = right_m - half_r, right_m + half_r
    return Window(look, right, (up_m - half_u, up_m + half_u), scale, corner)


def draw_caption(drawing: Drawing, window: Window, text: str) -> None:
    """Frame a window and write what it shows in its lower left corner."""
    drawing.rect(window.corner, window.size, "thin")
    left, top, right, bottom = caption_box(window, text)
    drawing.rect((left, top), (right - left, bottom - top), "paper")
    drawing.text((left + 0.4, bottom - 0.5), text, CAPTION, "grey")


def caption_box(window: Window, text: str) -> tuple[float, float, float, float]:
    """Return left, top, right and bottom of what a caption covers."""
    left, bottom = window.left + 0.2, window.bottom - 0.4
    return left, bottom - 2.7, left + text_width(text, CAPTION) + 0.8, bottom


def scale_for(width_m: float, height_m: float, room: XY) -> int:
    """Return the largest scale in use at which something fits a room on paper."""
    for scale in SCALES:
        if width_m * 1000.0 / scale <= room[0] and height_m * 1000.0 / scale <= room[1]:
            return scale
    return SCALES[-1]


def rules(span_m: Span, scale: int, units: LengthUnit) -> Iterator[tuple[float, str]]:
    """Yield round stations inside a span, in metres and in words, as close as can be read."""
    wide = (one for one in RULED[units] if _on_paper(one, scale, units) >= CLOSEST_RULES)
    step = next(wide, RULED[units][-1])
    low, high = (in_unit(end, LENGTH, units) for end in span_m)
    place = -(-low // step) * step
    while place <= high + 1e-9:
        yield from_unit(place, LENGTH, units), f"{place:z.0f}"
        place += step


def _on_paper(step: float, scale: int, units: LengthUnit) -> float:
    return from_unit(step, LENGTH, units) * 1000.0 / scale
