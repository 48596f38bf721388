# SPDX-License-Identifier: Apache-2.0
"""How verdicts, numbers and texts of any kind are set on a screen."""

from __future__ import annotations

import re
from dataclasses import dataclass

from rfplan.model.findings import Verdict
from rfplan.model.plan import State
from rfplan.reports.cells import LengthUnit, length
from rfplan.reports.sheet import Cell
from rfplan.tui.glyphs import Glyphs
from rfplan.tui.runs import Row, Run
from rfplan.tui.tokens import token_of

AS: dict[State, str] = {
    State.FOUND: "as found",
    State.DESIGN: "as designed",
    State.BUILT: "as built",
}
"""What a state of the plan is called in a sentence."""


_BELOW_ZERO = re.compile(r"(?<![\w-])-(?=\d)|^-$")
"""A minus before a number, or alone; the hyphen of a word is none."""


@dataclass(frozen=True, slots=True)
class Type:
    """What rows are set with: the signs, and the unit of lengths."""

    glyphs: Glyphs
    unit: LengthUnit = "in"

    @property
    def ellipsis(self) -> str:
        """What stands for words that are left out."""
        return self.glyphs.ellipsis

    def signed(self, text: str) -> str:
        """Return a text in which each number below zero has the minus sign of the tier."""
        return _BELOW_ZERO.sub(self.glyphs.minus, text)


def sign(verdict: Verdict | None, glyphs: Glyphs) -> Run:
    """Return the sign of a verdict; its word stands in the same row."""
    if verdict is None:
        return Run(" ")
    return Run(glyphs.verdict(str(verdict)), token_of(str(verdict)))


def word(verdict: Verdict, columns: int = 0) -> Run:
    """Return the word of a verdict in its ink."""
    return Run(str(verdict).ljust(columns), token_of(str(verdict)))


def tag(verdict: Verdict, glyphs: Glyphs) -> Row:
    """Return sign and word."""
    return [sign(verdict, glyphs), Run(" "), word(verdict)]


def cell_run(cell: Cell, columns: int = 0, *, right: bool = False) -> Run:
    """Return a cell of a sheet in its ink."""
    text = cell.text.rjust(columns) if right else cell.text.ljust(columns)
    return Run(text, token_of(cell.token))


def length_text(length_m: float | None, unit: LengthUnit) -> str:
    """Return a length without its unit, as sheets print it."""
    return length(length_m, unit, absent="-").text
