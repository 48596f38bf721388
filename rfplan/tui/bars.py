# SPDX-License-Identifier: Apache-2.0
"""The first and the last rows of the screen; fit to be drawn before anything else is read."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Sequence
from dataclasses import dataclass, field

from rfplan.reports.wrapping import wrapped
from rfplan.tui.actions import Action, Mode, ScreenId, row_of_keys
from rfplan.tui.glyphs import Glyphs
from rfplan.tui.layout import Area
from rfplan.tui.runs import Row, Run, filled, grounded, laid, spread, width
from rfplan.tui.tokens import Ground, Token

NOTHING_OPEN = "Nothing open.  rfplan PLAN opens a plan; rfplan demo makes an example.  q quits"
LEAST_COLUMNS, LEAST_ROWS = 80, 24
TITLES = {
    ScreenId.AIRFRAME: "Airframe",
    ScreenId.PATH: "Path",
    ScreenId.COUPLING: "Coupling",
    ScreenId.CHANGES: "Changes",
}


@dataclass(frozen=True, slots=True)
class Hit:
    """Cells that do something when they are clicked."""

    area: Area
    press: Callable[[], object]


@dataclass(slots=True)
class Frame:
    """A whole screen: its rows, where the terminal's cursor stands, and what can be clicked."""

    rows: list[Row]
    cursor: tuple[int, int] = (0, 0)
    hits: list[Hit] = field(default_factory=list)

    def lay(self, row: int, column: int, over: Row) -> None:
        """Lay cells over a row."""
        if 0 <= row < len(self.rows):
            self.rows[row] = laid(self.rows[row], column, over)

    def text(self) -> str:
        """Return the characters alone, a line for each row."""
        return "\n".join("".join(run.text for run in row) for row in self.rows)


def empty_frame(columns: int, rows: int) -> Frame:
    """Return a frame of blanks."""
    return Frame([filled([], columns) for _ in range(rows)])


def too_small(columns: int, rows: int) -> Frame:
    """Return the one sentence for a terminal that is too small."""
    frame = empty_frame(columns, rows)
    words = (
        f"Terminal is {columns} x {rows}. rfplan draws from {LEAST_COLUMNS} x {LEAST_ROWS}. "
        "Make it larger, or run  rfplan check"
    )
    for index, line in enumerate(wrapped(words, max(10, columns - 1))[:rows]):
        frame.lay(index, 0, [Run(line)])
    return frame


def tabs(chosen: ScreenId, columns: int) -> Row:
    """Return the tabs, the chosen one on the accent."""
    row: Row = []
    for number, screen in enumerate(ScreenId, start=1):
        text = f" {number} {TITLES[screen]} "
        if screen is chosen:
            row.append(Run(text, Token.ON_ACCENT, Ground.ACCENT))
        else:
            row.append(Run(text, Token.TEXT, Ground.PANEL))
    return row


def tab_spans() -> Iterator[tuple[ScreenId, int, int]]:
    """Yield where each tab begins and ends."""
    at = 0
    for number, screen in enumerate(ScreenId, start=1):
        size = len(f" {number} {TITLES[screen]} ")
        yield screen, at, at + size
        at += size


def top_bar(left: Row, middle: Sequence[Row], right: Sequence[Row], columns: int) -> Row:
    """Return tabs, then as much of the middle as fits, then the counts, the worst never left out.

    What stands first in the middle and on the right stays longest.
    """
    counts: Row = []
    for count in right:
        if width(left) + width(counts) + width(count) + 4 <= columns:
            counts += [Run("  "), *count]
    whole = list(left)
    for part in middle:
        if width(whole) + width(part) + width(counts) + 4 <= columns:
            whole += [Run("  "), *part]
    return grounded(spread(whole, [*counts, Run(" ")], columns), Ground.PANEL)


@dataclass(frozen=True, slots=True)
class Key:
    """An entry of the key row; `action` is None where an overlay takes the key."""

    shown: str
    label: str
    action: Action | None = None

    @property
    def columns(self) -> int:
        """How many cells it takes, with the blanks behind it."""
        return len(self.shown) + 1 + len(self.label) + 2


def keys_for(screen: ScreenId, mode: Mode) -> list[Key]:
    """Return the entries of the key row, the most important first."""
    return [Key(one.keys_shown, one.label, one) for one in row_of_keys(screen, mode)]


def key_row(keys: Sequence[Key], columns: int) -> tuple[Row, list[tuple[int, Key]]]:
    """Return the last row, and where each of its entries begins; none is ever cut."""
    kept: list[Key] = []
    room = columns - 1
    for key in keys:
        if key.columns - 2 <= room:
            kept.append(key)
            room -= key.columns
    ordered = [*kept[2:], *kept[:2]]
    row: Row = [Run(" ")]
    starts: list[tuple[int, Key]] = []
    for key in ordered:
        starts.append((width(row), key))
        row += [Run(key.shown, Token.ACCENT), Run(f" {key.label}  ", Token.DIM)]
    return grounded(filled(row, columns), Ground.PANEL), starts


def starting_frame(words: str, columns: int, rows: int, glyphs: Glyphs) -> Frame:
    """Return what is shown before the plan is read."""
    if columns < LEAST_COLUMNS or rows < LEAST_ROWS:
        return too_small(columns, rows)
    frame = empty_frame(columns, rows)
    frame.lay(0, 0, top_bar(tabs(ScreenId.AIRFRAME, columns), [], [], columns))
    frame.lay(rows - 2, 0, [Run(" "), Run(words, Token.DIM)])
    frame.lay(rows - 1, 0, key_row(keys_for(ScreenId.AIRFRAME, Mode.LOOKING), columns)[0])
    frame.cursor = (0, rows - 2)
    return frame
