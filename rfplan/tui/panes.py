# SPDX-License-Identifier: Apache-2.0
"""Panes: a title rule over rows, with a cursor, a scroll position, a count of what is hidden."""

from __future__ import annotations

from dataclasses import dataclass, field
from typing import NamedTuple

from rfplan.tui.glyphs import Glyphs
from rfplan.tui.runs import Row, Run, filled, grounded, row_cut, width
from rfplan.tui.tokens import Ground, Token

SIGN_COLUMNS = 2
"""Columns left of the rows of a pane, for the signs of focus and cursor."""


class Spot(NamedTuple):
    """Cells of a row, `stop` not included, that stand for something of their own."""

    start: int
    stop: int
    key: str


@dataclass(frozen=True, slots=True)
class Item:
    """One entry of a pane, a row or more; only one with a key can have the cursor."""

    rows: list[Row]
    key: str = ""
    spots: tuple[Spot, ...] = ()

    def key_at(self, column: int) -> str:
        """Return the key of a cell of its rows: that of a spot, else its own."""
        return next((key for start, stop, key in self.spots if start <= column < stop), self.key)


@dataclass(frozen=True, slots=True)
class Pane:
    """What a pane shows; `cursor` is the key of the chosen entry, `head` never scrolls away."""

    id: str
    title: Row
    items: list[Item]
    head: list[Row] = field(default_factory=list)
    cursor: str = ""
    focusable: bool = True

    def keys(self) -> list[str]:
        """Return the keys of the entries one can choose."""
        return [item.key for item in self.items if item.key]

    def text(self) -> str:
        """Return all of the pane as plain text, whether it is in sight or not."""
        rows = [*([self.title] if self.title else []), *self.head]
        rows += [row for item in self.items for row in item.rows]
        return "\n".join("".join(run.text for run in row).rstrip() for row in rows)


@dataclass(slots=True)
class Scroll:
    """How far a pane is scrolled, in rows; kept from one picture to the next."""

    top: int = 0

    def follow(self, first: int, last: int, room: int, total: int) -> None:
        """Keep the rows from `first` to `last` in sight, and no blank rows below the end."""
        self.top = min(self.top, first)
        self.top = max(self.top, last - room + 1)
        self.clamp(room, total)

    def clamp(self, room: int, total: int) -> None:
        """Leave no blank rows below the end."""
        self.top = max(0, min(self.top, total - room))


@dataclass(frozen=True, slots=True)
class PaneFace:
    """A pane as it is drawn: its rows, which entry is on which row, and where the cursor is."""

    rows: list[Row]
    entries: dict[int, Item]
    cursor_row: int | None


def item(row: Row, key: str = "") -> Item:
    """Return an entry of one row."""
    return Item([row], key)


def blank() -> Item:
    """Return an empty row."""
    return Item([[]])


def heading(text: str, more: str = "") -> Row:
    """Return a title: what it is about, and something beside it."""
    beside = [Run(f"  {more}", Token.ACCENT)] if more else []
    return [Run(text, Token.TEXT), *beside]


def draw_pane(
    pane: Pane, size: tuple[int, int], scroll: Scroll, glyphs: Glyphs, *, focused: bool
) -> PaneFace:
    """Return the rows of a pane, all as wide as asked; the first two columns are for signs."""
    columns, rows = size
    lines = [(row, item) for item in pane.items for row in item.rows]
    fixed = (1 if pane.title else 0) + len(pane.head)
    room = max(0, rows - fixed)
    chosen = [
        index for index, (_, item) in enumerate(lines) if item.key and item.key == pane.cursor
    ]
    if chosen:
        scroll.follow(chosen[0], chosen[-1], room, len(lines))
    else:
        scroll.clamp(room, len(lines))
    shown = lines[scroll.top : scroll.top + room]
    drawn = [_title(pane, columns, _hidden(scroll.top, room, len(lines)), glyphs, focused)]
    drawn = drawn if pane.title else []
    drawn += [filled([Run("  "), *row], columns) for row in pane.head]
    drawn += [
        _line(row, columns, glyphs, scroll.top + at in chosen, scroll.top + at in chosen[:1])
        for at, (row, _) in enumerate(shown)
    ]
    drawn += [filled([], columns)] * (rows - len(drawn))
    entries = {fixed + at: item for at, (_, item) in enumerate(shown) if item.key}
    seen = [fixed + index - scroll.top for index in chosen[:1] if index >= scroll.top]
    return PaneFace(drawn[:rows], entries, seen[0] if seen else None)


def _hidden(top: int, room: int, total: int) -> int:
    """How many rows are out of sight, above and below."""
    return max(0, total - room)


def _title(pane: Pane, columns: int, hidden: int, glyphs: Glyphs, focused: bool) -> Row:
    mark = Run(glyphs.focus if focused else " ", Token.ACCENT)
    ink = Token.BOLD if focused else Token.DIM
    title = [
        run._replace(token=ink if run.token is Token.TEXT else run.token) for run in pane.title
    ]
    more = f" {hidden} more {glyphs.more}" if hidden else ""
    shown = row_cut(title, columns - len(more) - len("  ") - 1, glyphs.ellipsis)
    left = [mark, Run(" "), *shown, Run(" ")]
    rule = max(0, columns - width(left) - len(more) - 1)
    ruled = [*left, Run(glyphs.ruling * rule, Token.FAINT)]
    return filled([*ruled, Run(more, Token.DIM)], columns)


def _line(row: Row, columns: int, glyphs: Glyphs, chosen: bool, first: bool) -> Row:
    """One row behind two columns that hold the sign of the cursor."""
    if not chosen:
        return filled([Run("  "), *row], columns)
    sign = Run(f"{glyphs.cursor if first else ' '} ", Token.ACCENT, Ground.SEL)
    return filled([sign, *grounded(row, Ground.SEL)], columns, Ground.SEL)
