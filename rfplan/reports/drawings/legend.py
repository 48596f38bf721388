# SPDX-License-Identifier: Apache-2.0
"""What the views need to be read: which number is which antenna, which tag which zone, signs."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Sequence
from dataclasses import dataclass
from functools import partial

from rfplan.reports.cells import LengthUnit
from rfplan.reports.drawing import Drawing, box, fitted
from rfplan.reports.drawings.marks import Mark, Subject, Tag
from rfplan.reports.drawings.page import BORDER, FLOOR, FRAME, UNITS
from rfplan.reports.drawings.regions import draw_patch
from rfplan.reports.strokes import XY

SIZE = 2.2
HEAD = 2.8
LINE = 3.9
PAD = 4.0

COLUMNS = 2
BETWEEN = 6.0
COLUMN = (FRAME[0] - 2.0 * PAD - BETWEEN * (COLUMNS - 1)) / COLUMNS
LINES = int((FLOOR - BORDER - PAD - 2.0) / LINE)
"""How the lines of the legend stand on a page."""

_WHOLE = LINES - 12
"""A section of no more lines is not torn."""

Entry = Callable[[Drawing, XY], None]
"""Draws one line of the legend with its base line at a point."""


@dataclass(frozen=True, slots=True)
class _Section:
    """A heading, what stands over its columns, and the lines below."""

    title: str
    heads: tuple[Entry, ...]
    entries: tuple[Entry, ...]


def legend_pages(subject: Subject) -> list[list[list[Entry]]]:
    """Return the lines of the legend by page and column."""
    columns: list[list[Entry]] = [[]]
    for section in _sections(subject):
        _fill(columns, section)
    return [columns[start : start + COLUMNS] for start in range(0, len(columns), COLUMNS)]


def draw_legend(drawing: Drawing, columns: Sequence[Sequence[Entry]]) -> None:
    """Draw one page of the legend."""
    for place, entries in enumerate(columns):
        x = BORDER + PAD + place * (COLUMN + BETWEEN)
        for line, entry in enumerate(entries, start=1):
            entry(drawing, (x, BORDER + PAD + line * LINE))


def _sections(subject: Subject) -> Iterator[_Section]:
    units = subject.units
    heads = ("no.", "id", "type, surface", "change", "FS", "BL", "WL")
    marks = tuple(partial(_row, texts=_told(mark, units)) for mark in subject.marks)
    tags = tuple(partial(_tag, tag=tag) for tag in subject.tags)
    signs = tuple(partial(_sign, pen=pen, words=words) for pen, words in _SIGNS)
    notes = (*NOTES, f"Datum: {subject.airframe.datum or 'not stated'}")
    over = partial(_row, texts=heads, lettering="grey")
    yield _Section(f"Antennas, places in {UNITS[units]}", (over,), marks)
    yield _Section("Signs", (), signs)
    yield _Section("Notes", (), tuple(partial(_note, words=words) for words in notes))
    yield _Section("Zones and ground planes", (), tags)


def _fill(columns: list[list[Entry]], section: _Section) -> None:
    """Put a section below what is there; what does not fit goes on in a new column."""
    if not section.entries:
        return
    top: list[Entry] = [partial(_heading, words=section.title), *section.heads]
    least = len(top) + (len(section.entries) if len(section.entries) <= _WHOLE else 2)
    if columns[-1] and len(columns[-1]) + 1 + least > LINES:
        columns.append([])
    columns[-1] += [_blank, *top] if columns[-1] else top
    for entry in section.entries:
        if len(columns[-1]) >= LINES:
            columns.append([partial(_heading, words=f"{section.title}, continued"), *section.heads])
        columns[-1].append(entry)


def _blank(drawing: Drawing, at: XY) -> None:
    """Draw nothing: a line left free."""


def _heading(drawing: Drawing, at: XY, *, words: str) -> None:
    drawing.text((at[0], at[1] - 0.6), words, HEAD, "strong")


_COLUMNS = ((0.0, 7.0), (7.0, 18.0), (25.0, 39.0), (64.0, 15.0), (79.0, 12.0), (91.0, 13.0))
"""Where each column of the schedule begins, and how wide it is."""
_LAST = (104.0, COLUMN - 104.0)


def _told(mark: Mark, units: LengthUnit) -> tuple[str, ...]:
    what = f"{mark.place.type}, {mark.place.surface}"
    return str(mark.number), mark.id, what, mark.change, *mark.told(units)


def _row(drawing: Drawing, at: XY, *, texts: Sequence[str], lettering: str = "plain") -> None:
    x, y = at
    for place, ((begin, width), text) in enumerate(zip((*_COLUMNS, _LAST), texts, strict=True)):
        shown = fitted(text, SIZE, width - 1.0)
        if place > 3:
            drawing.text((x + begin + width - 1.0, y), shown, SIZE, lettering, anchor="end")
        else:
            drawing.text((x + begin, y), shown, SIZE, lettering)


def _tag(drawing: Drawing, at: XY, *, tag: Tag) -> None:
    """Explain the tag of a zone or a ground plane beside its hatching."""
    x, y = at
    draw_patch(drawing, box((x, y - 2.4), (7.0, 2.9)), tag.hatch)
    drawing.text((x + 9.0, y), tag.tag, SIZE, "strong")
    told = ", ".join(filter(None, (f"{tag.id}: {tag.words}", tag.why)))
    drawing.text((x + 16.0, y), fitted(told, SIZE, COLUMN - 16.0), SIZE)


_SIGNS = (
    ("base", "base of an antenna as found, to scale"),
    ("new", "base of an antenna that is new or moved, to scale"),
    ("hidden", "antenna inside the skin"),
    ("plane", "ground plane"),
    ("frame", "frame or bulkhead"),
    ("centre", "centre line"),
)


def _sign(drawing: Drawing, at: XY, *, pen: str, words: str) -> None:
    """Explain a line."""
    x, y = at
    if pen in ("frame", "centre"):
        drawing.line((x, y - 0.9), (x + 7.0, y - 0.9), pen)
    else:
        drawing.rect((x, y - 2.4), (7.0, 2.9), pen)
    drawing.text((x + 9.0, y), words, SIZE)


NOTES = (
    "Base, height and place of an antenna are to scale; its shape is a sign.",
    "Zones are drawn flat on the view, on the hull as far as it reaches.",
    "What lies beyond the edge of a view is cut off; measures are those of the plan.",
    "Distances to zones are from the edge of the base, all others from its middle.",
)
"""What the drawing cannot show."""


def _note(drawing: Drawing, at: XY, *, words: str) -> None:
    drawing.text(at, fitted(words, SIZE, COLUMN), SIZE)
