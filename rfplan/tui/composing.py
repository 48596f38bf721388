# SPDX-License-Identifier: Apache-2.0
"""A whole screen from a workspace: bars, panes, the drawing, and what lies over them."""

from __future__ import annotations

from collections.abc import Iterator
from functools import partial
from typing import TYPE_CHECKING

from rfplan.model.findings import Verdict
from rfplan.reports.outcome import word_counts
from rfplan.tui.actions import Mode, ScreenId
from rfplan.tui.bars import (
    Frame,
    Hit,
    Key,
    Note,
    empty_frame,
    key_row,
    keys_for,
    tab_spans,
    tabs,
    too_small,
    top_bar,
)
from rfplan.tui.glyphs import Glyphs, Tier
from rfplan.tui.layout import Area, SizeClass, size_class
from rfplan.tui.overlays.overlay import lay_over
from rfplan.tui.panes import draw_pane
from rfplan.tui.runs import Row, Run, filled, merged, row_cut, shown_in, spread, width
from rfplan.tui.screens import airframe, changes, coupling, measured, path, sheet
from rfplan.tui.screens.part import Part
from rfplan.tui.signs import Focus
from rfplan.tui.sketch import place_of
from rfplan.tui.stage import Paper
from rfplan.tui.tokens import Token, token_of
from rfplan.tui.workspace import DRAWING, Placed, Workspace

if TYPE_CHECKING:
    from rfplan.tui.airframe_view import Drawing

_PARTS = {
    ScreenId.AIRFRAME: airframe.parts,
    ScreenId.PATH: path.parts,
    ScreenId.COUPLING: coupling.parts,
    ScreenId.MEASURED: measured.parts,
    ScreenId.SHEET: sheet.parts,
    ScreenId.CHANGES: changes.parts,
}


def compose(workspace: Workspace, columns: int, rows: int) -> Frame:
    """Return the screen of a workspace at a size, and let the workspace know what is where."""
    size = size_class(columns, rows)
    if size is SizeClass.TOO_SMALL:
        workspace.frame = too_small(columns, rows)
        return workspace.frame
    frame = empty_frame(columns, rows)
    _lay_parts(frame, workspace, Area(1, 0, rows - 3, columns), size)
    _lay_top(frame, workspace, columns)
    _lay_sentence(frame, workspace, columns, rows - 2)
    _lay_keys(frame, workspace, columns, rows - 1)
    if workspace.overlay is not None:
        lay_over(frame, workspace.overlay, workspace.look.glyphs)
    _lay_told(frame, workspace, columns, rows - 3)
    ascii_only = workspace.look.glyphs.tier is Tier.ASCII
    frame.rows = [merged(shown_in(row, ascii_only=ascii_only)) for row in frame.rows]
    workspace.frame = frame
    return frame


def _lay_parts(frame: Frame, workspace: Workspace, area: Area, size: SizeClass) -> None:
    parts = _PARTS[workspace.screen](workspace, area, size)
    workspace.placed = {}
    for part in parts:
        id = DRAWING if part.pane is None else part.pane.id
        workspace.placed[id] = Placed(part.area, part.pane, {})
    for part in parts:
        if part.pane is None:
            _lay_drawing(frame, workspace, part, size)
        else:
            _lay_pane(frame, workspace, part)


def _lay_pane(frame: Frame, workspace: Workspace, part: Part) -> None:
    pane, area = part.pane, part.area
    assert pane is not None
    focused = workspace.looking.has_keys(pane.id)
    scroll = workspace.scroll(pane.id)
    glyphs = workspace.look.glyphs
    face = draw_pane(pane, (area.columns, area.rows), scroll, glyphs, focused=focused)
    for index, row in enumerate(face.rows):
        frame.lay(area.row + index, area.column, row)
    workspace.placed[pane.id] = Placed(area, pane, face.entries)
    if focused:
        frame.cursor = (area.column, area.row + (face.cursor_row or 0))


def _lay_drawing(frame: Frame, workspace: Workspace, part: Part, size: SizeClass) -> None:
    area = part.area
    drawing = drawing_of(workspace, area, size)
    for index, row in enumerate(drawing.picture.rows()):
        frame.lay(area.row + index, area.column, row)
    if workspace.mode is Mode.MOVING or workspace.looking.has_keys(DRAWING):
        frame.lay(area.row, area.column, [Run(workspace.look.glyphs.focus, Token.ACCENT)])
        frame.cursor = (area.column, area.row)
        place = place_of(workspace.assessment, workspace.session.selection.antenna)
        if place is not None:
            down, right = drawing.stage.views[0].cell_of(place.point_m)
            if drawing.stage.views[0].area.holds(down, right):
                frame.cursor = (area.column + right, area.row + down)


def drawing_of(workspace: Workspace, area: Area, size: SizeClass) -> Drawing:
    """Return the drawing for an area of the screen."""
    chosen = workspace.session.selection
    moving = workspace.moving
    focus = Focus(
        chosen.antenna,
        chosen.path,
        moving_from=None if moving is None else moving.was.point_m,
        ring=moving is not None or _distance_broken(workspace),
        proposed=workspace.proposing.points(),
    )
    paper = Paper(area.rows, area.columns, workspace.look.glyphs, workspace.unit)
    kinds = airframe.kinds(workspace, size)
    zone_kinds = workspace.session.file.rulebook.zone_kinds
    roomed = workspace.showing.roomed()
    return workspace.sketch.draw(workspace.assessment, focus, paper, kinds, zone_kinds, roomed)


def _distance_broken(workspace: Workspace) -> bool:
    """Whether the selected antenna lacks a distance that is required."""
    antenna = workspace.session.selection.antenna
    return any(
        fact.verdict not in (None, Verdict.PASS, Verdict.ADVICE)
        for fact in workspace.assessment.spacing
        if antenna in (fact.a, fact.b)
    )


def _lay_top(frame: Frame, workspace: Workspace, columns: int) -> None:
    frame.lay(0, 0, top_bar(tabs(workspace.screen, columns), list(_notes(workspace)), columns))
    for screen, start, stop in tab_spans(columns):
        area = Area(0, start, 1, stop - start)
        frame.hits.append(Hit(area, partial(workspace.show, screen)))


def _notes(workspace: Workspace) -> Iterator[Note]:
    """The worst count, what is unsaved, which state, the other counts, which aircraft."""
    session = workspace.session
    worst, *counts = _counts(workspace) or [[]]
    yield Note("right", [worst])
    if workspace.banner:
        yield Note("left", _broken_on_disk(session.unsaved, workspace.look.glyphs))
    else:
        sign = workspace.look.glyphs.unsaved
        yield Note("left", _saved_or_not(session.unsaved, session.read_only, sign))
    yield Note("left", [[Run(str(session.plan.state), Token.TEXT)]])
    yield from (Note("right", [count]) for count in counts)
    yield Note("left", [[Run(session.plan.airframe.name, Token.DIM)]])


def _broken_on_disk(count: int, glyphs: Glyphs) -> list[Row]:
    """What stands in the place of 'saved' while the files cannot be read as they are."""
    short = Run(f"{glyphs.fails} file", Token.FAIL)
    if not count:
        return [[Run(f"{glyphs.fails} file unreadable", Token.FAIL)], [short]]
    few, full = _unsaved_runs(count, glyphs.unsaved)
    return [[full, Run("  "), short], [few, Run(" "), short], [short]]


def _unsaved_runs(count: int, sign: str) -> tuple[Run, Run]:
    return Run(f"{sign} {count}", Token.ACCENT), Run(f"{sign} {count} unsaved", Token.ACCENT)


def _saved_or_not(count: int, read_only: bool, sign: str) -> list[Row]:
    locked = Run("read-only", Token.NEAR)
    few, full = _unsaved_runs(count, sign)
    if not read_only:
        return [[full], [few]] if count else [[Run("saved", Token.DIM)]]
    return [[full, Run("  "), locked], [few, Run(" "), locked], [locked]] if count else [[locked]]


_TOGETHER = {Verdict.FAIL_HIGH: Verdict.FAIL, Verdict.FAIL_LOW: Verdict.FAIL}


def _counts(workspace: Workspace) -> list[Row]:
    """How many paths have each word, the worst first; the three kinds of FAIL count as one."""
    glyphs = workspace.look.glyphs
    paths = workspace.assessment.paths
    counts = word_counts(_TOGETHER.get(path.overall, path.overall) for path in paths)
    return [
        [Run(f"{glyphs.verdict(str(verdict))} {count} {verdict}", token_of(str(verdict)))]
        for verdict, count in counts.items()
        if count
    ]


def _lay_sentence(frame: Frame, workspace: Workspace, columns: int, row: int) -> None:
    moving = workspace.moving
    beside = (
        []
        if moving is None or moving.choosing
        else [Run(f"step {moving.step:g} {workspace.unit} ", Token.DIM)]
    )
    room = columns - 2 - width(beside) - (1 if beside else 0)
    said = row_cut(workspace.said(room), room, workspace.type.ellipsis)
    frame.lay(row, 0, spread([Run(" "), *said], beside, columns))


def _lay_told(frame: Frame, workspace: Workspace, columns: int, row: int) -> None:
    """Lay a message above the sentence row while a banner has that."""
    if workspace.banner and (told := workspace.told()):
        cut = row_cut(told, columns - 2, workspace.type.ellipsis)
        frame.lay(row, 0, filled([Run(" "), *cut], columns))


def _lay_keys(frame: Frame, workspace: Workspace, columns: int, row: int) -> None:
    overlay = workspace.overlay
    keys = overlay.keys if overlay else keys_for(workspace.screen, workspace.mode)
    if overlay is not None and len(keys) < 2:
        keys = [*keys, Key("", "")]
    laid, starts = key_row(keys, columns)
    frame.lay(row, 0, laid)
    if overlay is None:
        for start, key in starts:
            if key.action is not None and key.action.id != "arrows":
                area = Area(row, start, 1, key.columns)
                frame.hits.append(Hit(area, partial(workspace.press, key.action.keys[0])))
