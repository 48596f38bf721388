# SPDX-License-Identifier: Apache-2.0
"""rfplan rules: list and explain the rules."""

from __future__ import annotations

from argparse import Namespace

from rfplan.commands.output import deliver, text_width
from rfplan.files.table_files import load_rulebook
from rfplan.reports.formats import text
from rfplan.reports.json_text import json_text
from rfplan.reports.listings import rules_json, rules_sheet


def run(options: Namespace) -> int:
    """Print every rule: what it finds, why, what clears it, its limits and its source."""
    rulebook = load_rulebook()
    if options.json:
        return deliver(json_text(rules_json(rulebook)), options, 0)
    return deliver(text.write(rules_sheet(rulebook), width=text_width(options)), options, 0)
