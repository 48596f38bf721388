# SPDX-License-Identifier: Apache-2.0
"""The survey form in the order of a walk from nose to tail: what the plan knows, and blanks."""

from __future__ import annotations

from rfplan.model.assessment import Assessment
from rfplan.reports.context import Context
from rfplan.reports.heading import sheet
from rfplan.reports.sheet import Sheet
from rfplan.reports.survey_tables import (
    blank_table,
    cables_table,
    ports_table,
    segments_table,
    walk_table,
)

KEY = "survey"
TITLE = "Survey form"

LIMITS = (
    "Fill in what is measured, with the tape along the structure for segments. A '?' is not known "
    "yet and decides something; what is left blank stays unknown and is never zero.",
    "FS aft of the datum, BL right of the centre line positive, WL up. The form lists what the "
    "plan holds in the state looked at; what else is found goes on the empty lines.",
)


def build(assessment: Assessment, context: Context) -> Sheet:
    """Return the form, filled in as far as the plan goes."""
    return sheet(
        assessment,
        context,
        KEY,
        TITLE,
        walk_table(assessment, context),
        ports_table(assessment),
        cables_table(assessment, context),
        segments_table(assessment, context),
        blank_table(context),
        limits=LIMITS,
    )
