# SPDX-License-Identifier: Apache-2.0
"""rfplan formulas: every cited formula with its units and its source."""

from __future__ import annotations

from argparse import Namespace

from rfplan.commands.output import deliver, text_width
from rfplan.reports.formats import text
from rfplan.reports.formulas import formulas_json
from rfplan.reports.json_text import json_text
from rfplan.reports.listings import formulas_sheet


def run(options: Namespace) -> int:
    """Print every formula."""
    if options.json:
        return deliver(json_text(formulas_json()), options, 0)
    return deliver(text.write(formulas_sheet(), width=text_width(options)), options, 0)
