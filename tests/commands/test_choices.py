# SPDX-License-Identifier: Apache-2.0
"""A word that is not known is answered with those that were nearly meant."""

from __future__ import annotations

import pytest

from rfplan.commands.choices import not_one_of

SHEETS = ["cut_list", "findings", "loss_budget", "spacing"]


@pytest.mark.parametrize(
    ("word", "known", "said"),
    [
        ("spcing", SHEETS, "no sheet 'spcing'; did you mean spacing?"),
        ("LOSS", SHEETS, "no sheet 'LOSS'; did you mean loss_budget?"),
        ("zzz", SHEETS, "no sheet 'zzz'; there are cut_list, findings, loss_budget, spacing"),
        ("", SHEETS, "no sheet ''; there are cut_list, findings, loss_budget, spacing"),
        ("zzz", ["one"], "no sheet 'zzz'; there is one"),
        ("zzz", [], "no sheet 'zzz'; there is none"),
        ("\x1b[31m", ["one"], "no sheet '\\u001b[31m'; there is one"),
    ],
)
def test_near_misses_come_first_and_then_all_there_are(
    word: str, known: list[str], said: str
) -> None:
    assert not_one_of("sheet", word, known) == said
