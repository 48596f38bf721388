# SPDX-License-Identifier: Apache-2.0
"""How much fits: size classes of the terminal, and the areas of the views of a drawing."""

from __future__ import annotations

from dataclasses import dataclass
from enum import StrEnum


class SizeClass(StrEnum):
    """What a terminal has room for."""

    TOO_SMALL = "too small"
    NARROW = "narrow"
    MEDIUM = "medium"
    WIDE = "wide"


class ViewKind(StrEnum):
    """From where the aircraft is looked at: above, the left, or behind at one station."""

    PLAN = "plan"
    SIDE = "side"
    SECTION = "section"


@dataclass(frozen=True, slots=True)
class Area:
    """A rectangle of cells."""

    row: int
    column: int
    rows: int
    columns: int

    def holds(self, row: int, column: int) -> bool:
        """Whether a cell lies inside."""
        return 0 <= row - self.row < self.rows and 0 <= column - self.column < self.columns


_FROM = (
    (SizeClass.WIDE, 150, 40),
    (SizeClass.MEDIUM, 100, 30),
    (SizeClass.NARROW, 80, 24),
)

NARROW_ROWS = 10
"""Rows of the drawing on a narrow terminal."""


def size_class(columns: int, rows: int) -> SizeClass:
    """Return the class of a terminal."""
    for size, least_columns, least_rows in _FROM:
        if columns >= least_columns and rows >= least_rows:
            return size
    return SizeClass.TOO_SMALL


def views_in(size: SizeClass, single: ViewKind | None = None) -> tuple[ViewKind, ...]:
    """Return the views shown at a size; a narrow terminal, or `single`, shows one."""
    if single is not None or size in (SizeClass.NARROW, SizeClass.TOO_SMALL):
        return (single or ViewKind.PLAN,)
    if size is SizeClass.WIDE:
        return ViewKind.PLAN, ViewKind.SIDE, ViewKind.SECTION
    return ViewKind.PLAN, ViewKind.SIDE
