# SPDX-License-Identifier: Apache-2.0
"""Which colour tells what on a page, and what each is on paper; the word is always there too."""

from __future__ import annotations

from rfplan.model.findings import Verdict
from rfplan.reports.sheet import Cell

DRAFT = "DRAFT"

INKS = {
    **dict.fromkeys((Verdict.FAIL_HIGH, Verdict.FAIL_LOW, Verdict.FAIL, DRAFT, "DIFFERS"), "fail"),
    **dict.fromkeys((Verdict.PASS, "AGREES"), "pass"),
    Verdict.NEAR: "near",
    Verdict.WAIVED: "waived",
    Verdict.INCOMPLETE: "incomplete",
    Verdict.ADVICE: "dim",
    "dim": "dim",
}
"""The class that colours the token of a cell; its word is always printed too."""

PRINTED = {
    "text": "#1D2733",
    "dim": "#55626F",
    "pass": "#006449",
    "near": "#745100",
    "fail": "#AE083D",
    "waived": "#6A4494",
    "incomplete": "#2F3B53",
    "sign": "#55626F",
}
"""The colour of each ink."""


def ink_of(cell: Cell) -> str:
    """Return the ink that a cell is printed in."""
    return INKS.get(cell.token, "text")


def is_bold(cell: Cell) -> bool:
    """Tell whether a cell stands out by more than its colour."""
    return ink_of(cell) not in ("text", "dim")
