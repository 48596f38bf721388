# SPDX-License-Identifier: Apache-2.0
"""A sheet as Markdown with pipe tables; text from files stays text."""

from __future__ import annotations

import re
from collections.abc import Iterator

from rfplan.reports.sheet import Column, Sheet, Table

_MARKUP = re.compile(r"[\\`*_\[\]<>|~&!#]")
_LEADING = re.compile(r"^(?:[-+=]|\d+(?=[.)]))")


def write(sheet: Sheet, *, width: int = 0) -> str:
    """Return a sheet as Markdown; `width` does not matter."""
    return "\n".join(_lines(sheet)) + "\n"


def inline(text: str) -> str:
    """Return a text in which nothing is markup; an entity or a tag is shown as written."""
    return _MARKUP.sub(lambda mark: f"\\{mark[0]}", text)


def line(text: str) -> str:
    """Return a text that may stand at the start of a line without becoming a list or a rule."""
    return _LEADING.sub(_disarmed, inline(text))


def _disarmed(start: re.Match[str]) -> str:
    """A digit cannot be escaped, so the point behind a number is left to stand behind a space."""
    return f"\\{start[0]}" if not start[0].isdigit() else f"{start[0]}\\"


def _lines(sheet: Sheet) -> Iterator[str]:
    yield f"# {inline(sheet.title)}"
    yield ""
    yield from (f"- {inline(label)}: {inline(cell.text)}" for label, cell in sheet.header)
    for table in sheet.tables:
        yield ""
        yield f"## {inline(table.title)}"
        yield ""
        yield from _table(table)
    yield ""
    for note in sheet.notes:
        yield line(note)
        yield ""


def _table(table: Table) -> Iterator[str]:
    if not table.rows:
        yield "none"
        return
    yield _row(inline(column.heading) for column in table.columns)
    yield _row(_rule(column) for column in table.columns)
    for row in table.rows:
        yield _row(inline(cell.text) for cell in row)


def _row(texts: Iterator[str]) -> str:
    return f"| {' | '.join(texts)} |"


def _rule(column: Column) -> str:
    return "---:" if column.align == "right" else "---"
