# SPDX-License-Identifier: Apache-2.0
"""rfplan validation: the published checks, source beside expected and computed."""

from __future__ import annotations

from argparse import Namespace

from rfplan.commands.output import deliver, text_width
from rfplan.reports.formats import text
from rfplan.reports.json_text import json_text
from rfplan.reports.listings import validation_sheet
from rfplan.reports.validation import validation_json, validation_rows


def run(options: Namespace) -> int:
    """Print all rows; 1 if one of them does not hold."""
    rows = validation_rows()
    code = 0 if all(row.passed for row in rows) else 1
    if options.json:
        return deliver(json_text(validation_json(rows)), options, code)
    return deliver(text.write(validation_sheet(rows), width=text_width(options)), options, code)
