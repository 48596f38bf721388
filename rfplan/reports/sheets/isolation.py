# SPDX-License-Identifier: Apache-2.0
"""How much the antennas are isolated from each other, by which model, and how good that is."""

from __future__ import annotations

from rfplan.analysis.interference import interference
from rfplan.model.assessment import Assessment
from rfplan.model.interference import Matrix, MatrixCell
from rfplan.reports.cells import NOT_APPLICABLE, decibels, frequency, length, nothing, words
from rfplan.reports.context import Context
from rfplan.reports.heading import sheet
from rfplan.reports.interference_words import band_cell, decided, range_cell
from rfplan.reports.sheet import Field, Sheet, Table, number_field, table, text_field
from rfplan.reports.study import facts_of

KEY = "isolation"
TITLE = "Isolation of antennas"

LIMITS = (
    "Method: plug to plug, both gains and the mismatch inside. 'computed' is the default model "
    "inside the range it was compared for; 'better by' is how much more a better model may say. "
    "A bound is the straight line with both gains at their stated maximum, else 2.15 dBi in band; "
    "a stated gain is taken at its word at every frequency, which no data sheet promises.",
    "No model knows doors, gaps, cables or a real hull's ends; nothing here was measured. Where "
    "the model is outside its range the number is for orientation and the cell says TEST.",
)


def build(assessment: Assessment, context: Context) -> Sheet:
    """Return every transmitting antenna against every receiving one, least margin first."""
    matrix = interference(facts_of(assessment))
    return sheet(
        assessment,
        context,
        KEY,
        TITLE,
        _pairs(matrix, context),
        matrix_table(matrix),
        limits=LIMITS,
    )


def _pairs(matrix: Matrix, context: Context) -> Table:
    fields: list[Field[MatrixCell]] = [
        text_field("source", "sends", lambda cell: words(cell.source)),
        text_field("victim", "receives", lambda cell: words(cell.victim)),
        text_field("verdict", "verdict", lambda cell: decided(cell.worst)),
        number_field("at", "at", "MHz", lambda cell: frequency(cell.worst.frequency_hz)),
        number_field(
            "distance",
            "straight",
            context.units,
            lambda cell: length(cell.distance_m, context.units),
        ),
        number_field("have", "isolation", "dB", lambda cell: decibels(cell.worst.coupling.have_db)),
        text_field("band", "better by [dB]", lambda cell: band_cell(cell.worst.coupling)),
        number_field(
            "need", "needs", "dB", lambda cell: decibels(cell.worst.need_db, absent=NOT_APPLICABLE)
        ),
        number_field(
            "margin",
            "margin",
            "dB",
            lambda cell: decibels(cell.worst.margin_db, absent=NOT_APPLICABLE),
        ),
        text_field("valid", "in range", lambda cell: range_cell(cell.worst.coupling)),
        text_field("model", "model", lambda cell: words(cell.worst.coupling.model)),
    ]
    title = "Sender to receiver at its worst emission, worst first"
    return table("pairs", title, fields, matrix.cells, stub=2)


def matrix_table(matrix: Matrix) -> Table:
    """Return the verdicts as a matrix: a row for each sender, a column for each receiver."""
    told = {(cell.source, cell.victim): decided(cell.worst) for cell in matrix.cells}

    def column(victim: str) -> Field[str]:
        return text_field(
            f"to_{victim}", victim, lambda source: told.get((source, victim), nothing())
        )

    fields = [text_field("source", "sends", words), *map(column, matrix.victims)]
    return table("matrix", "Matrix: rows send, columns receive", fields, matrix.sources)
