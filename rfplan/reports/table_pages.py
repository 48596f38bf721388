# SPDX-License-Identifier: Apache-2.0
"""One fold of a table on paper: its headings on every page it takes, no row torn apart."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from rfplan.reports.inks import ink_of, is_bold
from rfplan.reports.page_columns import SHORT, Fold, Group, is_blank
from rfplan.reports.page_setting import Setting
from rfplan.reports.paper import LEADING, MARGIN_MM, SMALL, Paper
from rfplan.reports.sheet import Cell, Table

LINE_MM = SMALL * LEADING
PAD_MM = 0.55

TORN_MM = 40.0
"""A row that is taller may go on overleaf."""

MOST_KEPT_MM = 90.0
"""A table that is taller is torn, however few its rows."""

BY_HAND_MM = 5.2
"""The height of a row in which something is filled in."""


@dataclass(frozen=True, slots=True)
class TablePages:
    """A table being set."""

    page: Paper
    table: Table
    fold: Fold
    columns: Setting

    def write(self, below: float = 0.0) -> None:
        """Set headings and all rows; a page that is turned begins with the headings.

        The last row stands on one page with what is `below` the table.
        """
        self.page.keep_together(self.least)
        self._head()
        for number, row in enumerate(self.table.rows, start=1):
            lines = self._lines(row)
            after = below if number == len(self.table.rows) > 1 else 0.0
            if self.page.keep_together(self._untorn(row, lines) + after):
                self._overleaf()
            self._row(row, lines)

    @property
    def least(self) -> float:
        """What has to be left of a page for a table to begin there.

        Its headings and a row, all rows of a short table.
        """
        some = self.table.rows if len(self.table.rows) <= SHORT else self.table.rows[:1]
        heights = [self._untorn(row, self._lines(row)) for row in some]
        whole = self._head_height() + sum(heights)
        return whole if whole <= MOST_KEPT_MM else self._head_height() + heights[0]

    @property
    def _width(self) -> float:
        return sum(self.columns.widths)

    def _untorn(self, row: Sequence[Cell], lines: Sequence[Sequence[str]]) -> float:
        """Return how much of a row has to be on one page."""
        return min(self._height(row, lines), TORN_MM)

    def _height(self, row: Sequence[Cell], lines: Sequence[Sequence[str]]) -> float:
        by_hand = BY_HAND_MM if any(is_blank(cell.text) for cell in row) else 0.0
        return max(max(map(len, lines)) * LINE_MM + 2 * PAD_MM, by_hand)

    def _lines(self, row: Sequence[Cell]) -> list[list[str]]:
        return [
            self.page.lines(
                row[column].text, width - self.page.gap, bold=self._is_bold(column, row)
            )
            for column, width in zip(self.columns.columns, self.columns.widths, strict=True)
        ]

    def _is_bold(self, column: int, row: Sequence[Cell]) -> bool:
        return column < self.table.stub or is_bold(row[column])

    def _overleaf(self) -> None:
        """Say on a new page which table goes on, and set its headings again."""
        self.page.line(f"{self.table.title}, continued", size=SMALL, ink="dim")
        self.page.skip(0.8)
        self._head()

    def _row(self, row: Sequence[Cell], lines: Sequence[Sequence[str]]) -> None:
        """Set one row; one that is taller than a page goes on overleaf."""
        most = self._lines_left()
        for start in range(0, max(map(len, lines)), most):
            if start:
                self.page.turn()
                self._overleaf()
            parts = [each[start : start + most] for each in lines]
            self._cells(row, parts)
            self.page.y += self._height(row, parts)
        self.page.rule(MARGIN_MM, self.page.y, self._width)

    def _lines_left(self) -> int:
        return max(1, int((self.page.room - 2 * PAD_MM) / LINE_MM))

    def _cells(self, row: Sequence[Cell], lines: Sequence[Sequence[str]]) -> None:
        """Set the cells of one row from where the page is."""
        x = MARGIN_MM
        placed = zip(self.columns.columns, self.columns.widths, lines, strict=True)
        for column, width, part in placed:
            if is_blank(row[column].text):
                under = self.page.y + BY_HAND_MM - 2 * PAD_MM
                self.page.rule(x, under, width - self.page.gap, strong=True)
            else:
                self._cell(x, width - self.page.gap, column, row, part)
            x += width

    def _cell(
        self, x: float, room: float, column: int, row: Sequence[Cell], lines: Sequence[str]
    ) -> None:
        bold = self._is_bold(column, row)
        for number, line in enumerate(lines):
            at = x + (room - self.page.measure(line, bold) if self._is_right(column) else 0.0)
            y = self.page.y + PAD_MM + LINE_MM * (number + 0.78)
            self.page.text(at, y, line, bold=bold, ink=ink_of(row[column]))

    def _head_lines(self) -> tuple[int, int]:
        """Return how many lines the upper and the lower headings take."""
        upper = max(len(self._group_lines(group)) for group in self.fold)
        lower = [len(lines) for group in self.fold for lines in self._member_lines(group)]
        if not lower:
            return upper, 0
        shared = [len(self._group_lines(group)) for group in self.fold if group.titles]
        alone = [len(self._group_lines(group)) for group in self.fold if not group.titles]
        top = max(shared)
        return top, max([*lower, *(one - top for one in alone)])

    def _head_height(self) -> float:
        return sum(self._head_lines()) * LINE_MM + 2 * PAD_MM

    def _head(self) -> None:
        """Set one row of headings, or two where some columns share a heading."""
        upper, lower = self._head_lines()
        top, height = self.page.y, self._head_height()
        self.page.band(MARGIN_MM, top, self._width, height)
        x = MARGIN_MM
        for group in self.fold:
            width = self.columns.width_of(group.columns)
            lines = self._group_lines(group)
            if group.titles:
                self._heading(x, top, width, lines, right=False, centre=True)
                self.page.rule(x, top + PAD_MM + upper * LINE_MM, width - self.page.gap)
                self._members(x, top + upper * LINE_MM, group, lower)
            else:
                down = (upper + lower - len(lines)) * LINE_MM
                right = self._is_right(group.columns[0])
                self._heading(x, top + down, width, lines, right=right)
            x += width
        self.page.y = top + height
        self.page.rule(MARGIN_MM, self.page.y, self._width, strong=True)

    def _members(self, x: float, top: float, group: Group, most: int) -> None:
        for column, lines in zip(group.columns, self._member_lines(group), strict=True):
            width = self.columns.width_of([column])
            down = (most - len(lines)) * LINE_MM
            self._heading(x, top + down, width, lines, right=self._is_right(column))
            x += width

    def _heading(
        self,
        x: float,
        top: float,
        width: float,
        lines: Sequence[str],
        *,
        right: bool,
        centre: bool = False,
    ) -> None:
        for number, line in enumerate(lines):
            spare = width - self.page.gap - self.page.measure(line, False)
            at = x + (spare / 2 if centre else spare if right else 0.0)
            y = top + PAD_MM + LINE_MM * (number + 0.78)
            self.page.text(at, y, line, ink="dim")

    def _is_right(self, column: int) -> bool:
        return self.table.columns[column].align == "right"

    def _group_lines(self, group: Group) -> list[str]:
        title = f"{group.title} {group.unit}".strip()
        width = self.columns.width_of(group.columns) - self.page.gap
        return self.page.lines(title, width, bold=False)

    def _member_lines(self, group: Group) -> list[list[str]]:
        return [
            self.page.lines(
                f"{title} {'' if group.unit else self.table.columns[column].unit}".strip(),
                self.columns.width_of([column]) - self.page.gap,
                bold=False,
            )
            for title, column in zip(group.titles, group.columns, strict=False)
        ]
