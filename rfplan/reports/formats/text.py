# SPDX-License-Identifier: Apache-2.0
"""A sheet as plain columns: cells wrapped, wide tables folded, nothing wider than asked."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from itertools import zip_longest

from rfplan.reports.sheet import Align, Sheet, Table
from rfplan.reports.wrapping import display_width, padded, wrapped

WIDTH = 100
NARROWEST = 40
GAP = "  "
LONGEST_WORD = 40
"""Words longer than this may be cut to fit a column."""
COMFORTABLE = 20
"""Prose narrower than this is hard to read; a table is folded rather."""


def write(sheet: Sheet, *, width: int = WIDTH) -> str:
    """Return a sheet as plain text, no line wider than `width` (at least 40)."""
    lines = _lines(sheet, max(width, NARROWEST))
    return "\n".join(line.rstrip() for line in lines) + "\n"


def _lines(sheet: Sheet, width: int) -> Iterator[str]:
    yield from wrapped(sheet.title, width)
    label_width = min(max((display_width(label) for label, _ in sheet.header), default=0), 20)
    for label, cell in sheet.header:
        yield from _side_by_side(
            [_Strip(label_width, "left"), _Strip(width - label_width - 2, "left")],
            [label, cell.text],
        )
    for table in sheet.tables:
        yield ""
        yield from wrapped(table.title, width)
        yield from _table(table, width)
    yield ""
    for note in sheet.notes:
        yield from wrapped(note, width)


@dataclass(frozen=True, slots=True)
class _Strip:
    """A column as it is set: its width and the side its text keeps to."""

    width: int
    align: Align


def _table(table: Table, width: int) -> Iterator[str]:
    if not table.rows:
        yield f"{GAP}none"
        return
    for number, block in enumerate(_blocks(table, width)):
        if number:
            yield ""
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


def _block(table: Table, block: Sequence[int], width: int) -> Iterator[str]:
    strips = _strips(table, block, width)
    yield from _side_by_side(strips, [table.columns[one].heading for one in block])
    yield GAP.join("-" * strip.width for strip in strips)
    for row in table.rows:
        yield from _side_by_side(strips, [row[one].text for one in block])


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


def _side_by_side(strips: Sequence[_Strip], texts: Sequence[str]) -> Iterator[str]:
    """Yield the lines of one row, each text wrapped in its own strip."""
    columns = [wrapped(text, strip.width) for text, strip in zip(texts, strips, strict=True)]
    for pieces in zip_longest(*columns, fillvalue=""):
        yield GAP.join(
            padded(piece, strip.width, strip.align)
            for piece, strip in zip(pieces, strips, strict=True)
        )
