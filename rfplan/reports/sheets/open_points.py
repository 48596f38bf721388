# SPDX-License-Identifier: Apache-2.0
"""What is missing or only assumed: what blocks a verdict first."""

from __future__ import annotations

from rfplan.model.assessment import Assessment
from rfplan.model.findings import OpenPoint, Verdict
from rfplan.model.plan import Plan
from rfplan.reports.cells import nothing, number, words, words_or_nothing
from rfplan.reports.context import Context
from rfplan.reports.heading import sheet
from rfplan.reports.sheet import Cell, Field, Sheet, Table, number_field, table, text_field

KEY = "open_points"
TITLE = "Open points"


def build(assessment: Assessment, context: Context) -> Sheet:
    """Return every open point, blocking ones first."""
    return sheet(assessment, context, KEY, TITLE, open_points_table(assessment, context))


def open_points_table(assessment: Assessment, context: Context) -> Table:
    """Return the open points as a table with the places where they are written."""
    fields: list[Field[OpenPoint]] = [
        text_field("kind", "kind", kind_cell),
        text_field("object", "object", lambda point: words(point.object)),
        text_field("field", "field", lambda point: words(point.field)),
        text_field("text", "what is open", lambda point: words(point.text)),
        text_field("who", "who", lambda point: words_or_nothing(point.who)),
        text_field("accepted", "accepted by", lambda point: _accepted(point, assessment.plan)),
        text_field("file", "file", lambda point: _place(point, context)[0]),
        number_field("line", "line", "", lambda point: _place(point, context)[1]),
    ]
    points = sorted(assessment.open_points, key=lambda point: (not point.blocking, point.id))
    return table(KEY, "Blocking first", fields, points, stub=3)


def kind_cell(point: OpenPoint) -> Cell:
    """Return whether a point blocks a verdict or only waits to be confirmed."""
    return words("blocking", str(Verdict.INCOMPLETE)) if point.blocking else words("to confirm")


def _accepted(point: OpenPoint, plan: Plan) -> Cell:
    """Return who takes it upon himself that a point stays open, and since when."""
    accepted = plan.accepted.get(point.id)
    return words(f"{accepted.who}, {accepted.date.isoformat()}") if accepted else nothing()


def _place(point: OpenPoint, context: Context) -> tuple[Cell, Cell]:
    if context.where is None:
        return nothing(), nothing()
    file, line, _ = context.where(point.where)
    return words(file), number(line, "")
