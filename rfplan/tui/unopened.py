# SPDX-License-Identifier: Apache-2.0
"""The time before a plan is open: keys that wait for it, or its problems until they are mended."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from pathlib import Path

from rfplan.reports.wrapping import wrapped
from rfplan.tui.actions import ScreenId
from rfplan.tui.bars import (
    LEAST_COLUMNS,
    LEAST_ROWS,
    NOTHING_OPEN,
    Frame,
    Key,
    empty_frame,
    key_row,
    starting_frame,
    tabs,
    too_small,
    top_bar,
)
from rfplan.tui.glyphs import Glyphs
from rfplan.tui.outside import Stamp, stamp
from rfplan.tui.runs import Row, Run
from rfplan.tui.tokens import Token

MENDED = "Read again as soon as the plan, or a file beside it, is saved."
QUIT = ("q", "ctrl+q", "ctrl+c")
INDENT = "  "
_ENDINGS = (".yaml", ".yml")


@dataclass(frozen=True, slots=True)
class Unread:
    """Why a plan cannot be shown, a line each; `at` is the file and line of the first problem."""

    lines: tuple[str, ...]
    at: tuple[Path, int] | None = None
    files: tuple[Path, ...] = ()

    def text(self) -> str:
        """Return the first line, and how many more there are."""
        more = len(self.lines) - 1
        return f"{self.lines[0]}{f' (and {more} more: rfplan check)' if more else ''}"


class Unopened:
    """What is known while no plan is shown."""

    def __init__(self, path: Path | None, glyphs: Glyphs) -> None:
        self.path = path
        self.glyphs = glyphs
        self.unread: Unread | None = None
        self.said = ""
        self.waiting: list[str] = []
        self._seen: tuple[Stamp, ...] = ()

    @property
    def may_end(self) -> bool:
        """Whether there is nothing to wait for."""
        return self.unread is not None or self.path is None

    def look(self) -> None:
        """Note the files as they are about to be read."""
        self._seen = self._stamps()

    def has_changed(self) -> bool:
        """Whether a plan that could not be read may be another one now."""
        return self.unread is not None and self._stamps() != self._seen

    def _stamps(self) -> tuple[Stamp, ...]:
        """Return time and size of all files that bear on whether the plan can be read."""
        plan = self.path or Path()
        folder = plan if plan.is_dir() else plan.parent
        try:
            beside = sorted(one for one in folder.iterdir() if one.suffix in _ENDINGS)
        except OSError:
            beside = []
        named = self.unread.files if self.unread else ()
        return tuple(map(stamp, (plan, *beside, *named)))

    def frame(self, columns: int, rows: int) -> Frame:
        """Return what is shown without a plan."""
        if self.unread is not None:
            return _problems_frame(self.unread, self.said, (columns, rows), self.glyphs)
        words = f"reading {self.path}" if self.path else NOTHING_OPEN
        return starting_frame(words, columns, rows, self.glyphs)


def _problems_frame(unread: Unread, said: str, size: tuple[int, int], glyphs: Glyphs) -> Frame:
    """Return every problem of a plan that cannot be read, and how to go on."""
    columns, rows = size
    if columns < LEAST_COLUMNS or rows < LEAST_ROWS:
        return too_small(columns, rows)
    frame = empty_frame(columns, rows)
    frame.lay(0, 0, top_bar(tabs(ScreenId.AIRFRAME, columns), [], columns))
    for index, row in enumerate(_rows(unread, columns, rows - 5, glyphs), start=2):
        frame.lay(index, 0, row)
    frame.lay(rows - 2, 0, [Run(" "), Run(said or MENDED, Token.NEAR if said else Token.TEXT)])
    keys = [Key("q", "quit"), Key("E", "edit file") if unread.at else Key("", "")]
    frame.lay(rows - 1, 0, key_row(keys, columns)[0])
    frame.cursor = (0, rows - 2)
    return frame


def _rows(unread: Unread, columns: int, room: int, glyphs: Glyphs) -> Iterator[Row]:
    """A heading, then the problems as far as there is room for whole ones."""
    count = len(unread.lines)
    told = "1 problem" if count == 1 else f"{count} problems"
    yield [Run(f" {glyphs.fails} The plan cannot be read: {told}", Token.FAIL)]
    left = room - 2
    for number, line in enumerate(unread.lines):
        parts = wrapped(line, columns - 2 * len(INDENT))
        if len(parts) > left and number:
            yield [Run(f"{INDENT}{count - number} more: rfplan check tells all", Token.DIM)]
            return
        left -= len(parts)
        yield from ([Run(f"{INDENT}{part}")] for part in parts[:room])
