# SPDX-License-Identifier: Apache-2.0
"""The colours of verdicts on paper; each word is always printed too."""

from __future__ import annotations

from rfplan.reports.formats.html import INKS
from rfplan.reports.sheet import Cell

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
