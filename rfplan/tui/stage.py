# SPDX-License-Identifier: Apache-2.0
"""The views of one drawing: how they share the canvas, and how close they look."""

from __future__ import annotations

import math
from dataclasses import dataclass, replace

from rfplan.analysis.placement import hull_of
from rfplan.model.airframe import Airframe
from rfplan.reports.cells import LengthUnit
from rfplan.tui.dots import DOTS_ACROSS, DOTS_DOWN
from rfplan.tui.glyphs import Glyphs
from rfplan.tui.layout import Area, ViewKind
from rfplan.tui.outline import Extent, extent
from rfplan.tui.projection import Camera, Point, View

GUTTER_COLUMNS = 7
RULER_ROWS = 1
MARGIN_COLUMNS = 2
MARGIN_ROWS = 3
"""Free rows beside the hull in plan and over the side view, where names stand."""
SECTION_MARGIN_COLUMNS = 3

LEAST_ZOOM, MOST_ZOOM = 0.5, 16.0


@dataclass(frozen=True, slots=True)
class Paper:
    """What a drawing is drawn on: its cells, the signs it may use, the unit it speaks."""

    rows: int
    columns: int
    glyphs: Glyphs
    unit: LengthUnit = "in"


@dataclass(frozen=True, slots=True)
class Stage:
    """A paper divided into views; `home` is the look that shows the whole aircraft."""

    paper: Paper
    views: tuple[View, ...]
    home: Camera

    @property
    def camera(self) -> Camera:
        """The look that all views share."""
        return self.views[0].camera

    def view(self, kind: ViewKind) -> View | None:
        """Return the view of a kind, if it is shown."""
        return next((view for view in self.views if view.kind is kind), None)

    def view_at(self, row: int, column: int) -> View | None:
        """Return the view a cell belongs to."""
        return next((view for view in self.views if view.area.holds(row, column)), None)

    def looking(self, camera: Camera) -> Stage:
        """Return the same views with another look."""
        return replace(self, views=tuple(replace(view, camera=camera) for view in self.views))

    def zoomed(self, factor: float, about_m: Point) -> Stage:
        """Return a closer (above 1) or wider look round a point, within bounds."""
        zoom = self.camera.dots_per_m / self.home.dots_per_m
        bounded = max(LEAST_ZOOM, min(MOST_ZOOM, zoom * factor)) / zoom
        return self.looking(self.camera.zoomed(bounded, about_m))

    def at_home(self) -> Stage:
        """Return the look at the whole aircraft."""
        return self.looking(self.home)

    def cut_at(self, station_m: float) -> Stage:
        """Return the same views with the section at a station."""
        return replace(
            self,
            views=tuple(
                replace(view, station_m=station_m) if view.kind is ViewKind.SECTION else view
                for view in self.views
            ),
        )


def fit_stage(airframe: Airframe, kinds: tuple[ViewKind, ...], paper: Paper) -> Stage:
    """Return views of an aircraft on a paper, all at the largest scale at which it fits."""
    reach = extent(airframe, hull_of(airframe))
    room = Area(RULER_ROWS, GUTTER_COLUMNS, paper.rows - RULER_ROWS, paper.columns - GUTTER_COLUMNS)
    scale = _dots_per_m(room, kinds, reach)
    middle_fs_m = sum(reach.fs_m) / 2.0
    middle_wl_m = sum(reach.hull_wl_m if kinds == (ViewKind.SECTION,) else reach.wl_m) / 2.0
    camera = Camera((middle_fs_m, 0.0, middle_wl_m), scale)
    stations = {ViewKind.SECTION: middle_fs_m}
    areas = _areas(room, kinds, reach, scale)
    views = tuple(View(kind, areas[kind], camera, stations.get(kind)) for kind in kinds)
    return Stage(paper, views, camera)


def _dots_per_m(room: Area, kinds: tuple[ViewKind, ...], reach: Extent) -> float:
    """The largest scale at which every view holds what it must show."""
    length_m, width_m = reach.fs_m[1] - reach.fs_m[0], 2.0 * reach.half_width_m
    height_m, hull_m = (high - low for low, high in (reach.wl_m, reach.hull_wl_m))
    across = (room.columns - 2 * MARGIN_COLUMNS) * DOTS_ACROSS
    if len(kinds) == 1:
        needs = {
            ViewKind.PLAN: (length_m, width_m, 1),
            ViewKind.SIDE: (length_m, height_m, MARGIN_ROWS),
            ViewKind.SECTION: (width_m, hull_m, MARGIN_ROWS),
        }
        right_m, down_m, spare_rows = needs[kinds[0]]
        return min(across / right_m, (room.rows - spare_rows) * DOTS_DOWN / down_m)
    if ViewKind.SECTION in kinds:
        length_m += width_m
        across -= 2 * SECTION_MARGIN_COLUMNS * DOTS_ACROSS
    down = (room.rows - 2 * MARGIN_ROWS) * DOTS_DOWN
    return min(across / length_m, down / (width_m + height_m))


def _areas(
    room: Area, kinds: tuple[ViewKind, ...], reach: Extent, scale: float
) -> dict[ViewKind, Area]:
    """Plan over side, the section right of them; the plan gets what the side can spare."""
    if len(kinds) == 1:
        return {kinds[0]: room}
    section_columns = 0
    if ViewKind.SECTION in kinds:
        section_columns = _cells(2.0 * reach.half_width_m * scale, DOTS_ACROSS)
        section_columns += 2 * SECTION_MARGIN_COLUMNS
    shared = room.columns - section_columns
    side_rows = _cells((reach.wl_m[1] - reach.wl_m[0]) * scale, DOTS_DOWN) + MARGIN_ROWS
    side_rows = min(side_rows, room.rows - 1)
    plan_rows = room.rows - side_rows
    below, beside = room.row + plan_rows, room.column + shared
    return {
        ViewKind.PLAN: Area(room.row, room.column, plan_rows, shared),
        ViewKind.SIDE: Area(below, room.column, side_rows, shared),
        ViewKind.SECTION: Area(below, beside, side_rows, section_columns),
    }


def _cells(dots: float, dots_a_cell: int) -> int:
    return math.ceil(dots / dots_a_cell)
