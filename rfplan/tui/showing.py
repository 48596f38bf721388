# SPDX-License-Identifier: Apache-2.0
"""Showing: views and zoom, the state looked at, theme, help, palette, find, read-out, copy."""

from __future__ import annotations

from functools import partial
from typing import TYPE_CHECKING

from rfplan.model.findings import Verdict
from rfplan.model.plan import State
from rfplan.reports.formats import text
from rfplan.reports.sheets import summary
from rfplan.reports.sheets.findings import in_order
from rfplan.reports.wording import said
from rfplan.tui.actions import ScreenId, actions_for
from rfplan.tui.layout import ViewKind
from rfplan.tui.overlays.choice import ChoiceOverlay, Entry
from rfplan.tui.overlays.reading import ReadingOverlay, rows_of_keys
from rfplan.tui.present.tags import AS, sign
from rfplan.tui.room_map import Roomed, view_of
from rfplan.tui.runs import Run
from rfplan.tui.sketch import place_of
from rfplan.tui.tokens import Token

if TYPE_CHECKING:
    from rfplan.tui.workspace import Workspace

READ_OUT_COLUMNS = 74


class Showing:
    """What is on the screen beside the selection, and how."""

    def __init__(self, workspace: Workspace) -> None:
        self.workspace = workspace
        self._room = {True: True, False: False}

    @property
    def _is_moving(self) -> bool:
        return self.workspace.moving is not None

    def toggle_room(self) -> None:
        """Show the room map or take it away, while an antenna is on the move or while none is."""
        self._room[self._is_moving] = not self._room[self._is_moving]

    def why_no_room(self) -> str:
        """Return why there is no room map."""
        reason = self.workspace.looking.why_no_antenna()
        if reason:
            return reason
        session, on = self.workspace.session, self._surface()
        antenna, kind = session.selection.antenna, view_of(session.plan.airframe, on)
        if kind is None:
            return f"The room map shows the skin; {antenna} stands inside, on {on}."
        if not self.workspace.sketch.shows(kind):
            return f"The room of {antenna} is seen in the {kind} view. v shows it."
        return ""

    def roomed(self) -> Roomed | None:
        """Return whose room the drawing shows, if any."""
        if self.why_no_room() or not self._room[self._is_moving]:
            return None
        session = self.workspace.session
        antenna = session.selection.antenna or ""
        file = session.file
        return Roomed(session.plan, file.catalog, file.rulebook, antenna, self._surface())

    def _surface(self) -> str:
        place = place_of(self.workspace.assessment, self.workspace.session.selection.antenna)
        return "" if place is None else place.surface

    def next_view(self) -> None:
        """Show one view alone, the next one, and in the end the findings or all of them."""
        order: list[ViewKind | None] = [None, *ViewKind]
        workspace = self.workspace
        if workspace.findings_on_top:
            workspace.findings_on_top, workspace.single = False, None
            return
        at = order.index(workspace.single) + 1
        if at == 1 and self._is_narrow():
            at = 2
        if at < len(order):
            workspace.single = order[at]
        elif self._is_narrow():
            workspace.findings_on_top = True
        else:
            workspace.single = None

    def _is_narrow(self) -> bool:
        return "findings" not in self.workspace.placed

    def zoom(self, factor: float) -> None:
        """Look closer at the selected antenna, or wider."""
        place = place_of(self.workspace.assessment, self.workspace.session.selection.antenna)
        drawing = self.workspace.sketch.drawing
        if place is not None:
            self.workspace.sketch.zoom(factor, place.point_m)
        elif drawing is not None:
            self.workspace.sketch.zoom(factor, drawing.stage.camera.middle_m)

    def zoom_home(self) -> None:
        """Look at the whole aircraft."""
        self.workspace.sketch.zoom_home()

    def next_state(self) -> None:
        """Look at the plan as found, as designed, as built."""
        session = self.workspace.session
        states = list(State)
        state = states[(states.index(session.plan.state) + 1) % len(states)]
        session.look_at(state)
        session.selection = session.selection.within(session.plan)
        self.workspace.say(f"Looking at the plan {AS[state]}.")

    def next_theme(self) -> None:
        """Light after dark, dark after light."""
        self.workspace.look = self.workspace.look.in_next_theme()

    def why_no_theme(self) -> str:
        """Return why the theme stays."""
        plain = self.workspace.look.plain
        return "This terminal is drawn without colours; there is one theme." if plain else ""

    def show_keys(self) -> None:
        """Show every key of the screen."""
        rows = rows_of_keys(self.workspace.screen, self.workspace.mode)
        self.workspace.overlay = ReadingOverlay(self.workspace, "Keys on this screen", rows)

    def show_commands(self) -> None:
        """Show everything that can be done, to be chosen by its words."""
        workspace = self.workspace
        entries = [
            Entry(
                [Run(action.label.ljust(30)), Run(action.keys_shown, Token.ACCENT)],
                partial(workspace.run, action.id),
                action.refusal(workspace),
            )
            for action in actions_for(workspace.screen, workspace.mode)
        ]
        workspace.overlay = ChoiceOverlay(workspace, "Commands", entries)

    def find(self) -> None:
        """Find a path, an antenna or a finding by its words."""
        workspace, assessment = self.workspace, self.workspace.assessment
        looking = workspace.looking
        glyphs, unit = workspace.look.glyphs, workspace.look.unit

        def entry(verdict: Verdict, kind: str, words: str, choose: partial[None]) -> Entry:
            row = [sign(verdict, glyphs), Run(f" {verdict!s:<10}"), Run(f" {kind:<9}{words}")]
            return Entry(row, choose)

        entries = [
            entry(path.overall, "path", path.id, partial(looking.select_path, path.id))
            for path in assessment.paths
        ]
        entries += [
            entry(
                place.overall,
                "antenna",
                place.id,
                partial(looking.select_antenna, place.id),
            )
            for place in assessment.antennas
        ]
        entries += [
            entry(
                one.verdict,
                "finding",
                said(one, unit),
                partial(looking.select_finding, one.id),
            )
            for one in in_order(assessment)
        ]
        workspace.overlay = ChoiceOverlay(workspace, "Find", entries)

    def read_out(self) -> None:
        """Show what `rfplan check` prints, line by line."""
        rows = [[Run(line)] for line in self.plain_text().splitlines()]
        self.workspace.overlay = ReadingOverlay(self.workspace, "Read-out", rows)

    def plain_text(self) -> str:
        """Return what `rfplan check` prints for what is shown."""
        return text.write(self.workspace.issuing.sheet(summary.KEY), width=READ_OUT_COLUMNS)

    def copy(self) -> None:
        """Copy the pane that has the focus, or the sheet, as text."""
        placed = self.workspace.placed.get(self.workspace.looking.focus)
        drawing = self.workspace.sketch.drawing
        if self.workspace.screen is ScreenId.SHEET:
            copied = self.workspace.issuing.text()
        elif placed is not None and placed.pane is not None:
            copied = placed.pane.text()
        else:
            copied = drawing.picture.text() if drawing is not None else ""
        lines = len(copied.splitlines())
        where = self.workspace.terminal.copy(copied)
        words = f"copied {lines} line{'' if lines == 1 else 's'}"
        self.workspace.say(f"{words}. If paste is empty your terminal blocks it; also in {where}")
