# SPDX-License-Identifier: Apache-2.0
"""One part of a screen: a pane, or the drawing, in its area."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass
from typing import TypeAlias

from rfplan.tui.layout import Area
from rfplan.tui.panes import SIGN_COLUMNS, Pane

Build: TypeAlias = Callable[[int], Pane]
"""From the columns that its rows may take to the pane."""

END_COLUMNS = 1
"""A blank column right of the rows of a pane."""


FIRST_SHARE = 0.4
"""The most that the first of several panes takes of their rows."""


@dataclass(frozen=True, slots=True)
class Part:
    """A pane where it stands; None is the drawing."""

    area: Area
    pane: Pane | None


def part(area: Area, build: Build) -> Part:
    """Return a pane built as wide as its area."""
    return Part(area, build(area.columns - SIGN_COLUMNS - END_COLUMNS))


def stacked(area: Area, builds: list[Build]) -> list[Part]:
    """Return panes one below the other: each gets what it needs, or its share of too little.

    The first one has the larger share; the last one gets what is left.
    """
    columns = area.columns - SIGN_COLUMNS - END_COLUMNS
    panes = [build(columns) for build in builds]
    needs = [rows_of(pane) + 1 for pane in panes]
    first = min(needs[0], int(area.rows * FIRST_SHARE))
    heights = [first, *_shares(needs[1:], area.rows - first)]
    heights[-1] += area.rows - sum(heights)
    parts, row = [], area.row
    for pane, rows in zip(panes, heights, strict=True):
        parts.append(Part(Area(row, area.column, rows, area.columns), pane))
        row += rows
    return parts


def rows_of(pane: Pane) -> int:
    """Return how many rows a pane needs, its title among them."""
    items = sum(len(item.rows) for item in pane.items)
    return items + len(pane.head) + (1 if pane.title else 0)


def _shares(needs: list[int], rows: int) -> list[int]:
    """Rows for each need: small ones whole, large ones share what is left."""
    shares = [0] * len(needs)
    left, waiting = rows, sorted(range(len(needs)), key=needs.__getitem__)
    while waiting:
        index = waiting.pop(0)
        shares[index] = min(needs[index], left // (len(waiting) + 1))
        left -= shares[index]
    return shares
