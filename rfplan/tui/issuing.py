# SPDX-License-Identifier: Apache-2.0
"""Issuing sheets: each is built when it is shown, written where it is asked for, and released."""

from __future__ import annotations

from functools import partial
from pathlib import Path
from typing import TYPE_CHECKING

from rfplan.edits import SetRevision
from rfplan.files.problems import ProblemsError
from rfplan.model.assessment import Assessment
from rfplan.model.findings import Verdict
from rfplan.records.context_of import context_of
from rfplan.records.exports import Order, Origin, carried_out
from rfplan.records.released import FOLDER
from rfplan.records.revisions import NotReleasedError, release
from rfplan.records.settings import Settings
from rfplan.reports.context import Context
from rfplan.reports.documents import MissingExtraError
from rfplan.reports.formats import text
from rfplan.reports.outcome import is_draft
from rfplan.reports.printing import FILE_WIDTH
from rfplan.reports.sheet import Sheet
from rfplan.reports.sheets import SHEETS
from rfplan.reports.survey_tables import to_enter
from rfplan.reports.wrapping import wrapped
from rfplan.tui.overlays.export import ExportOverlay
from rfplan.tui.overlays.reading import ReadingOverlay
from rfplan.tui.overlays.release import ReleaseForm
from rfplan.tui.overlays.survey import SurveyForm
from rfplan.tui.present.sheet import SheetRows, sheet_rows
from rfplan.tui.present.tags import Type
from rfplan.tui.request import Steps
from rfplan.tui.runs import Row, Run, width
from rfplan.tui.tokens import Token, token_of

if TYPE_CHECKING:
    from rfplan.tui.workspace import Workspace

FIRST = "loss_budget"
"""The sheet that is shown first."""

REASON_COLUMNS = 74

TO_ACCEPT = (
    "To accept such a point as it is, press w on it among the findings of screen 1, which v shows "
    "where the screen is narrow."
)

KEYS_TOLD = " x exports, y copies."


class Issuing:
    """The sheets of the plan as it is now; `date` is what the user wants to stand on them."""

    def __init__(self, workspace: Workspace) -> None:
        self.workspace = workspace
        self.key = FIRST
        self.turned = True
        self.progress = ""
        self.date: str | None = None
        self._of: tuple[Assessment, Context] | None = None
        self._built: dict[str, Sheet] = {}
        self._rows: dict[tuple[str, int, Type], SheetRows] = {}

    @property
    def settings(self) -> Settings:
        """How the plan is looked at."""
        plan = self.workspace.session.plan
        return Settings("", plan.state, plan.serial, self.workspace.unit, self.date)

    def context(self, assessment: Assessment) -> Context:
        """Return what every sheet tells beside its assessment, as the commands print it."""
        session = self.workspace.session
        return context_of(assessment, session.file.loaded, self.settings, session.catalog_folder)

    def sheet(self, key: str) -> Sheet:
        """Return a sheet of the plan as it is; each is built once for a plan."""
        assessment = self.workspace.assessment
        if self._of is None or self._of[0] is not assessment:
            self._of = assessment, self.context(assessment)
            self._built, self._rows = {}, {}
        if key not in self._built:
            self._built[key] = SHEETS[key].build(*self._of)
        return self._built[key]

    def rows(self, columns: int) -> SheetRows:
        """Return the rows of the chosen sheet."""
        sheet, type = self.sheet(self.key), self.workspace.type
        wanted = (self.key, columns, type)
        if wanted not in self._rows:
            self._rows[wanted] = sheet_rows(sheet, columns, type)
        return self._rows[wanted]

    def choose(self, key: str) -> None:
        """Show another sheet."""
        if key != self.key:
            self.key, self.turned = key, True

    def next_sheet(self) -> None:
        """Show the next sheet, or the one before."""
        keys = list(SHEETS)
        self.choose(keys[(keys.index(self.key) + self.workspace.looking.way) % len(keys)])

    def enter_survey(self) -> None:
        """Ask for what was read, in the order of the survey form."""
        self.workspace.overlay = SurveyForm(self.workspace)

    def why_no_survey(self) -> str:
        """Return why nothing that was read can be entered here."""
        if self.key != "survey":
            return "Readings are entered by the survey form: choose that sheet first."
        return "" if to_enter(self.workspace.assessment) else "There is nothing to survey."

    def text(self) -> str:
        """Return the chosen sheet as a text file holds it."""
        return text.write(self.sheet(self.key), width=FILE_WIDTH)

    def export(self) -> None:
        """Ask what is to be written, and where."""
        self.workspace.overlay = ExportOverlay(self.workspace)

    def why_busy(self) -> str:
        """Return why nothing can be written at the moment."""
        return f"{self.progress} Wait for it." if self.progress else ""

    def write(self, order: Order) -> None:
        """Write what was ordered, beside the keys."""
        session, assessment = self.workspace.session, self.workspace.assessment
        origin = Origin(
            assessment,
            self.context(assessment),
            session.file.path,
            self.settings,
            session.catalog_folder,
        )
        self.workspace.terminal.aside(self._written(order, origin))

    def _written(self, order: Order, origin: Origin) -> Steps:
        """Carry an order out, and yield what to tell of it."""
        try:
            for step in carried_out(order, origin):
                yield partial(self._tell, f"Writing {step}.")
        except OSError as error:
            yield partial(self._end, f"Not written: {error.strerror or error}.", Token.FAIL)
        except (ProblemsError, MissingExtraError) as error:
            yield partial(self._end, f"Not written: {str(error).splitlines()[0]}.", Token.FAIL)
        else:
            yield partial(self._end, _written_words(order), Token.PASS)

    def ask_release(self) -> None:
        """Ask for letter and names of a revision to be released."""
        self.workspace.overlay = ReleaseForm(self.workspace)

    def release(self, edit: SetRevision) -> None:
        """Put letter and names into the plan, save it, and file it under its letter."""
        workspace, session = self.workspace, self.workspace.session
        workspace.changing.do(edit)
        if session.unsaved and not workspace.filing.save():
            return
        self.progress = "Releasing: packing all sheets, and judging them again."
        steps = self._released(session.file.path, self.settings, session.catalog_folder)
        workspace.message = None
        workspace.terminal.aside(steps)

    def _released(self, plan: Path, settings: Settings, user_folder: Path | None) -> Steps:
        try:
            path = release(plan, settings, user_folder)
        except NotReleasedError as refusal:
            yield partial(self.refuse, refusal.reasons, bool(refusal.acceptable))
        except ProblemsError as error:
            yield partial(self.refuse, [problem.text() for problem in error.problems])
        except OSError as error:
            yield partial(self._end, f"Not released: {error.strerror or error}.", Token.FAIL)
        else:
            words = f"{FOLDER}/{path.name} written. Raise the letter before the next change."
            yield partial(self._end, words, Token.PASS)

    def refuse(self, reasons: list[str], acceptable: bool = False) -> None:
        """Show why a plan was not released, and how a point that is open may be accepted."""
        self._end(f"Not released: {reasons[0]}", Token.FAIL)
        told = [*reasons, "", TO_ACCEPT] if acceptable else reasons
        rows = [[Run(line)] for words in told for line in wrapped(words, REASON_COLUMNS)]
        self.workspace.overlay = ReadingOverlay(self.workspace, "Not released", rows)

    def _tell(self, progress: str) -> None:
        self.progress = progress

    def _end(self, words: str, token: Token) -> None:
        """Say how it ended."""
        self.progress = ""
        glyphs = self.workspace.look.glyphs
        sign = glyphs.passes if token is Token.PASS else glyphs.fails
        self.workspace.say(f"{sign} {words}", token)

    def sentence(self, columns: int) -> Row:
        """Say whether the sheets are drafts, and until when."""
        assessment = self.workspace.assessment
        if not is_draft(assessment):
            return [Run(f"Every sheet as it will be filed.{KEYS_TOLD}", Token.DIM)]
        verdict = assessment.verdict
        until = "the plan is released"
        if verdict.fails:
            until = "it is fixed or waived"
        elif verdict is Verdict.INCOMPLETE:
            until = "what is missing is entered"
        sign = self.workspace.look.glyphs.sign(str(verdict))
        lead = Run(f"{sign} {verdict}", token_of(str(verdict)))
        told = f": every copy says DRAFT until {until}."
        fits = width([lead]) + len(told) + len(KEYS_TOLD) <= columns
        return [lead, Run(f"{told}{KEYS_TOLD}" if fits else told)]


def _written_words(order: Order) -> str:
    """Say which files there are now."""
    first, *more = order.paths
    if not more:
        return f"{first.name} written in {first.parent}"
    return f"{len(order.paths)} files written in {order.target}"
