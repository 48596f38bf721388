# SPDX-License-Identifier: Apache-2.0
"""Who disturbs whom: what is chosen on the Coupling screen, and how it is looked at."""

from __future__ import annotations

from typing import TYPE_CHECKING

from rfplan.analysis.isolation_models import Rung
from rfplan.analysis.ladder import AT_ONCE
from rfplan.tui.actions import ScreenId
from rfplan.tui.coupling_study import Chosen, Study, exposure_key, study_of
from rfplan.tui.overlays.reading import ReadingOverlay
from rfplan.tui.present.coupling import cell_rows, sentence
from rfplan.tui.runs import Row

if TYPE_CHECKING:
    from rfplan.tui.workspace import Workspace

OVERLAY_COLUMNS = 74

RUNGS = (Rung.DEFAULT, *(rung for rung in AT_ONCE if rung is not Rung.DEFAULT))
"""All but the exact one, which takes up to seconds a pair."""


class Coupling:
    """The cell that is chosen; its antennas are among what is selected on all screens."""

    def __init__(self, workspace: Workspace) -> None:
        self.workspace = workspace
        self.hides_passes = False
        self.list_on_top = False
        self.rung = Rung.DEFAULT
        self._study: Study | None = None
        self._at: tuple[str, str, int] | None = None

    @property
    def study(self) -> Study:
        """The matrix of the plan shown, worked out when it is first asked for."""
        assessment = self.workspace.assessment
        study = self._study
        if study is None or study.assessment is not assessment or study.rung is not self.rung:
            self._study = study = study_of(assessment, self.rung)
        return study

    @property
    def chosen(self) -> Chosen | None:
        """The chosen cell, else the worst of the selected antenna."""
        study = self.study
        if not study.matrix.cells:
            return None
        source, victim, index = self._at or ("", "", 0)
        antenna = self.workspace.session.selection.antenna
        there = source in study.matrix.sources and victim in study.matrix.victims
        if not there or antenna not in (source, victim):
            source, victim, index = *study.worst_of(antenna), 0
        return Chosen(source, victim, index, study.cell(source, victim))

    def choose(self, key: str) -> None:
        """Choose a cell, and one of its exposures, by the key of an entry."""
        source, victim, index = key.split(" ")
        self._at = source, victim, int(index)
        if self.workspace.session.selection.antenna not in (source, victim):
            self.workspace.looking.select_antenna(victim)

    def across(self, step: int) -> None:
        """Go to another receiver."""
        chosen = self.chosen
        if chosen is not None:
            victims = self.study.matrix.victims
            at = max(0, min(len(victims) - 1, victims.index(chosen.victim) + step))
            self.choose(exposure_key(chosen.source, victims[at]))

    def hide_passes(self) -> None:
        """Leave out what passes, or show it again."""
        self.hides_passes = not self.hides_passes

    def next_rung(self, step: int) -> None:
        """Show the matrix by another rung of the ladder, for comparison."""
        at = RUNGS.index(self.rung)
        self.rung = RUNGS[(at + step) % len(RUNGS)]

    def swap(self) -> None:
        """Show the list in place of the matrix, or the matrix again."""
        self.list_on_top = not self.list_on_top
        self.workspace.looking.focus = "exposures" if self.list_on_top else "matrix"

    def why_no_cell(self) -> str:
        """Return why there is nothing to look into."""
        return "" if self.chosen is not None else "No transmitter meets another's receiver."

    def why_no_swap(self) -> str:
        """Return why matrix and list are not swapped."""
        both = {"matrix", "exposures"} <= self.workspace.placed.keys()
        return "Matrix and list are both shown." if both else ""

    def move_receiver(self) -> None:
        """Take the receiving antenna up, on the airframe."""
        chosen = self.chosen
        if chosen is not None:
            self.workspace.looking.select_antenna(chosen.victim)
            self.workspace.looking.go_to(ScreenId.AIRFRAME)
            self.workspace.changing.move()

    def open_cell(self) -> None:
        """Show all there is about the chosen cell."""
        chosen = self.chosen
        if chosen is not None:
            rows = cell_rows(self.study, chosen, OVERLAY_COLUMNS, self.workspace.type)
            title = f"{chosen.source} to {chosen.victim}"
            self.workspace.overlay = ReadingOverlay(self.workspace, title, rows)

    def sentence(self, columns: int) -> Row:
        """Return the chosen cell in words."""
        return sentence(self.study, self.chosen, columns, self.workspace.type)
