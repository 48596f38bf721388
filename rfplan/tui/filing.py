# SPDX-License-Identifier: Apache-2.0
"""The file behind the plan: saved, reloaded, recovered, edited elsewhere, and left."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import replace
from functools import partial
from pathlib import Path
from typing import TYPE_CHECKING

from rfplan.assess import assess
from rfplan.edits import EditError, named, same, with_values
from rfplan.files.left_journals import LeftJournal
from rfplan.files.problems import ProblemsError
from rfplan.files.replacing import NotSavedError
from rfplan.files.saving import ChangedOnDiskError
from rfplan.model.assessment import Assessment
from rfplan.model.plan import Plan, State
from rfplan.tui.history import counted, edited
from rfplan.tui.outcomes import Broken, Conflict, Outcome, Reloaded
from rfplan.tui.overlays.files import OpenForm, SaveAsForm
from rfplan.tui.overlays.overlay import MOST_COLUMNS
from rfplan.tui.overlays.question import Answer, QuestionOverlay
from rfplan.tui.overlays.reading import ReadingOverlay
from rfplan.tui.present.values import value_rows
from rfplan.tui.runs import Row, Run
from rfplan.tui.tokens import Token

if TYPE_CHECKING:
    from rfplan.tui.workspace import Workspace


_KEPT = 4
"""Assessments of other states and of the saved plan that are kept."""


class Filing:
    """Everything about files."""

    def __init__(self, workspace: Workspace) -> None:
        self.workspace = workspace
        self._judged: list[tuple[Plan, Assessment]] = []
        self._broken: Broken | None = None

    def assessment_in(self, state: State) -> Assessment:
        """Return the plan as it is now in another state."""
        return self._assessment_of(replace(self.workspace.session.plan, state=state))

    def saved_assessment(self) -> Assessment:
        """Return the plan as its file has it, in the state looked at."""
        now = self.workspace.session.plan
        saved = self.workspace.session.saved
        return self._assessment_of(replace(saved, state=now.state, serial=now.serial))

    def _assessment_of(self, plan: Plan) -> Assessment:
        """Judge a plan, or return what was found before for an equal one."""
        known = next((one for other, one in self._judged if same(other, plan)), None)
        if known is not None:
            return known
        file = self.workspace.session.file
        assessment = assess(plan, file.catalog, file.rulebook)
        self._judged = [*self._judged[-_KEPT + 1 :], (plan, assessment)]
        return assessment

    def opened(self) -> None:
        """Say what was opened, ask about changes that were left, tell of read-only."""
        session = self.workspace.session
        name = session.file.path.name
        words = f"{name} of {session.file.path.resolve().parent.name} opened"
        if session.read_only:
            words = f"{name} is read-only: changes are kept in the journal and not saved"
        self.workspace.say(words, Token.NEAR if session.read_only else Token.DIM)
        self._offer_left()

    def _offer_left(self) -> None:
        """Ask about the oldest journal that an earlier session left."""
        session = self.workspace.session
        if not session.left:
            return
        left = session.left[0]
        when = left.changes[-1].at.strftime("%H:%M on %Y-%m-%d")
        found = edited(session.plan, left.changes)
        words = f"Found {found} not saved, the last from {when}."
        if left.broken:
            words += f" After these the journal breaks off: {left.broken}."
        if not left.same_file:
            words += " The file has changed since."
        self.workspace.overlay = QuestionOverlay(
            self.workspace,
            "Changes left by an earlier session",
            words,
            [
                Answer("enter", "take them", partial(self._take, left)),
                Answer("d", "discard them", partial(self._discard, left)),
                Answer("v", "view them", partial(self._view_left, left)),
            ],
        )

    def _take(self, left: LeftJournal) -> None:
        self.workspace.say(self.workspace.session.recover(left))
        self._offer_left()

    def _discard(self, left: LeftJournal) -> None:
        session = self.workspace.session
        session.discard(left)
        self.workspace.say(f"discarded {edited(session.plan, left.changes)}", Token.DIM)
        self._offer_left()

    def _view_left(self, left: LeftJournal) -> None:
        rows: list[Row] = []
        for entry in left.changes:
            try:
                words = entry.edit.words(self.workspace.session.plan)
            except (EditError, KeyError):
                words = type(entry.edit).__name__
            rows.append([Run(f"{entry.at:%H:%M}  ", Token.FAINT), Run(words)])
        self.workspace.overlay = _Reopening(self.workspace, "Changes left", rows, self._offer_left)

    def save(self) -> bool:
        """Save, and say so only if it is so."""
        session = self.workspace.session
        if not session.unsaved:
            self.workspace.say("Nothing to save.", Token.DIM)
            return True
        try:
            words = session.save()
        except (NotSavedError, ProblemsError) as error:
            words = self._not_saved(error)
            if isinstance(error, ChangedOnDiskError):
                self.look_at_disk()
            if session.unsaved:
                self.workspace.say(words, Token.FAIL)
            return False
        self.workspace.say(f"{self.workspace.look.glyphs.passes} {words}", Token.PASS)
        return True

    def _not_saved(self, error: Exception) -> str:
        count = self.workspace.session.unsaved
        kept = "Your changes are" if count != 1 else "Your change is"
        fails = self.workspace.look.glyphs.fails
        return f"{fails} Not saved: {_first_line(error)}. {kept} kept in the journal. : save under"

    def save_as(self) -> None:
        """Ask for another name."""
        self.workspace.overlay = SaveAsForm(self.workspace)

    def save_under(self, path: Path) -> str:
        """Save to a new file; return why not, or ''."""
        try:
            words = self.workspace.session.save_as(path)
        except (NotSavedError, ProblemsError) as error:
            return f"Not saved: {_first_line(error)}."
        self.workspace.say(f"{self.workspace.look.glyphs.passes} {words}", Token.PASS)
        return ""

    def open_other(self) -> None:
        """Ask for another plan; unsaved changes first."""
        if self.workspace.session.unsaved:
            count = counted(self.workspace.session.unsaved)
            self.workspace.say(f"{count} not saved: save first, or undo.", Token.NEAR)
        else:
            self.workspace.overlay = OpenForm(self.workspace)

    def edit_file(self) -> None:
        """Open the editor at the line of what is selected, or of the first fault of the files."""
        session = self.workspace.session
        if self._broken is not None:
            first = self._broken.problems[0]
            self.workspace.terminal.edit_file(Path(first.file), first.line)
            return
        chosen = session.selection
        way: tuple[str, ...] = ()
        if self.workspace.looking.focus == "paths" and chosen.path:
            way = ("paths", chosen.path)
        elif chosen.antenna:
            way = ("antennas", chosen.antenna)
        file, line, _ = session.file.loaded.line_of(session.plan.state, way)
        self.workspace.terminal.edit_file(Path(file), line)

    def quit(self) -> None:
        """End, after a question if there is something unsaved."""
        count = self.workspace.session.unsaved
        if not count:
            self.workspace.terminal.leave()
            return
        self.workspace.overlay = QuestionOverlay(
            self.workspace,
            "Quit",
            f"{counted(count).capitalize()} not saved.",
            [
                Answer("s", "save and quit", self._save_and_leave),
                Answer("d", "discard and quit", self._discard_and_leave),
            ],
        )

    def _save_and_leave(self) -> None:
        if self.save():
            self.workspace.terminal.leave()

    def _discard_and_leave(self) -> None:
        self.workspace.session.close(discard=True)
        self.workspace.terminal.leave()

    def look_at_disk(self) -> None:
        """Take over what others did to the files, or ask."""
        self.heed(self.workspace.session.reload_if_changed())

    def heed(self, outcome: Outcome) -> None:
        """Tell what a look at the files came to."""
        workspace = self.workspace
        before, workspace.banner = workspace.banner, ""
        self._broken = outcome if isinstance(outcome, Broken) else None
        if isinstance(outcome, Broken):
            at = workspace.look.glyphs.fails
            workspace.banner = f"{at} {outcome.words}. Still showing what was read before. E edit"
            if workspace.banner != before:  # what was said before no longer holds
                workspace.message = None
        elif isinstance(outcome, Reloaded):
            if workspace.moving is not None:
                workspace.moving = workspace.overlay = None
            workspace.say(outcome.words)
        elif isinstance(outcome, Conflict) and not isinstance(workspace.overlay, ConflictQuestion):
            workspace.moving = None
            workspace.overlay = ConflictQuestion(workspace, outcome)


def _first_line(error: Exception) -> str:
    return str(error).splitlines()[0]


class _Reopening(ReadingOverlay):
    """Lines to read, after which a question is asked again."""

    passing = False

    def __init__(
        self, workspace: Workspace, title: str, rows: list[Row], again: Callable[[], None]
    ) -> None:
        super().__init__(workspace, title, rows)
        self.again = again

    def close(self) -> None:
        super().close()
        self.again()


class ConflictQuestion(QuestionOverlay):
    """The file changed and so did the plan: whose values stay?"""

    def __init__(self, workspace: Workspace, conflict: Conflict) -> None:
        self.conflict = conflict
        theirs, mine = named(conflict.theirs), named(conflict.mine)
        words = f"{conflict.words}. On disk: {theirs}. Yours: {mine}."
        answers = [
            Answer("k", "keep mine, on top of the file", self._keep),
            Answer("t", "take theirs, and give mine up", self._take),
            Answer("d", "see the difference", self._differ, stays=True),
        ]
        super().__init__(workspace, "Changed on disk", words, answers)

    def _keep(self) -> None:
        self._settle(self.workspace.session.keep_mine)

    def _take(self) -> None:
        self._settle(self.workspace.session.take_theirs)

    def _settle(self, settle: Callable[[], str]) -> None:
        try:
            self.workspace.say(settle())
        except EditError as error:
            self.workspace.say(f"{error}.", Token.NEAR)

    def _differ(self) -> None:
        saved, type = self.workspace.session.saved, self.workspace.type
        theirs, mine = (
            value_rows(saved, with_values(saved, values), MOST_COLUMNS - 4, type)
            for values in (self.conflict.theirs, self.conflict.mine)
        )
        rows = [[Run("On disk", Token.BOLD)], *theirs, []]
        rows += [[Run("Yours, not saved", Token.BOLD)], *mine]
        question = self

        def again() -> None:
            question.workspace.overlay = question

        self.workspace.overlay = _Reopening(self.workspace, "Difference", rows, partial(again))
