# SPDX-License-Identifier: Apache-2.0
"""Rows of text in inks and grounds, one cell for each character: cut, filled, laid over others."""

from __future__ import annotations

import unicodedata
from collections.abc import Container, Iterable, Iterator, Sequence
from functools import lru_cache
from itertools import groupby
from typing import NamedTuple, TypeAlias

from rfplan.tui.tokens import Ground, Token


class Run(NamedTuple):
    """Neighbouring cells of one look."""

    text: str
    token: Token = Token.TEXT
    ground: Ground = Ground.BG


Row: TypeAlias = list[Run]


class Span(NamedTuple):
    """Cells of one row, `stop` not included."""

    row: int
    start: int
    stop: int


def width(row: Iterable[Run]) -> int:
    """Return how many cells a row takes."""
    return sum(len(run.text) for run in row)


def text_of(row: Iterable[Run]) -> str:
    """Return the characters alone."""
    return "".join(run.text for run in row)


def cropped(row: Iterable[Run], start: int, stop: int) -> Row:
    """Return the cells from `start` up to `stop`, as far as there are any."""
    kept: Row = []
    at = 0
    for run in row:
        end = at + len(run.text)
        if start <= at and end <= stop:
            kept.append(run)
        elif at < stop and start < end:
            kept.append(Run(run.text[max(0, start - at) : stop - at], run.token, run.ground))
        at = end
    return kept


def filled(row: Row, columns: int, ground: Ground = Ground.BG) -> Row:
    """Return a row of exactly so many cells, cut or filled with blanks."""
    missing = columns - width(row)
    if missing > 0:
        return [*row, Run(" " * missing, Token.TEXT, ground)]
    return row if missing == 0 else cropped(row, 0, columns)


def spread(left: Row, right: Row, columns: int, ground: Ground = Ground.BG) -> Row:
    """Return two rows at both ends of one; the right one goes where both do not fit."""
    if width(left) + width(right) + 1 > columns:
        return filled(left, columns, ground)
    return [*filled(left, columns - width(right), ground), *right]


def in_columns(
    cells: Sequence[Row], wide: Sequence[int], gap: int, right: Container[int] = ()
) -> Row:
    """Return cells side by side, some blanks apart; a column that is empty throughout is left out.

    `right` tells which are set to the right, so that numbers stand under each other.
    """
    whole: Row = []
    for index, (part, room) in enumerate(zip(cells, wide, strict=True)):
        if not (room or part):
            continue
        blanks = Run(" " * (room - width(part)))
        ordered = [blanks, *part] if index in right else [*part, blanks]
        whole += [*([Run(" " * gap)] if whole else []), *ordered]
    return [run for run in whole if run.text]


def laid(under: Row, column: int, over: Row) -> Row:
    """Return a row with another over it, from a column on; nothing gets longer."""
    columns = width(under)
    over = cropped(over, 0, columns - column)
    return [*cropped(under, 0, column), *over, *cropped(under, column + width(over), columns)]


def grounded(row: Iterable[Run], ground: Ground) -> Row:
    """Return a row with another ground under every cell that has none of its own."""
    return [Run(run.text, run.token, ground) if run.ground is Ground.BG else run for run in row]


def words_cut(text: str, columns: int, ellipsis: str = "...") -> str:
    """Return a text that fits, cut between words and never inside a number."""
    if len(text) <= columns:
        return text
    room = columns - len(ellipsis)
    if room <= 0:
        return ""
    head = text[: room + 1]
    kept = head[: head.rfind(" ")] if " " in head else ""
    return f"{kept.rstrip(' ,;')}{ellipsis}" if kept.strip() else ""


def row_cut(row: Row, columns: int, ellipsis: str = "...") -> Row:
    """Return a row that fits, its last run cut between words."""
    if width(row) <= columns:
        return row
    *lead, last = row
    return [*lead, last._replace(text=words_cut(last.text, columns - width(lead), ellipsis))]


@lru_cache(maxsize=4096)
def one_cell_each(text: str, ascii_only: bool) -> str:
    """Return a text in which each character takes one cell; any other shows as '?'."""
    if text.isascii():
        return text if text.isprintable() else "".join(map(_printable, text))
    return "".join(sign if _takes_a_cell(sign, ascii_only) else "?" for sign in text)


def _printable(sign: str) -> str:
    return sign if sign.isprintable() else "?"


def _takes_a_cell(sign: str, ascii_only: bool) -> bool:
    if sign.isascii():
        return sign.isprintable()
    return (
        not ascii_only
        and sign.isprintable()
        and unicodedata.category(sign) not in ("Mn", "Me", "Cf")
        and unicodedata.east_asian_width(sign) not in ("W", "F")
    )


def shown_in(row: Iterable[Run], *, ascii_only: bool) -> Row:
    """Return a row fit for a terminal."""
    return [
        run if run.text.isascii() and run.text.isprintable() else _shown(run, ascii_only)
        for run in row
    ]


def _shown(run: Run, ascii_only: bool) -> Run:
    return Run(one_cell_each(run.text, ascii_only), run.token, run.ground)


LEAST_GAP = 10
"""Unchanged cells in a row worth a new start, rather than sending them again."""


def changed_in_row(index: int, before: Sequence[Run], after: Sequence[Run]) -> Iterator[Span]:
    """Yield the cells in which a row differs, near ones together."""
    old, new = list(_cells(before)), list(_cells(after))
    columns = len(new)
    old += [Run("")] * (columns - len(old))
    starts: list[list[int]] = []
    for column in range(columns):
        if old[column] == new[column]:
            continue
        if starts and column - starts[-1][1] < LEAST_GAP:
            starts[-1][1] = column + 1
        else:
            starts.append([column, column + 1])
    for start, stop in starts:
        yield Span(index, start, stop)


def _cells(row: Iterable[Run]) -> Iterator[Run]:
    for text, token, ground in row:
        for sign in text:
            yield Run(sign, token, ground)


def changed(before: Sequence[Row], after: Sequence[Row]) -> list[Span]:
    """Return all cells in which two pictures of the same size differ."""
    spans: list[Span] = []
    for index, (old, new) in enumerate(zip(before, after, strict=True)):
        if old != new:
            spans.extend(changed_in_row(index, old, new))
    return spans


def merged(row: Iterable[Run]) -> Row:
    """Return a row with neighbours of one look joined."""
    groups = groupby(row, key=lambda run: run[1:])
    return [Run("".join(run.text for run in group), *look) for look, group in groups]
