# SPDX-License-Identifier: Apache-2.0
"""How much the antennas are isolated from each other, by which model, and how good that is."""

from __future__ import annotations

from collections.abc import Iterator
from typing import NamedTuple

from rfplan.analysis.couplings import standing_readings
from rfplan.analysis.facts import Facts
from rfplan.analysis.isolation_models import Rung
from rfplan.analysis.ladder import AT_ONCE, Step, ladders
from rfplan.model.assessment import Assessment
from rfplan.model.interference import Matrix, MatrixCell
from rfplan.model.plan import IsolationReading
from rfplan.reports.cells import (
    NOT_APPLICABLE,
    decibels,
    frequency,
    length,
    listed,
    nothing,
    number,
    words,
    words_or_nothing,
)
from rfplan.reports.context import Context
from rfplan.reports.heading import sheet
from rfplan.reports.interference_words import (
    MODELS,
    band_cell,
    by_rung,
    decided,
    doubts_text,
    range_cell,
)
from rfplan.reports.sheet import Field, Sheet, Table, number_field, table, text_field
from rfplan.reports.study import facts_of, matrix_of

KEY = "isolation"
TITLE = "Isolation of antennas"

LIMITS = (
    "Method: plug to plug, both gains and the mismatch inside. 'computed' is the default model "
    "inside the range it was compared for; 'better by' is how much more a better model may say. "
    "A bound is the straight line with both gains at their stated maximum, else 2.15 dBi in band; "
    "a stated gain is taken at its word at every frequency, which no data sheet promises.",
    MODELS,
    "No model knows doors, gaps, cables or a real hull's ends. Where the model is outside its "
    "range the number is for orientation and the cell says TEST.",
    "Rungs: what other models say of pairs on conducting skin that are in tune. The default one "
    "decides, best and quick never do; a measured isolation stands before all of them, in the band "
    "it lies in and while its antennas stand as far apart as when it was read. The exact rung, an "
    "infinite cylinder of the hull's girth, is worked out only when asked for (--rung exact).",
)


def build(assessment: Assessment, context: Context) -> Sheet:
    """Return every transmitting antenna against every receiving one, least margin first."""
    facts = facts_of(assessment)
    matrix = matrix_of(assessment, context.rung)
    return sheet(
        assessment,
        context,
        KEY,
        by_rung(TITLE, context.rung),
        _pairs(matrix, context),
        matrix_table(matrix),
        *_rungs(facts, matrix, context.rung),
        *_readings(facts, context),
        limits=LIMITS,
    )


class _Rung(NamedTuple):
    """What one step of the ladder says of two antennas at one frequency."""

    pair: tuple[str, str]
    at_hz: float
    step: Step


def _rungs(facts: Facts, matrix: Matrix, chosen: Rung) -> Iterator[Table]:
    """Every rung for each pair and frequency of which more than one model speaks."""
    asked = {
        (min(cell.source, cell.victim), max(cell.source, cell.victim), one.frequency_hz)
        for cell in matrix.cells
        for one in cell.exposures
    }
    told = ladders(facts.scene, asked, dict.fromkeys((*AT_ONCE, chosen)))
    rows = [
        _Rung((a, b), at_hz, step)
        for (a, b, at_hz), steps in sorted(told.items())
        for step in steps
        if len(steps) > 1
    ]
    fields: list[Field[_Rung]] = [
        text_field("between", "between", lambda row: listed(row.pair)),
        number_field("at", "at", "MHz", lambda row: frequency(row.at_hz)),
        text_field("rung", "rung", lambda row: listed(row.step.rungs)),
        number_field("have", "isolation", "dB", lambda row: decibels(row.step.coupling.have_db)),
        text_field("band", "better by [dB]", lambda row: band_cell(row.step.coupling)),
        text_field("doubt", "doubt", lambda row: words_or_nothing(doubts_text(row.step.doubts))),
        text_field("model", "model", lambda row: words(row.step.coupling.model)),
    ]
    if rows:
        yield table("rungs", "What each rung of the ladder says", fields, rows, stub=2)


def _readings(facts: Facts, context: Context) -> Iterator[Table]:
    """What was measured in this state."""
    units = context.units
    fields: list[Field[tuple[str, tuple[IsolationReading, bool]]]] = [
        text_field("id", "reading", lambda row: words(row[0])),
        text_field("between", "between", lambda row: listed(row[1][0].between)),
        number_field("at", "at", "MHz", lambda row: frequency(row[1][0].at_hz)),
        number_field("have", "isolation", "dB", lambda row: decibels(row[1][0].isolation_db)),
        number_field("doubt", "+-", "dB", lambda row: number(row[1][0].uncertainty_db, "dB")),
        number_field("apart", "apart", units, lambda row: length(row[1][0].apart_m, units)),
        text_field("stands", "stands", lambda row: words("stale" if row[1][1] else "yes")),
        text_field("with", "with", lambda row: words_or_nothing(row[1][0].with_)),
        text_field("who", "who", lambda row: words_or_nothing(row[1][0].who)),
        text_field("date", "date", lambda row: words_or_nothing(_date(row[1][0]))),
    ]
    if rows := standing_readings(facts.scene):
        yield table("readings", "Isolation measured", fields, sorted(rows.items()))


def _date(reading: IsolationReading) -> str:
    return "" if reading.date is None else reading.date.isoformat()


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
