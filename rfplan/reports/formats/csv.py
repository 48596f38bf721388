# SPDX-License-Identifier: Apache-2.0
"""A sheet for spreadsheets (RFC 4180): its tables below each other, no cell that computes."""

from __future__ import annotations

import csv
import io
import re
from collections.abc import Iterator

from rfplan.reports.sheet import Sheet, Table

_COMPUTES = tuple("=+-@\t\r\n\uff1d\uff0b\uff0d\uff20")
"""First characters, plain and full width, by which a spreadsheet takes text for a formula."""

_NUMBER = re.compile(r"[-+]?[0-9]+(\.[0-9]+)?")


def write(sheet: Sheet, *, width: int = 0) -> str:
    """Return a sheet as comma-separated values; `width` does not matter."""
    text = io.StringIO(newline="")
    csv.writer(text).writerows([inert(one) for one in line] for line in _lines(sheet))
    return text.getvalue()


def inert(text: str) -> str:
    """Return a text that no spreadsheet takes for a formula; numbers stay numbers."""
    computes = text.startswith(_COMPUTES) and not _NUMBER.fullmatch(text)
    return f"'{text}" if computes else text


def _lines(sheet: Sheet) -> Iterator[list[str]]:
    yield [sheet.title]
    yield from ([label, cell.text] for label, cell in sheet.header)
    for table in sheet.tables:
        yield []
        yield from _table(table)
    yield []
    yield from ([note] for note in sheet.notes)


def _table(table: Table) -> Iterator[list[str]]:
    yield [table.title]
    yield [column.heading for column in table.columns]
    for row in table.rows:
        yield [cell.text for cell in row]
