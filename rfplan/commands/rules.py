# SPDX-License-Identifier: Apache-2.0
"""rfplan rules: list and explain the rules."""

from __future__ import annotations

from argparse import Namespace

from rfplan.commands.choices import not_one_of
from rfplan.commands.output import complain, deliver, text_width
from rfplan.files.table_files import load_rulebook
from rfplan.reports.formats import text
from rfplan.reports.json_text import json_text
from rfplan.reports.listings import rules_json, rules_sheet
from rfplan.reports.outcome import NOT_JUDGED
from rfplan.rules import RULES


def run(options: Namespace) -> int:
    """Print rules: what each finds, why, what clears it, its limits and its source."""
    known = {rule.id: rule for rule in RULES}
    wanted = [word.upper() for word in options.rules] or list(known)
    for word in wanted:
        if word not in known:
            complain(f"rfplan: {not_one_of('rule', word, known)}")
            return NOT_JUDGED
    rulebook, rules = load_rulebook(), [known[word] for word in wanted]
    if options.json:
        return deliver(json_text(rules_json(rulebook, rules)), options, 0)
    sheet = rules_sheet(rulebook, rules=rules)
    return deliver(text.write(sheet, width=text_width(options)), options, 0)
