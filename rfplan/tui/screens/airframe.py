# SPDX-License-Identifier: Apache-2.0
"""The Airframe screen: the drawing, and what the plan comes to beside it."""

from __future__ import annotations

from functools import partial
from typing import TYPE_CHECKING

from rfplan.tui.actions import Mode
from rfplan.tui.layout import NARROW_ROWS, Area, SizeClass, ViewKind, views_in
from rfplan.tui.panes import Pane
from rfplan.tui.present.antenna import antenna_pane
from rfplan.tui.present.changes import journal_pane
from rfplan.tui.present.findings import findings_pane
from rfplan.tui.present.loss import chain_pane, contributions_pane
from rfplan.tui.present.paths import paths_pane
from rfplan.tui.present.proposals import proposals_pane
from rfplan.tui.screens.part import Build, Part, part, rows_of, stacked

if TYPE_CHECKING:
    from rfplan.tui.workspace import Workspace

NARROW_LEFT = 45
MEDIUM_LEFT = 47
WIDE_SIDES = (60, 52)
WIDE_FROM = 190
"""Columns from which both side columns are at their full width."""

LEAST_DRAWING_ROWS = 18


def parts(workspace: Workspace, area: Area, size: SizeClass) -> list[Part]:
    """Return the panes and the drawing."""
    if size is SizeClass.NARROW:
        return _narrow(workspace, area)
    return _wide(workspace, area) if size is SizeClass.WIDE else _medium(workspace, area)


def kinds(workspace: Workspace, size: SizeClass) -> tuple[ViewKind, ...]:
    """Return the views that the drawing shows."""
    return views_in(size, workspace.single)


def _narrow(workspace: Workspace, area: Area) -> list[Part]:
    """The drawing, or the findings, over paths and antenna."""
    top = Area(area.row, 0, NARROW_ROWS, area.columns)
    row, rows = area.row + NARROW_ROWS, area.rows - NARROW_ROWS
    first_list = proposed if workspace.mode is Mode.PROPOSED else paths
    left = part(Area(row, 0, rows, NARROW_LEFT), partial(first_list, workspace))
    right = Area(row, NARROW_LEFT, rows, area.columns - NARROW_LEFT)
    first = Part(top, None)
    if workspace.findings_on_top:
        first = part(top, partial(findings, workspace))
    return [left, first, part(right, partial(antenna, workspace))]


def _medium(workspace: Workspace, area: Area) -> list[Part]:
    """Paths, findings and antenna left; the drawing over the contributions right."""
    left = Area(area.row, 0, area.rows, MEDIUM_LEFT)
    right = Area(area.row, MEDIUM_LEFT, area.rows, area.columns - MEDIUM_LEFT)
    return [*stacked(left, _lists(workspace)), *_drawing_over(workspace, right)]


def _wide(workspace: Workspace, area: Area) -> list[Part]:
    """Lists left, the drawing in the middle, antenna and chain right."""
    full = area.columns >= WIDE_FROM
    left_columns, right_columns = WIDE_SIDES if full else (MEDIUM_LEFT, 0)
    left = Area(area.row, 0, area.rows, left_columns)
    middle_columns = area.columns - left_columns - right_columns
    middle = Area(area.row, left_columns, area.rows, middle_columns)
    if not full:
        return [*stacked(left, _lists(workspace)), *_drawing_over(workspace, middle)]
    builds: list[Build] = [*_lists(workspace)[:2], partial(changes, workspace)]
    right = Area(area.row, left_columns + middle_columns, area.rows, right_columns)
    sides: list[Build] = [partial(build, workspace) for build in (antenna, chain)]
    return [*stacked(left, builds), *_drawing_over(workspace, middle), *stacked(right, sides)]


def _lists(workspace: Workspace) -> list[Build]:
    """Paths, below them the findings or the places proposed, below them the antenna."""
    second = proposed if workspace.mode is Mode.PROPOSED else findings
    return [partial(build, workspace) for build in (paths, second, antenna)]


def _drawing_over(workspace: Workspace, area: Area) -> list[Part]:
    """The drawing, and below it the contributions of the selected path as far as both fit."""
    below = part(area, partial(contributions, workspace)).pane
    assert below is not None
    rows = min(rows_of(below), area.rows - LEAST_DRAWING_ROWS)
    if rows < 4:
        return [Part(area, None)]
    upper = Area(area.row, area.column, area.rows - rows, area.columns)
    lower = Area(area.row + area.rows - rows, area.column, rows, area.columns)
    return [Part(upper, None), Part(lower, below)]


def paths(workspace: Workspace, columns: int) -> Pane:
    """Return the list of paths."""
    chosen = workspace.session.selection.path
    return paths_pane(workspace.assessment, chosen, columns, workspace.type)


def findings(workspace: Workspace, columns: int) -> Pane:
    """Return the list of findings."""
    chosen = workspace.session.selection.finding
    return findings_pane(workspace.assessment, chosen, columns, workspace.type)


def proposed(workspace: Workspace, columns: int) -> Pane:
    """Return the list of places proposed for the antenna on the move."""
    moving = workspace.moving
    assert moving is not None
    found = workspace.proposing.found
    return proposals_pane(found, moving.antenna, moving.tried, columns, workspace.type)


def antenna(workspace: Workspace, columns: int) -> Pane:
    """Return the selected antenna."""
    return antenna_pane(workspace.standing, columns, workspace.type)


def contributions(workspace: Workspace, columns: int) -> Pane:
    """Return what the loss of the selected path is made of."""
    path = workspace.standing.chosen_path
    if path is None:
        return Pane("contributions", [], [])
    return contributions_pane(workspace.assessment, path, columns, workspace.type)


def chain(workspace: Workspace, columns: int) -> Pane:
    """Return the elements of the selected path with their sources."""
    path = workspace.standing.chosen_path
    if path is None:
        return Pane("chain", [], [])
    return chain_pane(workspace.assessment, path, columns, workspace.type)


def changes(workspace: Workspace, columns: int) -> Pane:
    """Return what has happened."""
    return journal_pane(workspace.session.changes(), "", columns, workspace.type)
