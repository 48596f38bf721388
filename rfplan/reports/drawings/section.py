# SPDX-License-Identifier: Apache-2.0
"""The section of the hull at an antenna, with the antenna on it and its distances."""

from __future__ import annotations

from rfplan.model.airframe import Airframe
from rfplan.reports.cells import LengthUnit, length
from rfplan.reports.drawing import Drawing
from rfplan.reports.drawings.dimensions import dimension_of, draw_dimension
from rfplan.reports.drawings.marks import Mark, Subject
from rfplan.reports.drawings.measures import Measure
from rfplan.reports.drawings.paper import Window, bounds, centred, draw_caption, scale_for
from rfplan.reports.drawings.shapes import (
    BL,
    WL,
    Look,
    Point,
    plates,
    section_outline,
)
from rfplan.reports.strokes import XY

ACROSS = Look("Section, seen from behind", BL, WL, 1.0, ())
MARGIN_M = 0.02
OVER, UNDER = 8.0, 5.0
"""Room on paper for the dimension over a section and for the words under it."""


def draw_section(drawing: Drawing, place: tuple[XY, XY], mark: Mark, subject: Subject) -> None:
    """Draw the hull at the antenna's station, cut through, in a box on paper."""
    fs_m, units = mark.point[0], subject.units
    outline = section_outline(subject.airframe, fs_m)
    window = _window(mark, outline, *place)
    with drawing.within(window.outline):
        drawing.line(window.xy(0.0, window.up_m[0]), window.xy(0.0, window.up_m[1]), "centre")
        drawing.outline([window.xy(*one) for one in outline], "outline")
        for cut in _plates_cut(subject.airframe, fs_m):
            drawing.line(window.of(cut[0]), window.of(cut[1]), "outline")
        drawing.outline(_standing(window, mark), "new" if mark.is_new else "base")
        _dimension(drawing, window, mark, units)
    draw_caption(
        drawing, window, f"{ACROSS.title}, FS {length(fs_m, units).text}, 1:{window.scale}"
    )


def _window(mark: Mark, outline: list[tuple[float, float]], corner: XY, room: XY) -> Window:
    """A window that shows the whole section and the antenna to its tip."""
    points = [*outline, ACROSS.flat(mark.point), ACROSS.flat(mark.tip), (0.0, mark.point[2])]
    right = bounds((one for one, _ in points), MARGIN_M)
    up = bounds((one for _, one in points), MARGIN_M)
    spare = room[0] - 4.0, room[1] - OVER - UNDER
    scale = scale_for(right[1] - right[0], up[1] - up[0], spare)
    middle = sum(right) / 2.0, sum(up) / 2.0 + (OVER - UNDER) / 2.0 * scale / 1000.0
    return centred(ACROSS, (middle, scale), corner, room)


def _plates_cut(airframe: Airframe, fs_m: float) -> list[tuple[Point, Point]]:
    """Where the plane of the section meets the plates: a line through each, edge to edge."""
    cuts = []
    for _, corners in plates(airframe):
        crossings = [
            point
            for one, other in zip(corners, [*corners[1:], corners[0]], strict=True)
            if (point := _crossing(one, other, fs_m)) is not None
        ]
        if len(crossings) >= 2:
            cuts.append((crossings[0], crossings[-1]))
    return cuts


def _crossing(one: Point, other: Point, fs_m: float) -> Point | None:
    if (one[0] - fs_m) * (other[0] - fs_m) >= 0.0:
        return None
    part = (fs_m - one[0]) / (other[0] - one[0])
    x, y, z = (a + (b - a) * part for a, b in zip(one, other, strict=True))
    return x, y, z


def _standing(window: Window, mark: Mark) -> list[XY]:
    """The antenna on its skin: base width, height along the normal, a third of the width on top."""
    _, ny, nz = mark.place.normal
    along = (-nz, ny) if (ny, nz) != (0.0, 0.0) else (1.0, 0.0)
    half = mark.width_m / 2.0
    base, tip = ACROSS.flat(mark.point), ACROSS.flat(mark.tip)
    corners = [
        (base, half),
        (base, -half),
        (tip, -half / 3.0),
        (tip, half / 3.0),
    ]
    return [
        window.xy(middle[0] - along[0] * side, middle[1] + along[1] * side)
        for middle, side in corners
    ]


def _dimension(drawing: Drawing, window: Window, mark: Mark, units: LengthUnit) -> None:
    """Dimension the butt line over the section."""
    bl_m, wl_m = ACROSS.flat(mark.point)
    measure = Measure("from the centre line", abs(bl_m), (0.0, wl_m), (bl_m, wl_m), "above")
    over = (mark.height_m * window.per_m if mark.place.normal[2] >= 0.0 else 0.0) + 4.0
    dimension = dimension_of(window, measure, units, min(over, 12.0))
    if dimension is not None:
        draw_dimension(drawing, dimension)
