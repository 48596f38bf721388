# SPDX-License-Identifier: Apache-2.0
"""Sheets as one workbook, a tab each: numbers are numbers, everything else is text."""

from __future__ import annotations

import io
import re
from collections.abc import Iterator, Sequence
from typing import Any

from rfplan.reports.documents import PaperName, library, made_on
from rfplan.reports.inks import PRINTED, ink_of, is_bold
from rfplan.reports.json_text import rounded
from rfplan.reports.sheet import Cell, Sheet, Table

NEVER_CLEVER = {
    "in_memory": True,
    "strings_to_formulas": False,
    "strings_to_urls": False,
    "strings_to_numbers": False,
}
"""Text stays text, whatever it looks like."""

PAPERS: dict[PaperName, int] = {"letter": 1, "a4": 9}
"""The numbers by which a workbook calls sizes of paper."""

WIDEST, NARROWEST = 44, 9
"""Characters of a column."""

_LONGEST_TAB = 31
_NO_TAB = re.compile(r"[\[\]:*?/\\']|^history$", re.IGNORECASE)
_DIGITS = re.compile(r"[-+]?[0-9]+(?:\.([0-9]+))?(.*)", re.DOTALL)
_QUOTED = re.compile(r'["\\]')


def document(sheets: Sequence[Sheet], paper: PaperName = "a4") -> bytes:
    """Return sheets as a workbook, the same each time; MissingExtraError without XlsxWriter."""
    content = io.BytesIO()
    book = library("xlsx").Workbook(content, NEVER_CLEVER)
    book.set_properties({"created": made_on(sheets).replace(tzinfo=None)})
    styles = _Styles(book)
    for sheet, name in zip(sheets, _tab_names(sheets), strict=True):
        page = book.add_worksheet(name)
        page.set_paper(PAPERS[paper])
        _Tab(page, styles).write(sheet)
    book.close()
    return content.getvalue()


def number_format(text: str) -> str:
    """Return the format that shows a number as its text does: its digits, then its unit."""
    found = _DIGITS.fullmatch(text)
    if found is None:
        return "General"
    digits = f"0.{'0' * len(found[1])}" if found[1] else "0"
    unit = _QUOTED.sub("", found[2])
    return f'{digits}"{unit}"' if unit else digits


def _tab_names(sheets: Sequence[Sheet]) -> Iterator[str]:
    """Yield a name for each tab that no other has."""
    taken: set[str] = set()
    for sheet in sheets:
        title = sheet.title if len(sheet.title) <= _LONGEST_TAB else sheet.key
        name = _NO_TAB.sub("_", title)[:_LONGEST_TAB].strip() or "sheet"
        number = 1
        while name.casefold() in taken:
            number += 1
            ending = f" {number}"
            name = name[: _LONGEST_TAB - len(ending)] + ending
        taken.add(name.casefold())
        yield name


class _Styles:
    """The cell formats of a workbook, each made once."""

    def __init__(self, book: Any) -> None:
        self._book = book
        self._made: dict[tuple[tuple[str, object], ...], Any] = {}

    def of(self, **settings: object) -> Any:
        """Return the format with these settings."""
        key = tuple(sorted(settings.items()))
        if key not in self._made:
            self._made[key] = self._book.add_format(settings)
        return self._made[key]


class _Tab:
    """One sheet being written from top to bottom."""

    def __init__(self, page: Any, styles: _Styles) -> None:
        self._page = page
        self._styles = styles
        self._row = 0
        self._widths: dict[int, int] = {}

    def write(self, sheet: Sheet) -> None:
        """Write heading, tables and notes; the first row stays in sight."""
        self._text(0, sheet.title, bold=True, font_size=14)
        self._row = 1
        for label, cell in sheet.header:
            self._text(0, label, font_color=PRINTED["dim"])
            self._cell(1, cell)
            self._row += 1
        for table in sheet.tables:
            self._table(table)
        self._row += 1
        for note in sheet.notes:
            self._text(0, note, font_color=PRINTED["dim"])
            self._row += 1
        self._set_up()

    def _table(self, table: Table) -> None:
        self._row += 1
        self._text(0, table.title, bold=True)
        self._row += 1
        for number, column in enumerate(table.columns):
            side = "right" if column.align == "right" else "left"
            self._text(
                number, column.heading, bottom=1, bg_color="#F4F4F2", align=side, text_wrap=True
            )
            longest = max(map(len, column.heading.split()), default=0)
            self._widths[number] = max(self._widths.get(number, 0), longest)
        for row in table.rows:
            self._row += 1
            for number, cell in enumerate(row):
                self._cell(number, cell)
                self._widths[number] = max(self._widths.get(number, 0), len(cell.text))
        self._row += 1

    def _cell(self, column: int, cell: Cell) -> None:
        style: dict[str, object] = {"valign": "top"}
        if cell.token:
            style |= {"font_color": PRINTED[ink_of(cell)], "bold": is_bold(cell)}
        if isinstance(cell.value, float | int) and not isinstance(cell.value, bool):
            style["num_format"] = number_format(cell.text)
            value = rounded(cell.value)
            self._page.write_number(self._row, column, value, self._styles.of(**style))
        else:
            self._text(column, cell.text, text_wrap=column > 1, **style)

    def _text(self, column: int, text: str, **style: object) -> None:
        """Write a text that no program takes for a formula, even once it is edited."""
        look = self._styles.of(**style, quote_prefix=True, num_format="@")
        self._page.write_string(self._row, column, text, look)

    def _set_up(self) -> None:
        for column, width in self._widths.items():
            self._page.set_column(column, column, max(NARROWEST, min(WIDEST, width + 2)))
        self._page.freeze_panes(1, 1)
        self._page.set_landscape()
        self._page.fit_to_pages(1, 0)
        self._page.hide_gridlines(2)
        self._page.set_footer("&L&A&Rpage &P of &N")
