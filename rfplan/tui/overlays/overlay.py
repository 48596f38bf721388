# SPDX-License-Identifier: Apache-2.0
"""What every overlay is: a title, rows, keys of its own, and a way out."""

from __future__ import annotations

from abc import ABC, abstractmethod
from collections.abc import Callable
from dataclasses import dataclass
from typing import TYPE_CHECKING

from rfplan.tui.bars import Frame, Hit, Key
from rfplan.tui.glyphs import Glyphs
from rfplan.tui.layout import Area
from rfplan.tui.runs import Row, Run, filled, grounded, text_of
from rfplan.tui.tokens import Ground, Token

if TYPE_CHECKING:
    from rfplan.tui.workspace import Workspace

MOST_COLUMNS, MOST_ROWS = 78, 20
"""An overlay holds on the smallest screen."""

SLIVER = 1
"""Columns beside an overlay in which nothing of the screen behind could be read."""


@dataclass(frozen=True, slots=True)
class Body:
    """The rows of an overlay, the cursor in them as column and row, and which are clickable."""

    rows: list[Row]
    cursor: tuple[int, int] | None = None
    presses: tuple[tuple[int, Callable[[], object]], ...] = ()


class Overlay(ABC):
    """Something over a screen; esc closes it."""

    title = ""
    columns = MOST_COLUMNS
    passing = False
    """Whether it only tells, so that another screen may be shown without ending it."""

    @property
    def types(self) -> bool:
        """Whether a digit is text that is typed."""
        return False

    def __init__(self, workspace: Workspace) -> None:
        self.workspace = workspace

    @abstractmethod
    def body(self, columns: int, rows: int) -> Body:
        """Return what it shows, at most so large."""

    @abstractmethod
    def press(self, key: str) -> None:
        """Take a key; esc never comes here."""

    @property
    def keys(self) -> list[Key]:
        """What stands in the key row, the way out first."""
        return [Key("esc", "back"), *self.own_keys]

    @property
    def own_keys(self) -> list[Key]:
        """The keys that this overlay has beside the way out."""
        return []

    def paste(self, text: str) -> None:
        """Take text that was pasted; most overlays have no use for it."""
        return

    def escape(self) -> None:
        """Close without doing anything."""
        self.close()

    def close(self) -> None:
        """Give the keys back to the screen."""
        self.workspace.overlay = None


def lay_over(frame: Frame, overlay: Overlay, glyphs: Glyphs) -> None:
    """Lay an overlay over a frame, whose own ink steps back and whose clicks rest, but for tabs."""
    columns, rows = len(text_of(frame.rows[0])), len(frame.rows)
    for index in range(1, rows - 2):
        frame.rows[index] = [
            Run(run.text, Token.FAINT if run.text.strip() else Token.TEXT, Ground.BG)
            for run in frame.rows[index]
        ]
    outer = min(overlay.columns, MOST_COLUMNS, columns - 2)
    inner = outer - 4
    body = overlay.body(inner, min(MOST_ROWS, rows - 6) - 2)
    left, top = (columns - outer) // 2, max(1, (rows - 3 - len(body.rows) - 2) // 2)
    title = [Run(" "), Run(overlay.title, Token.BOLD), Run(" ")]
    rule = glyphs.ruling * (outer - len(overlay.title) - 3)
    lines = [[*title, Run(rule, Token.FAINT)], *([Run("  "), *row] for row in body.rows)]
    lines.append([Run(glyphs.ruling * outer, Token.FAINT)])
    for index, line in enumerate(lines):
        if left <= SLIVER:
            frame.lay(top + index, 0, filled([], columns))
        frame.lay(top + index, left, grounded(filled(line, outer), Ground.PANEL))
    frame.hits = [hit for hit in frame.hits if hit.area.row == 0]
    frame.hits += [
        Hit(Area(top + 1 + index, left, 1, outer), press) for index, press in body.presses
    ]
    if body.cursor is not None:
        frame.cursor = (left + 2 + body.cursor[0], top + 1 + body.cursor[1])
