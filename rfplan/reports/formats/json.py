# SPDX-License-Identifier: Apache-2.0
"""A sheet for programs: every cell with its text, its value and its unit."""

from __future__ import annotations

from rfplan.reports.json_text import Json, json_text, rounded
from rfplan.reports.sheet import Cell, Column, Sheet, Table

FORMAT = "rfplan-sheet/1"


def write(sheet: Sheet, *, width: int = 0) -> str:
    """Return a sheet as one JSON object; `width` does not matter."""
    return json_text(sheet_json(sheet))


def sheet_json(sheet: Sheet) -> Json:
    """Return a sheet as plain mappings and lists."""
    return {
        "format": FORMAT,
        "sheet": sheet.key,
        "title": sheet.title,
        "header": [{"label": label, **_cell(cell)} for label, cell in sheet.header],
        "tables": [_table(table) for table in sheet.tables],
        "notes": list(sheet.notes),
    }


def _table(table: Table) -> Json:
    return {
        "key": table.key,
        "title": table.title,
        "columns": [_column(column) for column in table.columns],
        "rows": [[_cell(cell) for cell in row] for row in table.rows],
    }


def _column(column: Column) -> Json:
    return {"key": column.key, "title": column.title, "unit": column.unit}


def _cell(cell: Cell) -> Json:
    value = rounded(cell.value) if isinstance(cell.value, float) else cell.value
    return {"text": cell.text, "value": value, "unit": cell.unit}
