# SPDX-License-Identifier: Apache-2.0
"""How a table is set on paper: the width of each column, the lines of each cell."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Sequence
from dataclasses import dataclass

from rfplan.reports.inks import is_bold
from rfplan.reports.page_columns import Fold, is_blank, pieces_of
from rfplan.reports.sheet import Cell, Table

Measure = Callable[[str, bool], float]
"""The width of a text, in bold or not."""

_LEAST_SHARE = 0.02
_ROUNDING = 1e-6
"""What a text may be wider than its room: a column as wide as its text is not to break it."""

_BY_HAND = "by hand 12.34"
"""Takes as much room as what is written into a blank."""


@dataclass(frozen=True, slots=True)
class Setting:
    """The columns of one fold from left to right, and how wide each is."""

    columns: tuple[int, ...]
    widths: tuple[float, ...]

    def width_of(self, columns: Sequence[int]) -> float:
        """Return the width of some neighbouring columns."""
        widths = zip(self.columns, self.widths, strict=True)
        return sum(width for column, width in widths if column in columns)


def setting(table: Table, fold: Fold, room: float, gap: float, measure: Measure) -> Setting:
    """Return columns as wide as their longest text, or narrower where the page is too small.

    The room that is left beyond longest pieces is shared by what each column would like to have.
    """
    columns = tuple(column for group in fold for column in group.columns)
    titles = {
        column: title
        for group in fold
        for title, column in zip(group.titles or (group.title,), group.columns, strict=True)
    }
    wishes = [_widths(table, column, titles[column], measure) for column in columns]
    least = [low + gap for low, _ in wishes]
    wanted = [high + gap for _, high in wishes]
    return Setting(columns, tuple(_shared(least, wanted, room)))


def _widths(table: Table, column: int, title: str, measure: Measure) -> tuple[float, float]:
    """Return the width that a column needs, and that at which no cell is broken."""
    stub, whole = column < table.stub, table.columns[column].align == "right"
    least = max(measure(word, False) for word in (*title.split(), table.columns[column].unit))
    natural = least
    for text, bold in {_written(row[column], stub) for row in table.rows}:
        pieces = [text] if whole else [one for word in text.split() for one in pieces_of(word)]
        least = max([least, *(measure(piece, bold) for piece in pieces)])
        natural = max(natural, measure(text, bold))
    return least, max(natural, least)


def _written(cell: Cell, stub: bool) -> tuple[str, bool]:
    """Return what needs room in a cell: its text, bold or not, or a hand's writing."""
    return (_BY_HAND if is_blank(cell.text) else cell.text), stub or is_bold(cell)


def _shared(least: Sequence[float], wanted: Sequence[float], room: float) -> list[float]:
    """Return widths that fill the room at most."""
    if sum(wanted) <= room:
        return list(wanted)
    spare = room - sum(least)
    if spare <= 0.0:
        return [width * room / sum(least) for width in least]
    widths, open_ = list(least), [w > low for low, w in zip(least, wanted, strict=True)]
    while spare > _LEAST_SHARE and any(open_):
        share = spare / sum(open_)
        for index, wish in enumerate(wanted):
            if open_[index]:
                given = min(share, wish - widths[index])
                widths[index] += given
                spare -= given
                open_[index] = wish - widths[index] > _LEAST_SHARE
    return widths


def lines_of(text: str, room: float, width: Callable[[str], float]) -> list[str]:
    """Return the lines of a text, broken at spaces, then behind joints, then where it must be."""
    lines, most = [""], room + _ROUNDING
    for glue, piece in _glued(text, most, width):
        joined = f"{lines[-1]}{glue}{piece}" if lines[-1] else piece
        if not lines[-1] or width(joined) <= most:
            lines[-1] = joined
        else:
            lines.append(piece)
    return lines


def _glued(text: str, room: float, width: Callable[[str], float]) -> Iterator[tuple[str, str]]:
    """Yield what a text is made of, each with what stands before it on the same line."""
    for word in text.split():
        glue = " "
        for piece in [word] if width(word) <= room else pieces_of(word):
            for part in _fitting(piece, room, width):
                yield glue, part
                glue = ""


def _fitting(piece: str, room: float, width: Callable[[str], float]) -> Iterator[str]:
    part = ""
    for character in piece if width(piece) > room else [piece]:
        if part and width(part + character) > room:
            yield part
            part = ""
        part += character
    yield part
