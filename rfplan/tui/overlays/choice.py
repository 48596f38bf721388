# SPDX-License-Identifier: Apache-2.0
"""A list to choose from, with a field that narrows it: the palette, finding, cables, sides."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass
from functools import partial
from typing import TYPE_CHECKING

from rfplan.tui.bars import Key
from rfplan.tui.overlays.overlay import Body, Overlay
from rfplan.tui.runs import Row, Run, filled, grounded, text_of
from rfplan.tui.text_field import TextField
from rfplan.tui.tokens import Ground, Token

if TYPE_CHECKING:
    from rfplan.tui.workspace import Workspace


@dataclass(frozen=True, slots=True)
class Entry:
    """One thing to choose; a `refusal` says why it cannot be."""

    row: Row
    choose: Callable[[], object]
    refusal: str = ""


class ChoiceOverlay(Overlay):
    """A list; typing narrows it, enter chooses."""

    def __init__(
        self,
        workspace: Workspace,
        title: str,
        entries: Sequence[Entry],
        *,
        at: int = 0,
        head: Row | None = None,
    ) -> None:
        super().__init__(workspace)
        self.title = title
        self.entries = list(entries)
        self.field = TextField()
        self.at = at
        self.head = head or []
        self.note = ""

    @property
    def shown(self) -> list[Entry]:
        """The entries that have all typed words in them."""
        words = self.field.text.lower().split()
        return [e for e in self.entries if all(w in text_of(e.row).lower() for w in words)]

    @property
    def types(self) -> bool:
        return True

    @property
    def own_keys(self) -> list[Key]:
        return [Key("enter", "choose"), Key("type", "to narrow"), Key("up down", "go")]

    def body(self, columns: int, rows: int) -> Body:
        shown = self.shown
        field, cursor = self.field.shown(columns)
        top: list[Row] = [field, filled(self.head, columns)] if self.head else [field]
        room = max(1, rows - len(top) - 1)
        self.at = max(0, min(self.at, len(shown) - 1))
        first = max(0, min(self.at - room // 2, len(shown) - room))
        lines = [*top]
        presses = []
        for index in range(first, min(first + room, len(shown))):
            presses.append((len(lines), partial(self._choose, shown[index])))
            lines.append(self._line(shown[index], columns, index == self.at))
        hidden = len(shown) - min(room, len(shown))
        told = self.note or (f"{hidden} more" if hidden else "" if shown else "Nothing like that.")
        return Body([*lines, [Run(told, Token.DIM)]], (cursor, 0), tuple(presses))

    def _line(self, entry: Entry, columns: int, chosen: bool) -> Row:
        mark = self.workspace.look.glyphs.cursor if chosen else " "
        ink = [run._replace(token=Token.DIM) for run in entry.row] if entry.refusal else entry.row
        row = filled([Run(f"{mark} ", Token.ACCENT), *ink], columns)
        return grounded(row, Ground.SEL) if chosen else row

    def press(self, key: str) -> None:
        self.note = ""
        moves = {"up": -1, "down": 1, "pageup": -10, "pagedown": 10}
        if key in moves:
            self.at += moves[key]
        elif key == "enter" and self.shown:
            self._choose(self.shown[max(0, min(self.at, len(self.shown) - 1))])
        elif self.field.press(key):
            self.at = 0

    def paste(self, text: str) -> None:
        self.field.insert(text)

    def _choose(self, entry: Entry) -> None:
        if entry.refusal:
            self.note = entry.refusal
            return
        self.close()
        entry.choose()
