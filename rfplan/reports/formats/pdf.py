# SPDX-License-Identifier: Apache-2.0
"""Sheets as pages to print and file: landscape, fonts inside, DRAFT on every page of a draft."""

from __future__ import annotations

from collections.abc import Sequence

from rfplan.reports.documents import PaperName, made_on, told
from rfplan.reports.drawing_pdf import draw
from rfplan.reports.inks import DRAFT
from rfplan.reports.page_columns import SHORT, folds, without_empty
from rfplan.reports.page_setting import setting
from rfplan.reports.paper import LARGE, MIDDLE, SMALL, Paper
from rfplan.reports.sheet import Cell, Sheet, Table
from rfplan.reports.table_pages import TablePages

LABEL_MM, COLUMN_GAP_MM = 30.0, 6.0
FACT_SHARES = (0.45, 0.55)
"""The columns of the heading as parts of the page; the right one holds the hashes whole."""

NOTES_GAP_MM = 3.0
TITLE_MM = 10.0
"""The height of a title of two lines, and a little more."""


def document(sheets: Sequence[Sheet], paper: PaperName = "a4") -> bytes:
    """Return sheets as a PDF, each from a page of its own; MissingExtraError without fpdf2."""
    drafts = [cell.text for sheet in sheets if (cell := told(sheet, DRAFT)) is not None]
    page = Paper(paper, made_on(sheets), f"{DRAFT}: {drafts[0]}" if drafts else "")
    for sheet in sheets:
        _sheet(page, sheet)
    return page.content()


def _sheet(page: Paper, sheet: Sheet) -> None:
    name = told(sheet, "sheet")
    page.start(sheet.title, name.text if name else sheet.title)
    page.line(sheet.title, size=LARGE, bold=True)
    page.skip(1.5)
    _facts(page, [pair for pair in sheet.header if pair[0] not in ("sheet", DRAFT)])
    below = NOTES_GAP_MM + page.height_of(sheet.notes)
    for table in sheet.tables:
        _table(page, table, below if table is sheet.tables[-1] else 0.0)
    page.skip(NOTES_GAP_MM)
    page.paragraphs(sheet.notes, ink="dim")
    for picture in sheet.pictures:
        page.turn()
        draw(page, picture)


def _facts(page: Paper, facts: Sequence[tuple[str, Cell]]) -> None:
    """Set the heading in columns, read downwards."""
    count = len(FACT_SHARES)
    rows = -(-len(facts) // count)
    spare = page.width - COLUMN_GAP_MM * (count - 1)
    widths = [spare * share for share in FACT_SHARES]
    starts = [sum(widths[:column]) + COLUMN_GAP_MM * column for column in range(count)]
    for row in range(rows):
        page.row(
            [
                (starts[column], widths[column], facts[row + column * rows])
                for column in range(count)
                if row + column * rows < len(facts)
            ],
            LABEL_MM,
        )


def _table(page: Paper, table: Table, below: float) -> None:
    """Set a table fold by fold, its last row together with what is below it."""
    table, empty = without_empty(table)
    below += page.height_of([empty]) if empty else 0.0
    parts = [
        TablePages(page, table, fold, setting(table, fold, page.width, page.gap, page.measure))
        for fold in (folds(table) if table.rows else ())
    ]
    page.skip(4.0)
    stays = len(parts) < 2 and len(table.rows) <= SHORT
    page.keep_together(TITLE_MM + (parts[0].least if parts else SMALL) + (below if stays else 0.0))
    page.line(table.title, size=MIDDLE, bold=True)
    for number, part in enumerate(parts):
        page.skip(2.5 if number else 0.0)
        part.write(below if part is parts[-1] else 0.0)
    if not parts or empty:
        page.line(empty or "none", size=SMALL, ink="dim")
