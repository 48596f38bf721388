# SPDX-License-Identifier: Apache-2.0
"""The Path screen: loss against frequency, what it is made of, its sources, cables compared."""

from __future__ import annotations

from functools import partial
from typing import TYPE_CHECKING

from rfplan.tui.layout import Area, SizeClass
from rfplan.tui.panes import SIGN_COLUMNS, Pane, blank, heading
from rfplan.tui.present.cables import Choice, compare_pane
from rfplan.tui.present.curve import curve_pane
from rfplan.tui.present.loss import contributions_pane
from rfplan.tui.screens.airframe import (
    MEDIUM_LEFT,
    WIDE_SIDES,
    chain,
    contributions,
    findings,
    paths,
)
from rfplan.tui.screens.part import (
    END_COLUMNS,
    Build,
    Part,
    part,
    rows_of,
    stacked,
)

if TYPE_CHECKING:
    from rfplan.tui.workspace import Workspace

NARROW_PATHS_ROWS = 4
NARROW_COMPARE_ROWS = 8
MOST_CURVE_ROWS = 18


def parts(workspace: Workspace, area: Area, size: SizeClass) -> list[Part]:
    """Return the panes."""
    if size is SizeClass.NARROW:
        return _narrow(workspace, area)
    left_columns = WIDE_SIDES[0] if size is SizeClass.WIDE else MEDIUM_LEFT
    left = Area(area.row, 0, area.rows, left_columns)
    right = Area(area.row, left_columns, area.rows, area.columns - left_columns)
    over, middle, under = _heights(workspace, right)
    upper = [curve_part(workspace, over), part(middle, partial(made_of, workspace))]
    if size is not SizeClass.WIDE:
        lists: list[Build] = [partial(build, workspace) for build in (paths, chain)]
        return [*stacked(left, lists), *upper, part(under, partial(compare, workspace))]
    lists = [partial(build, workspace) for build in (paths, findings)]
    half = right.columns // 2
    beside = Area(under.row, under.column + half, under.rows, right.columns - half)
    under = Area(under.row, under.column, under.rows, half)
    lower = (under, compare), (beside, chain)
    return [
        *stacked(left, lists),
        *upper,
        *(part(place, partial(build, workspace)) for place, build in lower),
    ]


def _heights(workspace: Workspace, area: Area) -> tuple[Area, Area, Area]:
    """The curve over the contributions over the cables."""
    curve_rows = min(MOST_CURVE_ROWS, area.rows * 2 // 5)
    need = rows_of(made_of(workspace, area.columns)) + 1
    middle_rows = min(need, area.rows // 3)
    heights = (curve_rows, middle_rows, area.rows - curve_rows - middle_rows)
    starts = (0, curve_rows, curve_rows + middle_rows)
    over, middle, under = (
        Area(area.row + start, area.column, rows, area.columns)
        for start, rows in zip(starts, heights, strict=True)
    )
    return over, middle, under


def _narrow(workspace: Workspace, area: Area) -> list[Part]:
    """A few paths, then the chain with its sources or the curve, then the cables; lists scroll."""
    first = Area(area.row, 0, NARROW_PATHS_ROWS, area.columns)
    last_row = area.row + area.rows - NARROW_COMPARE_ROWS
    middle_rows = area.rows - NARROW_PATHS_ROWS - NARROW_COMPARE_ROWS
    middle = Area(area.row + NARROW_PATHS_ROWS, 0, middle_rows, area.columns)
    last = Area(last_row, 0, NARROW_COMPARE_ROWS, area.columns)
    inner = part(middle, partial(elements, workspace))
    if workspace.tuning.on_top:
        inner = curve_part(workspace, middle)
    return [
        part(first, partial(paths, workspace)),
        inner,
        part(last, partial(compare, workspace)),
    ]


def curve_part(workspace: Workspace, area: Area) -> Part:
    """Return the loss against frequency, which fills its area."""
    size = (area.columns - SIGN_COLUMNS - END_COLUMNS, area.rows)
    return Part(area, curve_pane(workspace.tuning.swept(), size, workspace.type))


def made_of(workspace: Workspace, columns: int) -> Pane:
    """Return the contributions, those at the frequency chosen where one is."""
    path = workspace.standing.chosen_path
    if path is None:
        return contributions(workspace, columns)
    band = workspace.tuning.judged()
    return contributions_pane(workspace.assessment, path, columns, workspace.type, band)


def elements(workspace: Workspace, columns: int) -> Pane:
    """Return the contributions, and below them the chain with its sources."""
    bars, sources = made_of(workspace, columns), chain(workspace, columns)
    return Pane("contributions", bars.title, [*bars.items, blank(), *sources.items])


def compare(workspace: Workspace, columns: int) -> Pane:
    """Return every cable tried in the assembly."""
    compared = workspace.changing.compared()
    if compared is None:
        return Pane("compare", heading("No cable to compare"), [blank()])
    looking = workspace.looking
    choice = Choice(looking.cursors.get("compare", ""), looking.pinned)
    return compare_pane(compared, choice, columns, workspace.type)
