# SPDX-License-Identifier: Apache-2.0
"""The Changes screen: what happened, found against design, saved against now."""

from __future__ import annotations

from functools import partial
from typing import TYPE_CHECKING

from rfplan.model.assessment import Assessment
from rfplan.model.plan import State
from rfplan.tui.layout import Area, SizeClass
from rfplan.tui.panes import Pane
from rfplan.tui.present.changes import difference_pane, journal_pane
from rfplan.tui.screens.part import Build, Part, part, stacked

if TYPE_CHECKING:
    from rfplan.tui.workspace import Workspace

NARROW_ROWS = 7


def parts(workspace: Workspace, area: Area, size: SizeClass) -> list[Part]:
    """Return the panes."""
    if size is SizeClass.NARROW:
        builds: list[Build] = [
            partial(build, workspace) for build in (journal, since_saved, against_found)
        ]
        return stacked(area, builds)
    half = area.columns // 2
    left = Area(area.row, 0, area.rows, half)
    right = Area(area.row, half, area.rows, area.columns - half)
    lists: list[Build] = [partial(build, workspace) for build in (journal, since_saved)]
    return [*stacked(left, lists), part(right, partial(against_found, workspace))]


FROM_TO = {
    State.FOUND: (State.FOUND, State.DESIGN),
    State.DESIGN: (State.FOUND, State.DESIGN),
    State.BUILT: (State.DESIGN, State.BUILT),
}
"""What is held against what while a state is on the screen."""


def journal(workspace: Workspace, columns: int) -> Pane:
    """Return what has happened."""
    rows = workspace.session.changes()
    cursor = workspace.looking.cursors.get("journal", str(len(rows) - 1))
    return journal_pane(rows, cursor, columns, workspace.type)


def since_saved(workspace: Workspace, columns: int) -> Pane:
    """Return how the plan differs from its file."""
    sides = workspace.filing.saved_assessment(), workspace.assessment
    return difference_pane("saved", "Saved against now", sides, columns, workspace.type)


def against_found(workspace: Workspace, columns: int) -> Pane:
    """Return how the design differs from what was found, or what was built from the design."""
    state = workspace.session.plan.state
    before, after = FROM_TO[state]
    sides = (_assessment_in(workspace, before), _assessment_in(workspace, after))
    title = f"{str(before).capitalize()} against {after}"
    return difference_pane("found", title, sides, columns, workspace.type)


def _assessment_in(workspace: Workspace, state: State) -> Assessment:
    """A state of the plan; that on the screen as it is there."""
    own = state is workspace.session.plan.state
    return workspace.assessment if own else workspace.filing.assessment_in(state)
