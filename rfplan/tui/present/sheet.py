# SPDX-License-Identifier: Apache-2.0
"""A sheet as rows: what the text format prints, cell by cell, in the inks of its words."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import replace
from typing import NamedTuple

from rfplan.reports.formats.text import Part, Piece, lines_of
from rfplan.reports.sheet import Cell, Sheet, Table
from rfplan.tui.glyphs import Tier
from rfplan.tui.panes import Pane, heading, item
from rfplan.tui.present.tags import Type
from rfplan.tui.runs import Row, Run, one_cell_each
from rfplan.tui.tokens import Token, token_of

_INKS: dict[Part, Token] = {
    "title": Token.BOLD,
    "label": Token.DIM,
    "heading": Token.FAINT,
    "note": Token.DIM,
    "gap": Token.TEXT,
}


class SheetRows(NamedTuple):
    """The rows of a sheet below its own title, and which of them begins its first table."""

    rows: list[Row]
    first_table: int


def sheet_rows(sheet: Sheet, columns: int, type: Type) -> SheetRows:
    """Return a sheet as the text format lays it out; a sign stands before each verdict."""
    lines = [[_run(piece) for piece in line] for line in lines_of(_signed(sheet, type), columns)]
    title = next((at for at, line in enumerate(lines) if line[0].token is not Token.BOLD), 0)
    first_gap = next((at for at, line in enumerate(lines) if not line), title)
    return SheetRows(lines[title:], first_gap + 1 - title)


def sheet_pane(told: SheetRows, title: str, place: str, *, draft: bool) -> Pane:
    """Return the pane that scrolls a sheet."""
    filed = Run("  DRAFT", Token.FAIL) if draft else Run("  as it will be filed", Token.DIM)
    return Pane("sheet", [*heading(title, place), filed], [item(row) for row in told.rows])


def sheets_pane(titles: Iterable[tuple[str, str]], chosen: str) -> Pane:
    """Return the list of all sheets, each by key and title."""
    items = [item([Run(title)], key) for key, title in titles]
    return Pane("sheets", heading("Sheets", str(len(items))), items, cursor=chosen)


def _run(piece: Piece) -> Run:
    ink = token_of(piece.token) if piece.part == "cell" else _INKS[piece.part]
    return Run(piece.text, ink)


def _signed(sheet: Sheet, type: Type) -> Sheet:
    """A sheet whose verdicts have their signs, in characters that take one cell each."""
    ascii_only = type.glyphs.tier is Tier.ASCII

    def shown(text: str) -> str:
        return one_cell_each(text, ascii_only)

    def cell(one: Cell) -> Cell:
        sign = type.glyphs.sign(one.token)
        return replace(one, text=shown(f"{sign} {one.text}" if sign else one.text))

    def table(one: Table) -> Table:
        heads = tuple(replace(column, title=shown(column.title)) for column in one.columns)
        rows = tuple(tuple(map(cell, row)) for row in one.rows)
        return replace(one, title=shown(one.title), columns=heads, rows=rows)

    return replace(
        sheet,
        title=shown(sheet.title),
        header=tuple((shown(label), cell(one)) for label, one in sheet.header),
        tables=tuple(map(table, sheet.tables)),
        notes=tuple(map(shown, sheet.notes)),
    )
