# SPDX-License-Identifier: Apache-2.0
"""Lines to be read and scrolled: the plain read-out, differences, and the keys of a screen."""

from __future__ import annotations

from collections.abc import Iterator
from typing import TYPE_CHECKING

from rfplan.tui.actions import TABS, Action, Mode, ScreenId, actions_for
from rfplan.tui.bars import Key
from rfplan.tui.overlays.overlay import Body, Overlay
from rfplan.tui.runs import Row, Run, filled
from rfplan.tui.tokens import Token

if TYPE_CHECKING:
    from rfplan.tui.workspace import Workspace


class ReadingOverlay(Overlay):
    """Rows that scroll by line and by page."""

    passing = True

    def __init__(self, workspace: Workspace, title: str, rows: list[Row]) -> None:
        super().__init__(workspace)
        self.title = title
        self.rows = rows
        self.top = 0
        self.room = 1

    @property
    def own_keys(self) -> list[Key]:
        return [Key("up down", "scroll"), Key("q", "back")]

    def body(self, columns: int, rows: int) -> Body:
        self.room = rows - 1
        self.top = max(0, min(self.top, len(self.rows) - self.room))
        lines = self.rows[self.top : self.top + self.room]
        hidden = len(self.rows) - len(lines)
        below = len(self.rows) - self.top - len(lines)
        told = f"{below} more below" if below else ("end" if hidden else "")
        return Body([*lines, [Run(told, Token.DIM)]], (0, 0))

    def press(self, key: str) -> None:
        page = max(1, self.room - 1)
        moves = {
            "up": -1,
            "k": -1,
            "down": 1,
            "j": 1,
            "pageup": -page,
            "pagedown": page,
            " ": page,
            "home": -len(self.rows),
            "end": len(self.rows),
        }
        if key in moves:
            self.top += moves[key]
        elif key in ("q", "enter", "?"):
            self.close()


KEYS_COLUMNS = 9
COLUMNS, COLUMN = 3, 24


def rows_of_keys(screen: ScreenId, mode: Mode) -> list[Row]:
    """Return every key of a screen by groups, in columns that are read downwards."""
    lines = list(_lines_of_keys(screen, mode))
    count = -(-len(lines) // COLUMNS)
    lines += [[]] * (count * COLUMNS - len(lines))
    columns = [lines[index * count : (index + 1) * count] for index in range(COLUMNS)]
    return [
        [run for cell in cells for run in filled(cell, COLUMN)]
        for cells in zip(*columns, strict=True)
    ]


def _lines_of_keys(screen: ScreenId, mode: Mode) -> Iterator[Row]:
    groups: dict[str, list[Action]] = {}
    for action in actions_for(screen, mode):
        groups.setdefault(action.group, []).append(action)
    for name, actions in groups.items():
        yield [Run(name, Token.BOLD)]
        if TABS[0] in actions:
            yield _line_of_keys(f"{TABS[0].all_keys} .. {TABS[-1].all_keys}", "screens")
        for action in actions:
            if action not in TABS:
                yield _line_of_keys(action.all_keys or ":", action.label)


def _line_of_keys(keys: str, label: str) -> Row:
    return [Run(" "), Run(f"{keys.ljust(KEYS_COLUMNS)} ", Token.ACCENT), Run(label)]
