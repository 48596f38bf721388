# SPDX-License-Identifier: Apache-2.0
"""What to measure first: values that are not known well, by the verdicts that hang on them."""

from __future__ import annotations

from rfplan.model.assessment import Assessment
from rfplan.model.electrical import Decider
from rfplan.reports.cells import NOT_APPLICABLE, decibels, listed, number, words
from rfplan.reports.context import Context
from rfplan.reports.heading import sheet
from rfplan.reports.sheet import Field, Sheet, number_field, table, text_field
from rfplan.reports.study import facts_of
from rfplan.rules.what_to_measure import what_to_measure

KEY = "measure_first"
TITLE = "What to measure first"

LIMITS = (
    "Method: each value is put to either end of its spread, all others left at their corners; a "
    "verdict that changes is one that a measurement may settle.",
    "Loss, net gain and carrier to noise are tried so; power, sensitivity and supply only where "
    "something of them is not known at all.",
)


def build(assessment: Assessment, context: Context) -> Sheet:
    """Return every value worth measuring, those that settle most verdicts first."""
    fields: list[Field[Decider]] = [
        text_field("object", "what", lambda one: words(one.object)),
        text_field("field", "figure", lambda one: words(one.field)),
        number_field("count", "verdicts", "", lambda one: number(len(one.resolves), "")),
        text_field("resolves", "verdicts that hang on it", lambda one: listed(one.resolves)),
        number_field(
            "spread", "spread", "dB", lambda one: decibels(one.spread_db, absent=NOT_APPLICABLE)
        ),
        text_field("text", "why", lambda one: words(one.text)),
    ]
    worth = what_to_measure(facts_of(assessment), assessment)
    found = table(KEY, "By the verdicts that it settles", fields, worth, stub=2)
    return sheet(assessment, context, KEY, TITLE, found, limits=LIMITS)
