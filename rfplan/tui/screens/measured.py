# SPDX-License-Identifier: Apache-2.0
"""The Measured screen: every path with its readings, and the one under the cursor in full."""

from __future__ import annotations

from functools import partial
from typing import TYPE_CHECKING

from rfplan.tui.layout import Area, SizeClass
from rfplan.tui.panes import Pane
from rfplan.tui.present.readings import reading_pane, readings_pane
from rfplan.tui.screens.part import Part, part, rows_of

if TYPE_CHECKING:
    from rfplan.tui.workspace import Workspace

READING_ROWS = 8
"""Rows that the entry under the cursor has at least, where it stands below the list."""

READING_COLUMNS = 64
"""Columns that it has where it stands beside the list."""


def parts(workspace: Workspace, area: Area, size: SizeClass) -> list[Part]:
    """Return the panes: side by side where there is width for both, else one over the other."""
    first, second = partial(readings, workspace), partial(reading, workspace)
    if size is SizeClass.WIDE:
        left_columns = area.columns - READING_COLUMNS
        left = Area(area.row, 0, area.rows, left_columns)
        right = Area(area.row, left_columns, area.rows, READING_COLUMNS)
        return [part(left, first), part(right, second)]
    pane = part(area, first).pane
    assert pane is not None
    rows = min(rows_of(pane) + 1, area.rows - READING_ROWS)
    over = Area(area.row, 0, rows, area.columns)
    under = Area(area.row + rows, 0, area.rows - rows, area.columns)
    return [Part(over, pane), part(under, second)]


def readings(workspace: Workspace, columns: int) -> Pane:
    """Return the list of readings."""
    measuring = workspace.measuring
    chosen = measuring.chosen
    cursor = chosen.key if chosen is not None else ""
    return readings_pane(measuring.entries(), cursor, columns, workspace.type)


def reading(workspace: Workspace, columns: int) -> Pane:
    """Return the entry under the cursor."""
    return reading_pane(workspace.measuring.chosen, columns, workspace.type)
