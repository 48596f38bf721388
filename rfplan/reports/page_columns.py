# SPDX-License-Identifier: Apache-2.0
"""How the columns of a table stand on a page: under shared words, folded where too many."""

from __future__ import annotations

import re
from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from rfplan.reports.sheet import Column, Table
from rfplan.reports.wrapping import display_width

PAGE = 150
"""Characters of small type, gaps included, that stand beside each other on a landscape page."""

GAP = 2
COMFORTABLE = 18
"""Prose narrower than this is hard to read."""

LONGEST_WHOLE = 16
"""Words up to this length are never broken."""

BELONGS_BEFORE = "at"
"""Title of a column that says where the number to its left holds."""

_PIECE = re.compile(r"[^-_/+.,:;@=]{0,23}[-_/+.,:;@=]{1,8}|[^-_/+.,:;@=]{1,24}")


@dataclass(frozen=True, slots=True)
class Group:
    """Neighbouring columns under one heading, each with what it adds to it."""

    title: str
    unit: str
    columns: tuple[int, ...]
    titles: tuple[str, ...] = ()


def folds(table: Table, page: int = PAGE) -> Iterator[tuple[Group, ...]]:
    """Yield the column groups that stand side by side; the stub stands first in every fold."""
    stub = groups(table.columns[: table.stub])
    fold, room = list(stub), page - _width(table, stub)
    for group in groups(table.columns, table.stub):
        width = _width(table, [group])
        if width > room and len(fold) > len(stub):
            yield tuple(fold)
            fold, room = list(stub), page - _width(table, stub)
        fold.append(group)
        room -= width
    yield tuple(fold)


def groups(columns: Sequence[Column], start: int = 0) -> list[Group]:
    """Return the columns from `start` on in groups whose titles begin with the same words."""
    found: list[Group] = []
    while start < len(columns):
        shared, end = _run(columns, start)
        found.append(_group(columns, start, end, shared))
        start = end
    return found


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


def _width(table: Table, some: Sequence[Group]) -> int:
    """Return the characters that groups need at least."""
    return sum(max(_columns_width(table, group), _longest([group.title])) for group in some)


def _columns_width(table: Table, group: Group) -> int:
    titles = group.titles or ("",)
    return sum(
        GAP + max(_longest([title]), _least_width(table, column))
        for title, column in zip(titles, group.columns, strict=True)
    )


def _least_width(table: Table, column: int) -> int:
    """Return the room a column needs: numbers whole, prose so that it can be read."""
    texts = [row[column].text for row in table.rows]
    natural = max(map(display_width, texts), default=0)
    if table.columns[column].align == "right":
        return natural
    return max(_longest(texts), min(natural, COMFORTABLE))


def _longest(texts: Sequence[str]) -> int:
    pieces = [piece for text in texts for word in text.split() for piece in pieces_of(word)]
    return max(map(display_width, pieces), default=0)
