# SPDX-License-Identifier: Apache-2.0
"""Paths over frequency: ripple, reflections, pieces of another impedance, and pads on trial."""

from __future__ import annotations

from rfplan.model.assessment import Assessment
from rfplan.reports.budget_response import (
    loaded_lines_table,
    pads_table,
    pieces_table,
    response_table,
)
from rfplan.reports.context import Context
from rfplan.reports.heading import sheet
from rfplan.reports.sheet import Sheet
from rfplan.reports.study import path_studies

KEY = "response"
TITLE = "Response over frequency"

LIMITS = (
    "Method: each path as a chain of two-ports at nominal loss and 20 degC, between 50 ohm; a "
    "mated pair or part is a matched loss, since nobody states the phase of its reflection.",
    "The reflection of the antenna is taken at every phase, a unit that states no VSWR as matched. "
    "The least delivered power takes the least of the unit, the most loss and both reflections at "
    "their worst.",
    "The handbook formula for a line with a mismatched load takes the impedance of the line as "
    "real; it holds where loss in a wavelength is small, so less well the lower the frequency.",
)


def build(assessment: Assessment, context: Context) -> Sheet:
    """Return every path over its bands, with what reflections do to it."""
    studies = path_studies(assessment)
    return sheet(
        assessment,
        context,
        KEY,
        TITLE,
        response_table(studies),
        loaded_lines_table(studies),
        pieces_table(studies, context),
        pads_table(studies),
        limits=LIMITS,
    )
