# SPDX-License-Identifier: Apache-2.0
"""Sheets as one HTML file for screen and paper: no script, nothing fetched, text stays text."""

from __future__ import annotations

import re
from collections.abc import Iterator, Sequence
from html import escape
from pathlib import Path

from rfplan.reports.drawing_svg import style, svg_element
from rfplan.reports.inks import DRAFT, INKS
from rfplan.reports.page_columns import (
    LONGEST_WHOLE,
    SHORT,
    Group,
    folds,
    is_blank,
    pieces_of,
    without_empty,
)
from rfplan.reports.sheet import Cell, Sheet, Table

STYLE = Path(__file__).with_name("sheet.css")

POLICY = "default-src 'none'; style-src 'unsafe-inline'"
"""What a browser may load for the file: nothing but the style inside it."""

_HASH = re.compile(r"([0-9a-f]{32})([0-9a-f]{32})")
_JOINT = re.compile(r"[^\w]")
_NO_CSS_WORD = re.compile(r"[^A-Za-z0-9]")


def write(sheet: Sheet, *, width: int = 0) -> str:
    """Return a sheet as an HTML file; `width` does not matter."""
    return document([sheet])


def document(sheets: Sequence[Sheet]) -> str:
    """Return sheets as one HTML file of ASCII letters, each sheet on pages of its own."""
    text = "\n".join(_document(sheets))
    return text.encode("ascii", "xmlcharrefreplace").decode("ascii")


def _document(sheets: Sequence[Sheet]) -> Iterator[str]:
    yield "<!DOCTYPE html>"
    yield '<html lang="en">'
    yield '<meta charset="utf-8">'
    yield f'<meta http-equiv="Content-Security-Policy" content="{POLICY}">'
    yield '<meta name="viewport" content="width=device-width">'
    yield f"<title>{escape(', '.join(_name(sheet) for sheet in sheets))}</title>"
    yield "<style>"
    yield STYLE.read_text("utf-8")
    if any(sheet.pictures for sheet in sheets):
        yield style()
    yield from (_page(number, sheet) for number, sheet in enumerate(sheets))
    yield "</style>"
    yield "<body>"
    drafts = [cell for sheet in sheets if (cell := _draft(sheet)) is not None]
    if drafts:
        yield f'<p class="draft">{DRAFT}: {_text(drafts[0].text)}</p>'
    for number, sheet in enumerate(sheets):
        yield f'<article class="page{number}">'
        yield from _sheet(sheet)
        for place, picture in enumerate(sheet.pictures):
            yield svg_element(picture, f"picture{number}-{place}")
        yield "</article>"
    yield "</body>"
    yield "</html>\n"


def _name(sheet: Sheet) -> str:
    """Return what a sheet is filed under, or its title."""
    label, cell = sheet.header[0] if sheet.header else ("", Cell(""))
    return cell.text if label == "sheet" else sheet.title


def _draft(sheet: Sheet) -> Cell | None:
    return next((cell for label, cell in sheet.header if label == DRAFT), None)


def _page(number: int, sheet: Sheet) -> str:
    """Return the style of a sheet's own pages, which tells its name at the foot of each."""
    return (
        f".page{number} {{ page: page{number} }}\n"
        f"@page page{number} {{ @bottom-left {{ content: {css_text(_name(sheet))} }} }}"
    )


def css_text(text: str) -> str:
    """Return a text as a CSS string in which only letters and digits stand as they are."""
    return f'"{_NO_CSS_WORD.sub(_css_escape, text)}"'


def _css_escape(character: re.Match[str]) -> str:
    """The blank ends the escape and is not part of the text."""
    return f"\\{ord(character[0]):x} "


def _sheet(sheet: Sheet) -> Iterator[str]:
    yield f"<h1>{_text(sheet.title)}</h1>"
    coloured = [pair for pair in sheet.header if pair[1].token in INKS]
    yield from _heading("words", coloured)
    yield from _heading("facts", [pair for pair in sheet.header if pair not in coloured])
    for table in sheet.tables:
        yield '<section class="short">' if len(table.rows) <= SHORT else "<section>"
        yield f"<h2>{_text(table.title)}</h2>"
        yield from _table(table)
        yield "</section>"
    yield '<div class="notes"><div>'
    yield from (f'<p class="note">{_text(note)}</p>' for note in sheet.notes)
    yield "</div></div>"


def _heading(name: str, pairs: Sequence[tuple[str, Cell]]) -> Iterator[str]:
    if pairs:
        yield f'<dl class="{name}">'
        yield from (
            f"<div><dt>{_text(label)}</dt><dd>{_cell(cell)}</dd></div>" for label, cell in pairs
        )
        yield "</dl>"


def _table(table: Table) -> Iterator[str]:
    if not table.rows:
        yield '<p class="none">none</p>'
        return
    table, empty = without_empty(table)
    for fold in folds(table):
        yield "<table>"
        yield from _head(table, fold)
        yield "<tbody>"
        for row in table.rows:
            cells = (_body_cell(table, row, column) for group in fold for column in group.columns)
            yield f"<tr>{''.join(cells)}</tr>"
        yield "</tbody>"
        yield "</table>"
    if empty:
        yield f'<p class="none">{_text(empty)}</p>'


def _head(table: Table, fold: Sequence[Group]) -> Iterator[str]:
    """Yield one row of headings, or two where some columns share a heading."""
    rows = 2 if any(group.titles for group in fold) else 1
    yield "<thead>"
    yield f"<tr>{''.join(_group_heading(table, group, rows) for group in fold)}</tr>"
    if rows > 1:
        yield f"<tr>{''.join(_member_headings(table, group) for group in fold)}</tr>"
    yield "</thead>"


def _group_heading(table: Table, group: Group, rows: int) -> str:
    title = _titled(group.title, group.unit)
    if group.titles:
        return f'<th colspan="{len(group.columns)}" scope="colgroup">{title}</th>'
    kind = _side(table, group.columns[0])
    return f'<th rowspan="{rows}" scope="col"{kind}>{title}</th>'


def _member_headings(table: Table, group: Group) -> str:
    return "".join(
        f'<th scope="col"{_side(table, column)}>'
        f"{_titled(title, '' if group.unit else table.columns[column].unit)}</th>"
        for title, column in zip(group.titles, group.columns, strict=False)
    )


def _titled(title: str, unit: str) -> str:
    shown = f' <span class="unit">{_text(unit)}</span>' if unit else ""
    return f"{_text(title)}{shown}".strip()


def _body_cell(table: Table, row: Sequence[Cell], column: int) -> str:
    cell = row[column]
    name, scope = ("th", ' scope="row"') if column < table.stub else ("td", "")
    whole = ' class="whole"' if len(cell.text) <= LONGEST_WHOLE else ""
    return f"<{name}{scope}{_side(table, column) or whole}>{_cell(cell)}</{name}>"


def _side(table: Table, column: int) -> str:
    return ' class="number"' if table.columns[column].align == "right" else ""


def _cell(cell: Cell) -> str:
    """Return a cell's text, coloured by what it says."""
    if halves := _HASH.fullmatch(cell.text):
        return f'<span class="hash">{halves[1]}<wbr>{halves[2]}</span>'
    ink = "sign" if is_blank(cell.text) else INKS.get(cell.token)
    return f'<span class="{ink}">{_text(cell.text)}</span>' if ink else _text(cell.text)


def _text(text: str) -> str:
    """Return a text with nothing left that is markup, and with places where it may break."""
    return " ".join(map(_word, text.split(" ")))


def _word(word: str) -> str:
    pieces = pieces_of(word)
    if len(pieces) == 1 and _JOINT.search(word):
        return f'<span class="whole">{escape(word)}</span>'
    return "<wbr>".join(map(escape, pieces))
