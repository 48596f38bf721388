# SPDX-License-Identifier: Apache-2.0
"""What has happened, and how two assessments differ, verdicts first."""

from __future__ import annotations

from collections.abc import Sequence

from rfplan.model.assessment import Assessment
from rfplan.model.findings import Verdict
from rfplan.reports.compare import compare
from rfplan.reports.sheet import Cell, Table
from rfplan.reports.wrapping import wrapped
from rfplan.tui.history import ChangeRow, Effect
from rfplan.tui.panes import Item, Pane, blank, heading, item
from rfplan.tui.present.tags import Type, cell_run, sign, word
from rfplan.tui.runs import Row, Run, text_of
from rfplan.tui.tokens import Token

NONE_YET = "None yet. Select an antenna, press m, and move it."
ALIKE = "No difference."


def journal_pane(rows: Sequence[ChangeRow], cursor: str, columns: int, type: Type) -> Pane:
    """Return what happened, the latest first, each with what it did to verdicts and margins."""
    items = [Item(_happened(row, columns, type), str(index)) for index, row in enumerate(rows)]
    items.reverse()
    if not items:
        items = [item([Run(NONE_YET, Token.DIM)])]
    return Pane("journal", heading("Changes", _count(len(rows))), items, cursor=cursor)


def _count(rows: int) -> str:
    return f"{rows} in this session" if rows else ""


_DID = {
    "do": "",
    "undo": "undone: ",
    "redo": "redone: ",
    "taken": "recovered: ",
    "file": "file: ",
    "saved": "",
}


def _happened(row: ChangeRow, columns: int, type: Type) -> list[Row]:
    told = wrapped(f"{_DID[row.happening]}{row.words}", columns - 7)
    at = row.at.strftime("%H:%M")
    rows: list[Row] = [[Run(f"{at}  ", Token.FAINT), Run(told[0])]]
    rows += [[Run(" " * 7), Run(line)] for line in told[1:]]
    return rows + [[Run(" " * 7), *_effect(effect, type)] for effect in row.effects]


def _effect(effect: Effect, type: Type) -> Row:
    """One verdict, margin or finding before and after."""
    arrow = Run(f" {type.glyphs.arrow} ", Token.DIM)
    ends = [_side(text, type) for text in (effect.before, effect.after)]
    return [Run(f"{effect.subject}  ", Token.DIM), *ends[0], arrow, *ends[1]]


def _side(text: str, type: Type) -> Row:
    if text in tuple(Verdict):
        return [sign(Verdict(text), type.glyphs), Run(" "), word(Verdict(text))]
    return [Run(type.signed(text) if text else "none")]


def difference_pane(
    id: str, title: str, sides: tuple[Assessment, Assessment], columns: int, type: Type
) -> Pane:
    """Return the differences of two assessments, from the sheet that `rfplan compare` prints."""
    sheet = compare(*sides, type.unit)
    items: list[Item] = []
    for table in sheet.tables:
        if table.rows:
            items += [*([blank()] if items else []), item([Run(table.title, Token.BOLD)])]
            items += [Item(_difference(table, row, columns, type)) for row in table.rows]
    return Pane(id, heading(title), items or [item([Run(ALIKE, Token.DIM)])])


def _difference(table: Table, cells: tuple[Cell, ...], columns: int, type: Type) -> list[Row]:
    """One row of a table: what, then before and after, on one line or on two."""
    keys = [column.key for column in table.columns]
    told = dict(zip(keys, cells, strict=True))
    stub = [told[key].text for key in keys[: table.stub]]
    lead = f"  {'  '.join(stub)}  "
    before, after = _value(told["before"], type), _value(told["after"], type)
    return before_and_after(lead, before, after, columns, type)


def before_and_after(lead: str, before: Row, after: Row, columns: int, type: Type) -> list[Row]:
    """Return two values behind what they are of, on one line, on two, or on as many as it takes."""
    arrow = Run(f" {type.glyphs.arrow} ", Token.DIM)
    size = sum(len(run.text) for run in [*before, arrow, *after])
    if len(lead) + size <= columns:
        return [[Run(lead, Token.DIM), *before, arrow, *after]]
    if size + 4 <= columns:
        return [[Run(lead.rstrip(), Token.DIM)], [Run("    "), *before, arrow, *after]]
    ends = (text_of(before), f"{type.glyphs.arrow} {text_of(after)}")
    lines = [line for end in ends for line in wrapped(end, columns - 4)]
    return [[Run(lead.rstrip(), Token.DIM)], *([Run("    "), Run(line)] for line in lines)]


def _value(cell: Cell, type: Type) -> Row:
    return _side(cell.text, type) if cell.text in tuple(Verdict) else [cell_run(cell)]
