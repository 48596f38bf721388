# SPDX-License-Identifier: Apache-2.0
"""A line of text that is being typed."""

from __future__ import annotations

from dataclasses import dataclass

from rfplan.tui.runs import Row, Run, cropped, filled, width
from rfplan.tui.tokens import Ground, Token

LONGEST = 500


@dataclass(slots=True)
class TextField:
    """Text and the place of the cursor in it; `press` tells whether a key was for it."""

    text: str = ""
    at: int = -1
    fresh: bool = False
    """Whether the first character typed takes the place of the text, which is only proposed."""

    def __post_init__(self) -> None:
        if self.at < 0:
            self.at = len(self.text)

    def press(self, key: str) -> bool:
        """Take a key: a character, or one that moves the cursor or takes characters away."""
        if len(key) == 1:
            self.insert(key)
            return True
        self.fresh = False
        moved = {
            "left": max(0, self.at - 1),
            "right": min(len(self.text), self.at + 1),
            "home": 0,
            "end": len(self.text),
        }
        if key in moved:
            self.at = moved[key]
        elif key == "backspace" and self.at:
            self._cut(self.at - 1, self.at)
        elif key == "delete":
            self._cut(self.at, self.at + 1)
        elif key == "ctrl+u":
            self._cut(0, self.at)
        elif key not in ("backspace",):
            return False
        return True

    def insert(self, text: str) -> None:
        """Put text in at the cursor, as a key or a paste brings it."""
        if self.fresh:
            self._cut(0, len(self.text))
            self.fresh = False
        text = "".join(sign if sign.isprintable() else " " for sign in text)
        text = text[: LONGEST - len(self.text)]
        self.text = self.text[: self.at] + text + self.text[self.at :]
        self.at += len(text)

    def _cut(self, start: int, stop: int) -> None:
        self.text = self.text[:start] + self.text[stop:]
        self.at = start

    def shown(self, columns: int, *, active: bool = True) -> tuple[Row, int]:
        """Return the field as a row of so many cells, and the column of the cursor in it."""
        start = max(0, self.at - columns + 2)
        ground = Ground.SEL if active else Ground.BG
        text = cropped([Run(self.text, Token.BOLD, ground)], start, start + columns)
        if not active:
            text.append(Run("_" * (columns - width(text)), Token.FAINT))
        return filled(text, columns, ground), self.at - start
