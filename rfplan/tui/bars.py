# SPDX-License-Identifier: Apache-2.0
"""The first and the last rows of the screen; fit to be drawn before anything else is read."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Sequence
from dataclasses import dataclass, field
from typing import Literal, NamedTuple

from rfplan.reports.wrapping import wrapped
from rfplan.tui.actions import Action, Mode, ScreenId, row_of_keys
from rfplan.tui.glyphs import Glyphs
from rfplan.tui.layout import Area
from rfplan.tui.runs import Row, Run, filled, grounded, laid, width
from rfplan.tui.tokens import Ground, Token

NOTHING_OPEN = "Nothing open.  rfplan PLAN opens a plan; rfplan demo makes an example.  q quits"
LEAST_COLUMNS, LEAST_ROWS = 80, 24

BESIDE_TABS = 31
"""Columns that the tabs leave, blanks round them or not, to what is unsaved and the worst count."""


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
    for screen, start, text in _tabs(columns):
        token, ground = Token.TEXT, Ground.PANEL
        if screen is chosen:
            token, ground = Token.ON_ACCENT, Ground.ACCENT
        row += [Run(" " * (start - width(row)), Token.TEXT, Ground.PANEL), Run(text, token, ground)]
    return row


def tab_spans(columns: int) -> Iterator[tuple[ScreenId, int, int]]:
    """Yield where each tab begins and ends."""
    return ((screen, start, start + len(text)) for screen, start, text in _tabs(columns))


def _tabs(columns: int) -> Iterator[tuple[ScreenId, int, str]]:
    """Yield screen, place and text of each tab, with blanks round it unless these crowd counts."""
    names = [f"{screen.key} {screen.label}" for screen in ScreenId]
    roomy = sum(len(name) + 2 for name in names) + BESIDE_TABS <= columns
    at = 0
    for screen, name in zip(ScreenId, names, strict=True):
        text = f" {name} " if roomy else name
        yield screen, at, text
        at += len(text) + (0 if roomy else 1)


class Note(NamedTuple):
    """Something told beside the tabs, at the left or the right end; in ways, the fullest first."""

    side: Literal["left", "right"]
    ways: Sequence[Row]


def top_bar(left: Row, notes: Sequence[Note], columns: int) -> Row:
    """Return tabs, then as many of the notes as fit, what stands first kept longest."""
    room = columns - width(left)
    roomy = sum(width(note.ways[0]) + 2 for note in notes[:3]) < room
    gap, end = (2, 1) if roomy else (1, 0)
    room -= end
    told: dict[str, Row] = {"left": [], "right": []}
    for note in notes:
        way = next((way for way in note.ways if width(way) + gap <= room), None)
        if way is not None:
            told[note.side] += [Run(" " * gap), *way]
            room -= width(way) + gap
    ends = Run(" " * room), Run(" " * end)
    return grounded([*left, *told["left"], ends[0], *told["right"], ends[1]], Ground.PANEL)


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
    frame.lay(0, 0, top_bar(tabs(ScreenId.AIRFRAME, columns), [], columns))
    frame.lay(rows - 2, 0, [Run(" "), Run(words, Token.DIM)])
    frame.lay(rows - 1, 0, key_row(keys_for(ScreenId.AIRFRAME, Mode.LOOKING), columns)[0])
    frame.cursor = (0, rows - 2)
    return frame
