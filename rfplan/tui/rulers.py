# SPDX-License-Identifier: Apache-2.0
"""Rulers along the edges of a drawing: stations above, butt lines and water lines left."""

from __future__ import annotations

from collections.abc import Iterator

from rfplan.reports.cells import LengthUnit
from rfplan.tui.canvas import Canvas, Ink
from rfplan.tui.layout import ViewKind
from rfplan.tui.projection import Tick, View, ticks
from rfplan.tui.raster import Floats
from rfplan.tui.stage import GUTTER_COLUMNS, Stage
from rfplan.tui.tokens import Token

LEAST_GAP_DOTS = 12.0
"""Six columns or three rows: room for four figures with a blank on each side."""

FIGURES = Ink(Token.FAINT)


def draw_rulers(canvas: Canvas, stage: Stage) -> None:
    """Number the upper edge once, since views share it, and the left edge of each view at it."""
    first = stage.views[0]
    title = "BL" if first.kind is ViewKind.SECTION else "FS"
    canvas.text(0, GUTTER_COLUMNS - 3, title, FIGURES)
    _draw_upper(canvas, first, stage.paper.unit)
    for view in stage.views:
        if view.area.column == GUTTER_COLUMNS:
            _draw_left(canvas, view, stage.paper.unit)


def _draw_upper(canvas: Canvas, view: View, unit: LengthUnit) -> None:
    right_m, _ = view.grid_m(0.5, 0.5)
    for tick in _ticks(view, right_m, unit):
        _, column = view.cell_of((tick.value_m, tick.value_m, 0.0))
        name = _butt_line(tick.number) if view.kind is ViewKind.SECTION else str(tick.number)
        start = column - len(name) // 2
        if start >= GUTTER_COLUMNS and start + len(name) <= canvas.area.columns:
            canvas.text(0, start, name, FIGURES)


def _draw_left(canvas: Canvas, view: View, unit: LengthUnit) -> None:
    _, down_m = view.grid_m(0.5, 0.5)
    for tick in _ticks(view, down_m, unit):
        row, _ = view.cell_of((0.0, tick.value_m, tick.value_m))
        is_plan = view.kind is ViewKind.PLAN
        name = _butt_line(tick.number) if is_plan else f"WL{tick.number}"
        canvas.text(row, GUTTER_COLUMNS - 1 - len(name), name, FIGURES)


def _ticks(view: View, values_m: Floats, unit: LengthUnit) -> Iterator[Tick]:
    gap_m = LEAST_GAP_DOTS / view.camera.dots_per_m
    yield from ticks(float(values_m.min()), float(values_m.max()), unit, gap_m)


def _butt_line(number: int) -> str:
    return "BL 0" if number == 0 else f"{'L' if number < 0 else 'R'}{abs(number)}"
