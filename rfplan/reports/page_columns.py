# SPDX-License-Identifier: Apache-2.0
"""How the columns of a table stand on a page: under shared words, folded where too many."""

from __future__ import annotations

import re
from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace
from typing import TypeAlias

from rfplan.reports.cells import NOT_APPLICABLE
from rfplan.reports.sheet import Column, Table
from rfplan.reports.wrapping import display_width

PAGE = 160
"""Characters of small type, gaps included, that stand beside each other on a landscape page."""

GAP = 2
PROSE = (18, 12)
"""The least width of prose: what reads well, and what still can be read."""

BLANK = 15
"""The least width of a place to write in."""

SHORT = 8
"""A table of no more rows is not torn where it fits on a page."""

LONGEST_WHOLE = 16
"""Words up to this length are never broken."""

BELONGS_BEFORE = "at"
"""Title of a column that says where the number to its left holds."""

_BLANK = re.compile(r"_+")
_PIECE = re.compile(r"[^-_/+.,:;@=]{0,23}[-_/+.,:;@=]{1,8}|[^-_/+.,:;@=]{1,24}")


def without_empty(table: Table) -> tuple[Table, str]:
    """Return a table without columns that no row fills, and a sentence that names them."""
    empty = [place for place in range(table.stub, len(table.columns)) if _is_empty(table, place)]
    if not empty:
        return table, ""
    kept = [place for place in range(len(table.columns)) if place not in empty]
    told = dict.fromkeys(table.columns[place].title for place in empty)
    names = ", ".join(name for name in told if name != BELONGS_BEFORE)
    smaller = replace(
        table,
        columns=tuple(table.columns[place] for place in kept),
        rows=tuple(tuple(row[place] for place in kept) for row in table.rows),
    )
    return smaller, f"Empty in every row: {names}."


def _is_empty(table: Table, column: int) -> bool:
    return bool(table.rows) and all(row[column].text == NOT_APPLICABLE for row in table.rows)


@dataclass(frozen=True, slots=True)
class Group:
    """Neighbouring columns under one heading, each with what it adds to it."""

    title: str
    unit: str
    columns: tuple[int, ...]
    titles: tuple[str, ...] = ()


Fold: TypeAlias = tuple[Group, ...]


def folds(table: Table, page: int = PAGE) -> tuple[Fold, ...]:
    """Return the groups that stand side by side in each fold; the stub stands first in all.

    Prose gives way a little where that saves a fold.
    """
    return min((tuple(_folds(table, page, prose)) for prose in PROSE), key=len)


def _folds(table: Table, page: int, prose: int) -> Iterator[Fold]:
    widths = [_least_width(table, column, prose) for column in range(len(table.columns))]
    stub = groups(table.columns[: table.stub])
    most = page - _width(stub, widths)
    fold, room = list(stub), most
    for group in _fitting(table, widths, most):
        width = _width([group], widths)
        if width > room and len(fold) > len(stub):
            yield tuple(fold)
            fold, room = list(stub), most
        fold.append(group)
        room -= width
    yield tuple(fold)


def _fitting(table: Table, widths: Sequence[int], most: int) -> Iterator[Group]:
    """Yield the groups behind the stub, one wider than a page as columns of their own."""
    for group in groups(table.columns, table.stub):
        if len(group.columns) > 1 and _width([group], widths) > most:
            yield from (_group(table.columns, column, column + 1, 0) for column in group.columns)
        else:
            yield group


def groups(columns: Sequence[Column], start: int = 0) -> list[Group]:
    """Return the columns from `start` on in groups whose titles begin with the same words."""
    found: list[Group] = []
    while start < len(columns):
        shared, end = _run(columns, start)
        found.append(_group(columns, start, end, shared))
        start = end
    return found


def is_blank(text: str) -> bool:
    """Whether a cell is a place to write in."""
    return _BLANK.fullmatch(text) is not None


def pieces_of(word: str) -> list[str]:
    """Return the pieces a word may be broken into: behind its joints, else where it must."""
    return [word] if len(word) <= LONGEST_WHOLE else _PIECE.findall(word)


def _run(columns: Sequence[Column], start: int) -> tuple[int, int]:
    """Return how many leading words a run of columns shares, and where it ends."""
    end, first = start + 1, columns[start]
    if first.align == "right":
        while end < len(columns) and columns[end].title == BELONGS_BEFORE:
            end += 1
    if end > start + 1:
        return 0, end
    shared, titles = 0, [first.title.split()]
    while end < len(columns):
        titles.append(columns[end].title.split())
        alike = _leading_words(titles)
        if not alike or (shared and alike < shared):
            break
        shared, end = alike, end + 1
    return shared, end


def _leading_words(titles: Sequence[Sequence[str]]) -> int:
    """Return how many words all titles begin with, each having at least one more."""
    most = min(map(len, titles)) - 1
    alike = 0
    while alike < most and len({title[alike] for title in titles}) == 1:
        alike += 1
    return alike


def _group(columns: Sequence[Column], start: int, end: int, shared: int) -> Group:
    members = columns[start:end]
    units = {column.unit for column in members}
    unit = units.pop() if len(units) == 1 else ""
    indices = tuple(range(start, end))
    if len(members) == 1:
        return Group(members[0].title, unit, indices)
    if not shared:
        return Group(members[0].title, "", indices, ("", *(c.title for c in members[1:])))
    words = [column.title.split() for column in members]
    title = " ".join(words[0][:shared]).rstrip(",")
    return Group(title, unit, indices, tuple(" ".join(each[shared:]) for each in words))


def _width(some: Sequence[Group], widths: Sequence[int]) -> int:
    """Return the characters that groups need at least, beside columns that need `widths`."""
    return sum(max(_columns_width(group, widths), GAP + _longest([group.title])) for group in some)


def _columns_width(group: Group, widths: Sequence[int]) -> int:
    titles = group.titles or ("",)
    return sum(
        GAP + max(_longest([title]), widths[column])
        for title, column in zip(titles, group.columns, strict=True)
    )


def _least_width(table: Table, column: int, prose: int) -> int:
    """Return the room a column needs: numbers whole, prose so that it can be read."""
    texts = [row[column].text for row in table.rows]
    if any(map(is_blank, texts)):
        return max(BLANK, _longest(texts))
    natural = max(map(display_width, texts), default=0)
    if table.columns[column].align == "right":
        return natural
    return max(_longest(texts), min(natural, prose))


def _longest(texts: Sequence[str]) -> int:
    pieces = [piece for text in texts for word in text.split() for piece in pieces_of(word)]
    return max(map(display_width, pieces), default=0)
