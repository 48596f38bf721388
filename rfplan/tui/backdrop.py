# SPDX-License-Identifier: Apache-2.0
"""The part of the drawing that no move changes: rulers, hull, plates, frames and zones."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass

import numpy as np

from rfplan.analysis.placement import hull_of
from rfplan.model.plan import Plan
from rfplan.model.rulebook import ZoneKind
from rfplan.physics.skin_geometry import Hull, section_at
from rfplan.tui.canvas import Canvas, Ink, Layer, Pen
from rfplan.tui.layout import ViewKind
from rfplan.tui.outline import (
    cells_in_hull,
    cut_m,
    hull_outline_m,
    outside_hull,
    plate_edges_m,
    walked,
)
from rfplan.tui.projection import View
from rfplan.tui.raster import Floats
from rfplan.tui.rulers import draw_rulers
from rfplan.tui.stage import Stage
from rfplan.tui.tokens import Ground, Token
from rfplan.tui.zones import Aircraft, draw_planes, draw_zones

HULL = Pen(Token.LINE, Layer.OUTLINE, thick=True)
PLATE = Pen(Token.WING, Layer.INNER)
FRAME = Pen(Token.INNER, Layer.INNER, dash=(1.0, 3.0))
CENTRE_LINE = Pen(Token.INNER, Layer.INNER, dash=(6.0, 4.0))
CAPTION = Ink(Token.DIM, Layer.CAPTION)
CAPTIONS = {ViewKind.PLAN: "plan, from above", ViewKind.SIDE: "side, from left"}


@dataclass(frozen=True, slots=True)
class Backdrop:
    """A canvas with everything that stays where it is, the views on it, and what they show."""

    canvas: Canvas
    stage: Stage
    aircraft: Aircraft


def backdrop(
    plan: Plan, zone_kinds: Mapping[str, ZoneKind], stage: Stage, surface: str = "top"
) -> Backdrop:
    """Return the backdrop of a plan; zones and ground planes are those of one surface."""
    canvas = Canvas(stage.paper.rows, stage.paper.columns, stage.paper.glyphs)
    aircraft = Aircraft(plan, hull_of(plan.airframe), zone_kinds, surface)
    for view in stage.views:
        if view.kind is not ViewKind.SECTION:
            draw_hull(canvas, view, aircraft.hull)
            draw_plates(canvas, view, aircraft)
            _draw_frames(canvas, view, aircraft)
            draw_zones(canvas, view, aircraft)
            draw_planes(canvas, view, aircraft)
        if view.kind in CAPTIONS:
            canvas.text(view.area.row, view.area.column + 1, CAPTIONS[view.kind], CAPTION)
    draw_rulers(canvas, stage)
    return Backdrop(canvas, stage, aircraft)


def draw_hull(canvas: Canvas, view: View, hull: Hull) -> None:
    """Draw the outline and the centre line, and tint the cells wholly inside."""
    outline_m = hull_outline_m(hull, view.kind, view.station_m)
    canvas.polyline(view.dots_of(outline_m), HULL, view.area)
    canvas.tint(canvas.framed(cells_in_hull(view, hull), view.area), Ground.HULL)
    if view.kind is ViewKind.PLAN:
        right_m, _ = view.grid_m(0.5, 0.5)
        line_m = np.array([[right_m.min(), 0.0, 0.0], [right_m.max(), 0.0, 0.0]])
        canvas.polyline(view.dots_of(line_m), CENTRE_LINE, view.area)
    elif view.kind is ViewKind.SECTION:
        line_m = _across_m(hull, view.station_m or 0.0, reach=0.0)
        canvas.polyline(view.dots_of(line_m), CENTRE_LINE, view.area)


def _across_m(hull: Hull, station_m: float, *, reach: float) -> Floats:
    """From low on the left to high on the right of the hull at a station, shape (2, 3)."""
    width_m, middle_m, half_height_m, _ = section_at(hull, np.asarray(station_m))
    return np.array(
        [
            [station_m, side * reach * width_m, middle_m + side * half_height_m]
            for side in (-1.0, 1.0)
        ]
    )


def draw_plates(canvas: Canvas, view: View, aircraft: Aircraft) -> None:
    """Draw wing and tail where the hull does not hide them; a fin is as bold as the hull."""
    for id, edge_m in plate_edges_m(aircraft.airframe):
        shown_m = edge_m if view.station_m is None else cut_m(edge_m, view.station_m)
        outside_m = outside_hull(aircraft.hull, view, walked(shown_m))
        stands = not aircraft.airframe.plates[id].mirror and view.kind is not ViewKind.PLAN
        canvas.polyline(view.dots_of(outside_m), HULL if stands else PLATE, view.area)


def _draw_frames(canvas: Canvas, view: View, aircraft: Aircraft) -> None:
    for frame in aircraft.airframe.frames.values():
        line_m = _across_m(aircraft.hull, frame.fs_m, reach=1.0)
        canvas.polyline(view.dots_of(line_m), FRAME, view.area)
