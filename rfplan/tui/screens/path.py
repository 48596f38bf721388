# SPDX-License-Identifier: Apache-2.0
"""The Path screen: the chain with its sources, what the loss is made of, cables compared."""

from __future__ import annotations

from functools import partial
from typing import TYPE_CHECKING

from rfplan.tui.layout import Area, SizeClass
from rfplan.tui.panes import Pane, blank, heading
from rfplan.tui.present.cables import Choice, compare_pane
from rfplan.tui.screens.airframe import (
    MEDIUM_LEFT,
    WIDE_SIDES,
    chain,
    contributions,
    findings,
    paths,
)
from rfplan.tui.screens.part import Build, Part, part, rows_of, stacked

if TYPE_CHECKING:
    from rfplan.tui.workspace import Workspace

NARROW_PATHS_ROWS = 4
NARROW_COMPARE_ROWS = 8


def parts(workspace: Workspace, area: Area, size: SizeClass) -> list[Part]:
    """Return the panes."""
    if size is SizeClass.NARROW:
        return _narrow(workspace, area)
    left_columns = WIDE_SIDES[0] if size is SizeClass.WIDE else MEDIUM_LEFT
    left = Area(area.row, 0, area.rows, left_columns)
    right = Area(area.row, left_columns, area.rows, area.columns - left_columns)
    below = part(right, partial(contributions, workspace)).pane
    assert below is not None
    middle = min(rows_of(below) + 1, right.rows // 2)
    lower = right.rows - middle
    over = Area(right.row, right.column, middle, right.columns)
    under = Area(right.row + middle, right.column, lower, right.columns)
    lists: list[Build] = [partial(build, workspace) for build in (paths, chain)]
    if size is SizeClass.WIDE:
        lists = [partial(build, workspace) for build in (paths, findings)]
        half = right.columns // 2
        under = Area(under.row, under.column, under.rows, half)
        beside = Area(under.row, under.column + half, under.rows, right.columns - half)
        more = [part(beside, partial(chain, workspace))]
    else:
        more = []
    return [
        *stacked(left, lists),
        Part(over, below),
        part(under, partial(compare, workspace)),
        *more,
    ]


def _narrow(workspace: Workspace, area: Area) -> list[Part]:
    """A few paths, the chain with its sources, the cables; each scrolls."""
    first = Area(area.row, 0, NARROW_PATHS_ROWS, area.columns)
    last_row = area.row + area.rows - NARROW_COMPARE_ROWS
    middle_rows = area.rows - NARROW_PATHS_ROWS - NARROW_COMPARE_ROWS
    middle = Area(area.row + NARROW_PATHS_ROWS, 0, middle_rows, area.columns)
    last = Area(last_row, 0, NARROW_COMPARE_ROWS, area.columns)
    places = (first, paths), (middle, elements), (last, compare)
    return [part(place, partial(build, workspace)) for place, build in places]


def elements(workspace: Workspace, columns: int) -> Pane:
    """Return the contributions, and below them the chain with its sources."""
    bars, sources = contributions(workspace, columns), chain(workspace, columns)
    return Pane("contributions", bars.title, [*bars.items, blank(), *sources.items])


def compare(workspace: Workspace, columns: int) -> Pane:
    """Return every cable tried in the assembly."""
    compared = workspace.changing.compared()
    if compared is None:
        return Pane("compare", heading("No cable to compare"), [blank()])
    looking = workspace.looking
    choice = Choice(looking.cursors.get("compare", ""), looking.pinned)
    return compare_pane(compared, choice, columns, workspace.type)
