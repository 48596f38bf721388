# SPDX-License-Identifier: Apache-2.0
"""What every sheet is made of: cells, tables, a heading and notes, ready to be printed.

Nothing invisible gets past this file: each text is made fit to show as it is put in.
"""

from __future__ import annotations

from collections.abc import Callable, Iterable, Sequence
from dataclasses import dataclass
from typing import Generic, Literal, TypeVar

from rfplan.model.record import visible
from rfplan.reports.strokes import Picture

T = TypeVar("T")

LONGEST_TEXT = 2000
"""Characters of one cell; what a file says beyond them is cut."""

Value = float | int | str | bool | None
Align = Literal["left", "right"]


def fit_to_show(text: str) -> str:
    """Return text without anything that cannot be seen."""
    return visible(text, LONGEST_TEXT)


@dataclass(frozen=True, slots=True)
class Cell:
    """One printed thing: its text, the value behind it in `unit`, and what colours it."""

    text: str
    value: Value = None
    unit: str = ""
    token: str = ""

    def __post_init__(self) -> None:
        object.__setattr__(self, "text", fit_to_show(self.text))
        if isinstance(self.value, str):
            object.__setattr__(self, "value", fit_to_show(self.value))


@dataclass(frozen=True, slots=True)
class Column:
    """What stands above the cells of a column."""

    key: str
    title: str
    unit: str = ""
    align: Align = "left"

    def __post_init__(self) -> None:
        object.__setattr__(self, "title", fit_to_show(self.title))

    @property
    def heading(self) -> str:
        """The title with the unit that its cells leave out."""
        return f"{self.title} [{self.unit}]" if self.unit else self.title


@dataclass(frozen=True, slots=True)
class Table:
    """Rows of cells; the first `stub` columns name a row and are repeated where it is folded."""

    key: str
    title: str
    columns: tuple[Column, ...]
    rows: tuple[tuple[Cell, ...], ...]
    stub: int = 1

    def __post_init__(self) -> None:
        object.__setattr__(self, "title", fit_to_show(self.title))


@dataclass(frozen=True, slots=True)
class Sheet:
    """One sheet: a heading of labels and cells, tables, notes below them, pages of a drawing.

    Formats that hold no picture leave the drawing out; what it measures is in the tables too.
    """

    key: str
    title: str
    header: tuple[tuple[str, Cell], ...]
    tables: tuple[Table, ...]
    notes: tuple[str, ...]
    pictures: tuple[Picture, ...] = ()

    def __post_init__(self) -> None:
        object.__setattr__(self, "title", fit_to_show(self.title))
        labelled = tuple((fit_to_show(label), cell) for label, cell in self.header)
        object.__setattr__(self, "header", labelled)
        object.__setattr__(self, "notes", tuple(fit_to_show(note) for note in self.notes))


@dataclass(frozen=True, slots=True)
class Field(Generic[T]):
    """A column together with the way from a thing to its cell."""

    column: Column
    cell: Callable[[T], Cell]


def text_field(key: str, title: str, cell: Callable[[T], Cell]) -> Field[T]:
    """Return a column of words."""
    return Field(Column(key, title), cell)


def number_field(key: str, title: str, unit: str, cell: Callable[[T], Cell]) -> Field[T]:
    """Return a column of numbers in one unit, set to the right."""
    return Field(Column(key, title, unit, "right"), cell)


def table(
    key: str, title: str, fields: Sequence[Field[T]], things: Iterable[T], *, stub: int = 1
) -> Table:
    """Return a table with one row for each thing."""
    columns = tuple(field.column for field in fields)
    rows = tuple(tuple(field.cell(thing) for field in fields) for thing in things)
    return Table(key, title, columns, rows, stub)
