# SPDX-License-Identifier: Apache-2.0
"""The drawing of an assessment: what stands and runs on the aircraft, over its backdrop."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass

from rfplan.model.assessment import Assessment
from rfplan.tui.backdrop import CAPTION, Backdrop, draw_hull, draw_plates
from rfplan.tui.canvas import Canvas, Ink, Layer, Pen, Picture
from rfplan.tui.labels import Board, Label, Mark, Side, place_labels
from rfplan.tui.layout import ViewKind
from rfplan.tui.projection import View
from rfplan.tui.raster import Floats
from rfplan.tui.ring import Ring, caption_tries, draw_ring, length_words, ring_round
from rfplan.tui.room_map import RoomSeen, draw_room
from rfplan.tui.signs import Focus, Sign, route_m, signs_of
from rfplan.tui.stage import Stage
from rfplan.tui.tokens import Ground, Token

SELECTED = Ink(Token.ON_ACCENT, ground=Ground.ACCENT)
BLANK = Ink(Token.TEXT, Layer.OUTLINE)
ROUTE = Pen(Token.ACCENT, Layer.ROUTE)
SECTION_DEPTH_M = 0.15
"""How far from the station of a section a sign is still drawn in it."""


@dataclass(frozen=True, slots=True)
class Drawing:
    """A finished drawing, and which antenna is at which cell."""

    picture: Picture
    stage: Stage
    antennas: Mapping[tuple[int, int], str]

    def hit(self, row: int, column: int) -> str | None:
        """Return the antenna whose sign or name is at a cell or right beside it."""
        near = ((row, column), (row, column - 1), (row, column + 1))
        return next((self.antennas[cell] for cell in near if cell in self.antennas), None)


@dataclass(frozen=True, slots=True)
class _Shown:
    """What is drawn in every view."""

    signs: tuple[Sign, ...]
    route_m: Floats
    ring: Ring | None
    captioned: ViewKind


def draw(
    assessment: Assessment, focus: Focus, backdrop: Backdrop, room: RoomSeen | None = None
) -> Drawing:
    """Return the drawing of an assessment; the backdrop is left as it was."""
    canvas, stage = backdrop.canvas.copy(), backdrop.stage
    shown = _shown(assessment, focus, stage)
    chosen = next((sign for sign in shown.signs if sign.selected), None)
    stage = stage if chosen is None else stage.cut_at(chosen.point_m[0])
    roomed = None if room is None else stage.view(room.kind)
    if room is not None and roomed is not None:
        draw_room(canvas, roomed, room.levels, focus.antenna or "")
    antennas: dict[tuple[int, int], str] = {}
    for view in stage.views:
        if view.kind is ViewKind.SECTION:
            _draw_section(canvas, view, backdrop)
        else:
            _draw_lines(canvas, view, shown)
        antennas |= _draw_signs(canvas, view, shown)
    return Drawing(canvas.picture(), stage, antennas)


def _shown(assessment: Assessment, focus: Focus, stage: Stage) -> _Shown:
    wanted = focus.ring and focus.antenna is not None
    return _Shown(
        signs_of(assessment, focus, stage.paper.glyphs),
        route_m(assessment, focus.path),
        ring_round(assessment, focus.antenna or "", stage.paper.unit) if wanted else None,
        stage.views[0].kind,
    )


def _draw_section(canvas: Canvas, view: View, backdrop: Backdrop) -> None:
    draw_hull(canvas, view, backdrop.aircraft.hull)
    draw_plates(canvas, view, backdrop.aircraft)
    station, _, _ = length_words(view.station_m or 0.0, backdrop.stage.paper.unit).partition(" ")
    caption = f"section FS {station}"
    canvas.text(view.area.row, view.area.column + 1, caption, CAPTION)


def _draw_lines(canvas: Canvas, view: View, shown: _Shown) -> None:
    """The route of the selected path and the ring."""
    if len(shown.route_m) > 1:
        canvas.polyline(view.dots_of(shown.route_m), ROUTE, view.area)
    if shown.ring is not None:
        draw_ring(canvas, view, shown.ring)


def _draw_signs(canvas: Canvas, view: View, shown: _Shown) -> dict[tuple[int, int], str]:
    """Draw signs, then names where they fit; return the cells that stand for antennas."""
    antennas: dict[tuple[int, int], str] = {}
    marks: list[Mark] = []
    for sign, (row, column) in _in_view(view, shown.signs):
        canvas.text(row, column, sign.glyph, Ink(sign.token, Layer.GLYPH))
        if sign.name:
            antennas[row, column] = sign.name
            side = Side.BESIDE if view.kind is ViewKind.PLAN else sign.side
            marks.append(Mark(sign.name, row, column, sign.name, sign.selected, side))
    for label in _draw_names(canvas, view, shown, marks):
        antennas.update({(label.row, column): label.id for column in label.columns})
    return antennas


def _in_view(view: View, signs: tuple[Sign, ...]) -> Iterator[tuple[Sign, tuple[int, int]]]:
    """Signs whose cell lies in a view; a section shows only what stands near its station."""
    for sign in signs:
        cell = view.cell_of(sign.point_m)
        off_m = 0.0 if view.station_m is None else abs(sign.point_m[0] - view.station_m)
        if view.area.holds(*cell) and off_m <= SECTION_DEPTH_M:
            yield sign, cell


def _draw_names(canvas: Canvas, view: View, shown: _Shown, marks: list[Mark]) -> list[Label]:
    """The selected name, then the caption of the ring, then all others."""
    tokens = {sign.name: sign.token for sign in shown.signs}
    board = Board(view.area, canvas.written(Layer.GLYPH), canvas.written(Layer.CAPTION))
    chosen = place_labels(board, [mark for mark in marks if mark.selected])
    caption = _caption(board, view, shown)
    rest = place_labels(board, [mark for mark in marks if not mark.selected])
    if caption is not None and shown.ring is not None:
        token = Token.TEXT if shown.ring.token is Token.DIM else shown.ring.token
        _write(canvas, view, caption, Ink(token))
    for label in rest:
        _write(canvas, view, label, Ink(tokens[label.id]))
    for label in chosen:
        _write(canvas, view, label, SELECTED)
    return [*chosen, *rest]


def _caption(board: Board, view: View, shown: _Shown) -> Label | None:
    """The words of the ring, in the first view."""
    if shown.ring is None or view.kind is not shown.captioned or view.station_m is not None:
        return None
    return board.first_fit(caption_tries(view, shown.ring))


def _write(canvas: Canvas, view: View, label: Label, ink: Ink) -> None:
    """Write a name, and a blank on each side that keeps all but bold lines off its letters."""
    canvas.text(label.row, label.column, label.name, ink)
    blank = ink if ink.ground is not None else BLANK
    for column in (label.columns.start - 1, label.columns.stop):
        if view.area.holds(label.row, column):
            canvas.text(label.row, column, " ", blank)
