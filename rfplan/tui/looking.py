# SPDX-License-Identifier: Apache-2.0
"""Looking about: screens, panes, the cursor, the selection, findings, clicks."""

from __future__ import annotations

from dataclasses import replace
from typing import TYPE_CHECKING

from rfplan.model.findings import Finding, OpenPoint
from rfplan.reports.outcome import unmet_paths
from rfplan.reports.sheets.findings import in_order
from rfplan.tui.actions import Mode, ScreenId
from rfplan.tui.panes import SIGN_COLUMNS
from rfplan.tui.present.findings import finding_words, point_words
from rfplan.tui.runs import Row, Run
from rfplan.tui.selection import Selection
from rfplan.tui.sketch import place_of

if TYPE_CHECKING:
    from rfplan.tui.workspace import Workspace


TITLE_AND_ONE = 2
"""Rows that a page goes less than a pane has: its title, and one to go on reading from."""


class Looking:
    """The selection, and the ways to it."""

    def __init__(self, workspace: Workspace) -> None:
        self.workspace = workspace
        self.key = ""
        self.cursors: dict[str, str] = {}
        self.pinned: list[str] = []
        self._focus = {ScreenId.PATH: "compare", ScreenId.SHEET: "sheet"}

    @property
    def focus(self) -> str:
        """The pane that takes the arrows: the first one of a screen, unless another was chosen."""
        placed = self.workspace.placed
        chosen = self._focus.get(self.workspace.screen, "")
        return chosen if chosen in placed or not placed else next(iter(placed))

    @focus.setter
    def focus(self, pane: str) -> None:
        self._focus[self.workspace.screen] = pane

    def has_keys(self, pane: str) -> bool:
        """Whether the arrows go to a pane."""
        if self.workspace.mode is Mode.PROPOSED:
            return pane == "proposed"
        return self.workspace.mode is Mode.LOOKING and pane == self.focus

    @property
    def selection(self) -> Selection:
        """What is selected."""
        return self.workspace.session.selection

    @selection.setter
    def selection(self, selection: Selection) -> None:
        self.workspace.session.selection = selection

    def go_to(self, screen: ScreenId) -> None:
        """Show another screen."""
        self.workspace.screen = screen
        self.workspace.placed = {}

    @property
    def way(self) -> int:
        """Which way the key goes: back or forth."""
        return -1 if self.key in _BACK else 1

    def next_pane(self) -> None:
        """Give the arrows to another pane."""
        panes = list(self.workspace.placed)
        if panes:
            self.focus = panes[(panes.index(self.focus) + self.way) % len(panes)]

    def go(self, steps: int) -> None:
        """Go some entries up or down in the pane that has the focus."""
        self.cursor(self.way * steps)

    def page(self) -> None:
        """Go as many entries as the pane that has the focus shows, but one."""
        placed = self.workspace.placed.get(self.focus)
        self.go(max(1, placed.area.rows - TITLE_AND_ONE) if placed is not None else 1)

    def cursor(self, step: int) -> None:
        """Go up or down in the pane that has the focus."""
        placed = self.workspace.placed.get(self.focus)
        if placed is None:
            return
        if placed.pane is None:
            self.select_along(1 if step > 0 else -1)
            return
        keys = placed.pane.keys()
        if not keys:
            self.workspace.scroll(self.focus).top += step
            return
        now = placed.pane.cursor
        at = keys.index(now) if now in keys else (-1 if step > 0 else len(keys))
        self.choose(self.focus, keys[max(0, min(len(keys) - 1, at + step))])

    def choose(self, pane: str, key: str) -> None:
        """Put the cursor of a pane on an entry, which selects what it stands for."""
        if pane == "paths":
            self.select_path(key)
        elif pane == "findings":
            self.select_finding(key)
        elif pane in ("matrix", "exposures"):
            self.workspace.coupling.choose(key)
        elif pane == "proposed":
            self.workspace.proposing.choose(key)
        elif pane == "sheets":
            self.workspace.issuing.choose(key)
        elif pane == "readings":
            self.workspace.measuring.choose(key)
        else:
            self.cursors[pane] = key

    def select_path(self, id: str) -> None:
        """Select a path and its antenna."""
        paths = self.workspace.assessment.paths
        path = next((path for path in paths if path.id == id), None)
        if path is not None:
            self._forget_cable()
            self.selection = Selection(path.id, path.antenna)

    def select_antenna(self, id: str) -> None:
        """Select an antenna, and the first path that ends there."""
        paths = [path for path in self.workspace.assessment.paths if path.antenna == id]
        chosen = next((path for path in paths if path.id == self.selection.path), None)
        path = chosen or (paths[0] if paths else None)
        self._forget_cable()
        self.selection = Selection(path.id if path else None, id)

    def select_finding(self, id: str) -> None:
        """Select a finding, with the antenna or the path that it is about; or an open point."""
        finding = self._finding(id)
        if finding is None:
            self.selection = replace(self.selection, finding=id)
            return
        antennas = self.workspace.session.plan.installation.antennas
        about = [name for name in finding.objects if name in antennas]
        if self.selection.antenna in about:
            about = [str(self.selection.antenna)]
        if about:
            self.select_antenna(about[0])
        elif finding.paths:
            self.select_path(finding.paths[0])
        self.selection = replace(self.selection, finding=id)

    def _finding(self, id: str | None) -> Finding | None:
        findings = self.workspace.assessment.findings
        return next((finding for finding in findings if finding.id == id), None)

    @property
    def point(self) -> OpenPoint | None:
        """The open point that is selected and can be accepted by name."""
        points = self.workspace.assessment.open_points
        chosen = (point for point in points if point.id == self.selection.finding)
        return next((point for point in chosen if point.accepts), None)

    def _forget_cable(self) -> None:
        self.cursors.pop("compare", None)
        self.cursors.pop("assembly", None)
        self.workspace.tuning.let_go()
        self.cursors.pop("readings", None)
        self.pinned.clear()

    def finding_row(self, columns: int) -> Row:
        """Return the selected finding or open point in words, nothing if none is selected."""
        if self.selection.finding in self._unmet():
            return self.workspace.sentence(columns)
        if self.point is not None and self.workspace.mode is not Mode.MOVING:
            return [Run(point_words(self.point))]
        finding = self._finding(self.selection.finding)
        if finding is None or self.workspace.moving is not None:
            return []
        return finding_words(finding, self.workspace.type)

    def along(self) -> None:
        """Select the next antenna aft, or forward."""
        self.select_along(self.way)

    def select_along(self, step: int) -> None:
        """Select an antenna some places further aft."""
        places = sorted(self.workspace.assessment.antennas, key=lambda place: place.point_m[:2])
        ids = [place.id for place in places]
        if ids:
            at = ids.index(self.selection.antenna) if self.selection.antenna in ids else 0
            self.select_antenna(ids[max(0, min(len(ids) - 1, at + step))])

    def why_no_finding(self) -> str:
        """Return why there is no finding to go to."""
        found = self._unmet() or self.workspace.assessment.findings
        return "" if found else "There is no finding, and every path meets its limits."

    def why_no_antenna(self) -> str:
        """Return why nothing can be moved."""
        place = place_of(self.workspace.assessment, self.selection.antenna)
        return "" if place is not None else "No antenna is selected."

    def next_finding(self) -> None:
        """Go to the next path that does not meet its limits, then to findings, worst first."""
        step, unmet = self.way, self._unmet()
        ids = [*unmet, *(finding.id for finding in in_order(self.workspace.assessment))]
        now = self.selection.finding
        at = ids.index(now) + step if now in ids else (0 if step > 0 else -1)
        to = ids[at % len(ids)]
        if to in unmet:
            self.select_path(to)
            self.selection = replace(self.selection, finding=to)
        else:
            self.select_finding(to)

    def _unmet(self) -> list[str]:
        """Paths that `n` visits as it does findings: a failed window is a record of its path."""
        return [path.id for path in unmet_paths(self.workspace.assessment)]

    def enter(self) -> None:
        """Open what the cursor is on."""
        screen, focus = self.workspace.screen, self.focus
        if screen is ScreenId.AIRFRAME:
            self.go_to(ScreenId.PATH)
        elif focus == "compare":
            self.workspace.changing.apply_cable()
        elif focus == "sheets":
            self.focus = "sheet"

    def back(self) -> None:
        """Let go of the finding, else of the frequency, else go back to the airframe."""
        if self.selection.finding is not None:
            self.selection = replace(self.selection, finding=None)
        elif self.workspace.tuning.let_go():
            return
        elif self.workspace.screen is not ScreenId.AIRFRAME:
            self.go_to(ScreenId.AIRFRAME)

    def next_assembly(self) -> None:
        """Compare cables for another assembly of the path."""
        path = self.workspace.standing.chosen_path
        if path is not None and path.cables:
            at = path.cables.index(self.workspace.changing.assembly) + self.way
            self._forget_cable()
            self.cursors["assembly"] = path.cables[at % len(path.cables)]

    def pin(self) -> None:
        """Keep the cable under the cursor on top, or let it go."""
        key = self.cursors.get("compare", "")
        if key in self.pinned:
            self.pinned.remove(key)
        elif key:
            self.pinned.append(key)

    def click(self, column: int, row: int) -> None:
        """Select what is drawn at a cell, or put the antenna on the move there."""
        for id, placed in self.workspace.placed.items():
            if placed.area.holds(row, column):
                self.focus = id
                if placed.pane is None:
                    self._click_drawing(row - placed.area.row, column - placed.area.column)
                elif item := placed.entries.get(row - placed.area.row):
                    self.choose(id, item.key_at(column - placed.area.column - SIGN_COLUMNS))

    def _click_drawing(self, row: int, column: int) -> None:
        sketch = self.workspace.sketch
        if self.workspace.moving is not None:
            sight = sketch.sight(row, column)
            if sight is not None:
                self.workspace.proposing.free()
                self.workspace.changing.move_to_sight(sight)
        elif antenna := sketch.antenna_at(row, column):
            self.select_antenna(antenna)

    def wheel(self, column: int, row: int, down: int) -> None:
        """Scroll a list under the pointer; look closer or wider at the drawing."""
        for id, placed in self.workspace.placed.items():
            if not placed.area.holds(row, column):
                continue
            if placed.pane is None:
                self.workspace.showing.zoom(1 / 1.25 if down > 0 else 1.25)
            elif placed.pane.cursor:
                focus, self.focus = self.focus, id
                self.cursor(down)
                self.focus = focus
            else:
                self.workspace.scroll(id).top += down


_BACK = ("up", "k", "left", "shift+left", "pageup", "home", "shift+tab", "N", "[")
"""Keys that go back; all others go forth."""
