# SPDX-License-Identifier: Apache-2.0
"""What is missing or only assumed: what blocks a verdict first."""

from __future__ import annotations

from rfplan.model.assessment import Assessment
from rfplan.model.findings import Acceptance, OpenPoint, Verdict
from rfplan.reports.cells import nothing, number, words, words_or_nothing
from rfplan.reports.context import Context
from rfplan.reports.heading import sheet
from rfplan.reports.sheet import Cell, Field, Sheet, Table, number_field, table, text_field
from rfplan.rules.acceptances import binding_of

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
        text_field("accepted", "accepted by", lambda point: _accepted(point.acceptance)),
        text_field("standing", "standing", lambda point: _standing(point.acceptance)),
        text_field("check", "compensating check", lambda point: _check(point.acceptance)),
        text_field("bound", "binds to", lambda point: words_or_nothing(binding_of(point))),
        text_field("file", "file", lambda point: _place(point, context)[0]),
        number_field("line", "line", "", lambda point: _place(point, context)[1]),
    ]
    points = sorted(assessment.open_points, key=lambda point: (not point.blocking, point.id))
    return table(KEY, "Blocking first", fields, points, stub=3)


def kind_cell(point: OpenPoint) -> Cell:
    """Return whether a point blocks a verdict or only waits to be confirmed."""
    return words("blocking", str(Verdict.INCOMPLETE)) if point.blocking else words("to confirm")


def _accepted(acceptance: Acceptance | None) -> Cell:
    """Return who takes it upon himself that a point stays open, and since when."""
    return words(f"{acceptance.who}, {acceptance.date}") if acceptance else nothing()


def _check(acceptance: Acceptance | None) -> Cell:
    """Return what is done on the aircraft to make up for a point that stays open."""
    return words_or_nothing(acceptance.check if acceptance else None)


def _standing(acceptance: Acceptance | None) -> Cell:
    """Return whether an acceptance is still one of the value as it is."""
    if acceptance is None:
        return nothing()
    if acceptance.reopened:
        return words("reopened: changed since")
    return words("not bound" if acceptance.unbound else "holds")


def _place(point: OpenPoint, context: Context) -> tuple[Cell, Cell]:
    if context.where is None:
        return nothing(), nothing()
    file, line, _ = context.where(point.where)
    return words(file), number(line, "")
