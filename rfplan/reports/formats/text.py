# SPDX-License-Identifier: Apache-2.0
"""A sheet as plain columns: cells wrapped, wide tables folded, nothing wider than asked."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from itertools import zip_longest
from typing import Literal, NamedTuple, TypeAlias

from rfplan.reports.sheet import Align, Cell, Sheet, Table
from rfplan.reports.wrapping import display_width, padded, wrapped

WIDTH = 100
NARROWEST = 40
GAP = "  "
LONGEST_WORD = 40
"""Words longer than this may be cut to fit a column."""
COMFORTABLE = 20
"""Prose narrower than this is hard to read; a table is folded rather."""


Part: TypeAlias = Literal["title", "label", "heading", "cell", "note", "gap"]


class Piece(NamedTuple):
    """Some characters of a line, and what part of a sheet they are; a cell brings its token."""

    text: str
    part: Part = "gap"
    token: str = ""


Line: TypeAlias = list[Piece]


def write(sheet: Sheet, *, width: int = WIDTH) -> str:
    """Return a sheet as plain text, no line wider than `width` (at least 40)."""
    lines = ("".join(piece.text for piece in line) for line in lines_of(sheet, width))
    return "\n".join(line.rstrip() for line in lines) + "\n"


def lines_of(sheet: Sheet, width: int) -> Iterator[Line]:
    """Yield the lines of a sheet in pieces, for whoever sets them in colour."""
    width = max(width, NARROWEST)
    yield from _prose(sheet.title, width, "title")
    label_width = min(max((display_width(label) for label, _ in sheet.header), default=0), 20)
    strips = [_Strip(label_width, "left"), _Strip(width - label_width - 2, "left")]
    for label, cell in sheet.header:
        yield from _side_by_side(strips, [Piece(label, "label"), _piece(cell)])
    for table in sheet.tables:
        yield []
        yield from _prose(table.title, width, "title")
        yield from _table(table, width)
    yield []
    for note in sheet.notes:
        yield from _prose(note, width, "note")


def _prose(text: str, width: int, part: Part) -> Iterator[Line]:
    for line in wrapped(text, width):
        yield [Piece(line, part)]


def _piece(cell: Cell) -> Piece:
    return Piece(cell.text, "cell", cell.token)


@dataclass(frozen=True, slots=True)
class _Strip:
    """A column as it is set: its width and the side its text keeps to."""

    width: int
    align: Align


def _table(table: Table, width: int) -> Iterator[Line]:
    if not table.rows:
        yield [Piece(f"{GAP}none", "cell", "dim")]
        return
    for number, block in enumerate(_blocks(table, width)):
        if number:
            yield []
        yield from _block(table, block, width)


def _blocks(table: Table, width: int) -> Iterator[list[int]]:
    """Yield the columns of each fold; the stub stands first in every one."""
    least = [_least_width(texts) for texts in _texts_by_column(table)]
    stub = list(range(table.stub))
    block = list(stub)
    for column in range(table.stub, len(table.columns)):
        if len(block) > len(stub) and _set_width([least[one] for one in [*block, column]]) > width:
            yield block
            block = list(stub)
        block.append(column)
    yield block


def _block(table: Table, block: Sequence[int], width: int) -> Iterator[Line]:
    strips = _strips(table, block, width)
    headings = [Piece(table.columns[one].heading, "heading") for one in block]
    yield from _side_by_side(strips, headings)
    yield [Piece(GAP.join("-" * strip.width for strip in strips), "heading")]
    for row in table.rows:
        yield from _side_by_side(strips, [_piece(row[one]) for one in block])


def _strips(table: Table, block: Sequence[int], width: int) -> list[_Strip]:
    """Give each column its natural width; where that is too much, the widest gives way first."""
    texts = _texts_by_column(table)
    widths = [max(map(display_width, texts[one])) for one in block]
    least = [_least_width(texts[one]) for one in block]
    while _set_width(widths) > width and (room := _widest(widths, least)) is not None:
        widths[room] -= 1
    while _set_width(widths) > width:
        widths[widths.index(max(widths))] -= 1
    return [_Strip(w, table.columns[one].align) for w, one in zip(widths, block, strict=True)]


def _widest(widths: Sequence[int], least: Sequence[int]) -> int | None:
    """Return the widest column that can still wrap."""
    can_wrap = [
        index for index, (now, low) in enumerate(zip(widths, least, strict=True)) if now > low
    ]
    return max(can_wrap, key=lambda index: widths[index], default=None)


def _texts_by_column(table: Table) -> list[list[str]]:
    headings = [column.heading for column in table.columns]
    cells = [[row[index].text for row in table.rows] for index in range(len(headings))]
    return [[heading, *texts] for heading, texts in zip(headings, cells, strict=True)]


def _least_width(texts: Sequence[str]) -> int:
    """Room for the longest word of a column, within reason, and for its cells to be read."""
    longest = max(display_width(word) for text in texts for word in text.split(" "))
    prose = max(map(display_width, texts[1:]), default=0)
    return max(1, min(longest, LONGEST_WORD), min(prose, COMFORTABLE))


def _set_width(widths: Sequence[int]) -> int:
    return sum(widths) + len(GAP) * (len(widths) - 1)


def _side_by_side(strips: Sequence[_Strip], pieces: Sequence[Piece]) -> Iterator[Line]:
    """Yield the lines of one row, each piece wrapped in its own strip."""
    columns = [wrapped(one.text, strip.width) for one, strip in zip(pieces, strips, strict=True)]
    for texts in zip_longest(*columns, fillvalue=""):
        line: Line = []
        for text, strip, piece in zip(texts, strips, pieces, strict=True):
            line += [Piece(GAP)] if line else []
            line.append(piece._replace(text=padded(text, strip.width, strip.align)))
        yield line
