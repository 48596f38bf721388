# SPDX-License-Identifier: Apache-2.0
"""The Coupling screen: senders against receivers, every exposure, and the chosen cell."""

from __future__ import annotations

from functools import partial
from typing import TYPE_CHECKING

from rfplan.tui.layout import Area, SizeClass
from rfplan.tui.panes import Pane
from rfplan.tui.present.coupling import cell_pane
from rfplan.tui.present.matrix import exposures_pane, matrix_pane
from rfplan.tui.screens.part import Part, part, rows_of

if TYPE_CHECKING:
    from rfplan.tui.workspace import Workspace

LEAST_BELOW = 9
"""Rows that the matrix leaves to what stands below it."""

LIST_SHARE = 0.48


def parts(workspace: Workspace, area: Area, size: SizeClass) -> list[Part]:
    """Return the matrix, or on a narrow screen the list, over the chosen cell."""
    narrow = size is SizeClass.NARROW
    build = exposures if narrow and workspace.coupling.list_on_top else matrix
    upper = part(area, partial(build, workspace))
    assert upper.pane is not None
    rows = min(rows_of(upper.pane) + 1, area.rows - LEAST_BELOW)
    row, left_rows = area.row + rows, area.rows - rows
    first = Part(Area(area.row, area.column, rows, area.columns), upper.pane)
    if narrow:
        return [first, part(Area(row, 0, left_rows, area.columns), partial(cell, workspace))]
    half = int(area.columns * LIST_SHARE)
    left = Area(row, 0, left_rows, half)
    right = Area(row, half, left_rows, area.columns - half)
    return [
        first,
        part(left, partial(exposures, workspace)),
        part(right, partial(cell, workspace)),
    ]


def matrix(workspace: Workspace, columns: int) -> Pane:
    """Return senders against receivers."""
    coupling = workspace.coupling
    hides = coupling.hides_passes
    return matrix_pane(coupling.study, coupling.chosen, hides, columns, workspace.type)


def exposures(workspace: Workspace, columns: int) -> Pane:
    """Return every emission against every limit."""
    coupling = workspace.coupling
    hides = coupling.hides_passes
    return exposures_pane(coupling.study, coupling.chosen, hides, columns, workspace.type)


def cell(workspace: Workspace, columns: int) -> Pane:
    """Return the chosen cell."""
    coupling = workspace.coupling
    return cell_pane(coupling.study, coupling.chosen, columns, workspace.type)
