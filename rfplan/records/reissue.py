# SPDX-License-Identifier: Apache-2.0
"""Which sheets must be issued anew: those of which a cell below the heading differs."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from rfplan.model.assessment import Assessment
from rfplan.reports.canonical import hashes_of
from rfplan.reports.cells import LengthUnit, listed, words
from rfplan.reports.context import Context
from rfplan.reports.sheet import Field, Sheet, Table, table, text_field
from rfplan.reports.sheets import FILED, SHEETS


@dataclass(frozen=True, slots=True)
class Reissue:
    """A sheet, and the titles of its tables that no longer hold."""

    key: str
    tables: tuple[str, ...]


def reissues(before: Assessment, after: Assessment, units: LengthUnit) -> Iterator[Reissue]:
    """Yield the sheets that differ between two assessments."""
    contexts = [_context(one, units) for one in (before, after)]
    for key in FILED:
        was, now = (
            _tables(SHEETS[key].build(one, context))
            for one, context in zip((before, after), contexts, strict=True)
        )
        titles = tuple(title for title in {**was, **now} if was.get(title) != now.get(title))
        if titles:
            yield Reissue(key, titles)


def reissue_table(before: Assessment, after: Assessment, units: LengthUnit) -> Table:
    """Return the sheets to be issued anew as a table."""
    fields: list[Field[Reissue]] = [
        text_field("sheet", "sheet", lambda one: words(one.key)),
        text_field("tables", "tables that differ", lambda one: listed(one.tables)),
    ]
    return table("reissue", "Sheets to issue anew", fields, reissues(before, after, units))


def _context(assessment: Assessment, units: LengthUnit) -> Context:
    hashes = hashes_of(assessment.plan, assessment.catalog, assessment.rulebook)
    return Context(hashes, units)


def _tables(sheet: Sheet) -> dict[str, list[list[str]]]:
    """Return the texts of a sheet by table, without the heading, which tells the revision."""
    return {
        table.title: [[column.heading for column in table.columns]]
        + [[cell.text for cell in row] for row in table.rows]
        for table in sheet.tables
    }
