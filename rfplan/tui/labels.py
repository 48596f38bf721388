# SPDX-License-Identifier: Apache-2.0
"""Where the names of antennas stand: beside their sign, over nothing else, or nowhere."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass
from enum import StrEnum

from rfplan.tui.layout import Area


class Side(StrEnum):
    """Where a name is tried first."""

    BESIDE = "beside"
    ABOVE = "above"
    BELOW = "below"


@dataclass(frozen=True, slots=True)
class Mark:
    """A sign on the drawing, and the name it would like to have beside it."""

    id: str
    row: int
    column: int
    name: str
    selected: bool = False
    side: Side = Side.BESIDE


@dataclass(frozen=True, slots=True)
class Label:
    """A name and the cell of its first letter."""

    id: str
    row: int
    column: int
    name: str

    @property
    def columns(self) -> range:
        """The columns its letters take."""
        return range(self.column, self.column + len(self.name))


class Board:
    """The cells still free for names in one view."""

    def __init__(
        self,
        area: Area,
        signs: Iterable[tuple[int, int]],
        words: Iterable[tuple[int, int]] = (),
    ) -> None:
        self._area = area
        self._signs = frozenset(signs)
        self._written = {*self._signs, *words}

    def takes(self, label: Label, own: tuple[int, int] | None = None) -> bool:
        """Whether a name fits: one cell from other names and its own sign, two from other signs."""
        first, beyond = label.columns.start, label.columns.stop
        inside = all(self._area.holds(label.row, column) for column in (first, beyond - 1))
        near = {(label.row, column) for column in range(first - 1, beyond + 1)}
        wider = {(label.row, column) for column in range(first - 2, beyond + 2)} - {own}
        return inside and not (near & self._written or wider & self._signs)

    def put(self, label: Label, margin: int = 0) -> None:
        """Take the cells of a name, and a margin on each side of it."""
        columns = range(label.columns.start - margin, label.columns.stop + margin)
        self._written.update((label.row, column) for column in columns)

    def first_fit(
        self, tries: Iterable[Label], own: tuple[int, int] | None = None, margin: int = 0
    ) -> Label | None:
        """Put the first of some tries that fits, and return it."""
        for label in tries:
            if self.takes(label, own):
                self.put(label, margin)
                return label
        return None


def place_labels(board: Board, marks: Sequence[Mark]) -> list[Label]:
    """Return the names that found a place: the selected one first, then in the order given.

    The selected one keeps a blank of its own on each side, since it stands on a ground of its own.
    """
    ordered = sorted(marks, key=lambda mark: not mark.selected)
    placed = (
        board.first_fit(_tries(mark), (mark.row, mark.column), int(mark.selected))
        for mark in ordered
    )
    return [label for label in placed if label is not None]


def _tries(mark: Mark) -> Iterator[Label]:
    """Up to twelve places round a sign, the best first."""
    for rows, columns in _offsets(len(mark.name), mark.side, mark.selected):
        yield Label(mark.id, mark.row + rows, mark.column + columns, mark.name)


def _offsets(width: int, side: Side, selected: bool) -> list[tuple[int, int]]:
    """Rows down and columns right from the sign to the first letter."""
    right, left, middle = 2, -width - 1, -(width // 2)
    beside = [(0, right), (0, left)]
    above = [(-1, middle), (-1, 1), (-1, -width)]
    below = [(1, middle), (1, 1), (1, -width)]
    far = [(-2, middle), (2, middle), (-2, right), (2, right)] if selected else []
    order = {
        Side.BESIDE: beside + above + below,
        Side.ABOVE: above + beside + below,
        Side.BELOW: below + beside + above,
    }
    return order[side] + far
