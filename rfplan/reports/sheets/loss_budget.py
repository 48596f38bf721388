# SPDX-License-Identifier: Apache-2.0
"""The loss-budget sheet: every path over every band against its window, and what it is made of."""

from __future__ import annotations

from rfplan.analysis.cable_loss import ESTIMATE_SPREAD_RATIO, MEMORY_SPREAD_RATIO
from rfplan.model.assessment import Assessment, PathAssessment
from rfplan.reports.budget_bands import bands_table
from rfplan.reports.budget_elements import elements_table, lengths_table
from rfplan.reports.budget_power import readings_table, receive_table, transmit_table
from rfplan.reports.budget_receivers import (
    gain_table,
    groups_table,
    retermination_table,
    supply_table,
)
from rfplan.reports.cells import listed, verdict_cell, words, words_or_nothing
from rfplan.reports.context import Context
from rfplan.reports.heading import sheet
from rfplan.reports.outcome import decided_by, loss_word
from rfplan.reports.sheet import Cell, Field, Sheet, Table, table, text_field

KEY = "loss_budget"
TITLE = "Loss budget"

LIMITS = (
    "Elements: a loss is stated as one figure, read from a table or a fitted law, or extrapolated "
    "to at most twice beyond its end. A tolerance is that of the source; where it states none, "
    f"{100 * MEMORY_SPREAD_RATIO:.0f} % of a figure from memory and "
    f"{100 * ESTIMATE_SPREAD_RATIO:.0f} % of an estimate are assumed. "
    "An own least or most is a figure of its own. What a cable may age by is the plan's choice, "
    "a share of the most it loses as new, and enters the max corner only; nothing stated is none.",
)


def build(assessment: Assessment, context: Context) -> Sheet:
    """Return the loss budget of all paths."""
    return sheet(
        assessment,
        context,
        KEY,
        TITLE,
        _paths_table(assessment),
        bands_table(assessment),
        elements_table(assessment),
        lengths_table(assessment, context),
        transmit_table(assessment),
        receive_table(assessment),
        gain_table(assessment),
        supply_table(assessment),
        retermination_table(assessment, context),
        groups_table(assessment, context),
        readings_table(assessment),
        limits=LIMITS,
        documents=(("basis documents", _basis_documents(assessment)),),
    )


def _basis_documents(assessment: Assessment) -> Cell:
    """The documents that the limits of the ports are cited from, each named once."""
    plan = assessment.plan
    units = plan.installation.units
    sources = [plan.source(units[path.unit].ports[path.port].source) for path in assessment.paths]
    return words_or_nothing("; ".join(dict.fromkeys(filter(None, (s.edition for s in sources)))))


def _paths_table(assessment: Assessment) -> Table:
    """The word of each path, loss and findings together, and what decided it."""
    fields: list[Field[PathAssessment]] = [
        text_field("path", "path", lambda path: words(path.id)),
        text_field("function", "function", lambda path: words(_function(path, assessment))),
        text_field("overall", "overall", lambda path: verdict_cell(path.overall)),
        text_field("loss", "loss", lambda path: verdict_cell(loss_word(path))),
        text_field(
            "decided_by",
            "decided by",
            lambda path: words_or_nothing(decided_by(path, assessment)),
        ),
        text_field("radio", "radio", lambda path: words(path.radio)),
        text_field("from", "from", lambda path: words(f"{path.unit}.{path.port}")),
        text_field("to", "to", lambda path: words(path.antenna)),
        text_field("direction", "direction", lambda path: words(path.direction)),
        text_field("pairs", "mated pairs", lambda path: words(str(path.mated_pairs))),
        text_field("findings", "findings", lambda path: listed(path.findings)),
    ]
    return table("paths", "Paths", fields, assessment.paths)


def _function(path: PathAssessment, assessment: Assessment) -> str:
    return assessment.rulebook.radios[path.radio].title
