# SPDX-License-Identifier: Apache-2.0
"""One order of the sheets, wherever they are listed."""

from __future__ import annotations

from command_line import Run

from rfplan.reports import sheets
from rfplan.reports.filing_order import FILING_ORDER


def test_what_is_filed_begins_with_the_loss_budget_and_ends_with_the_ground_check() -> None:
    assert (sheets.FILED[0], sheets.FILED[-1]) == ("loss_budget", "ground_check")
    assert tuple(sheets.SHEETS) == FILING_ORDER


def test_help_names_them_in_that_order(rfplan: Run) -> None:
    shown = "".join(rfplan("sheet", "--help").out.split())
    assert ",".join(FILING_ORDER) in shown
