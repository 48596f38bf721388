# SPDX-License-Identifier: Apache-2.0
"""One plan at work: edits, undo, journal, saving, and what others do to its files.

No terminal here: whoever shows a session asks it after each call, and redraws.
"""

from __future__ import annotations

from dataclasses import replace
from pathlib import Path
from typing import TYPE_CHECKING, Literal

from rfplan.edits import Edit, EditError, SetValues, Value, differences, named, things
from rfplan.files.journal import Did, Entry, Journal, journal_folder
from rfplan.files.left_journals import LeftJournal, left_journals
from rfplan.model.plan import Plan, State
from rfplan.tui.history import ChangeRow, Effect, History, Step, counted, edited, effects, now
from rfplan.tui.outcomes import Broken, Conflict, Outcome, Reloaded, Unchanged
from rfplan.tui.selection import Selection, worst
from rfplan.tui.watch import Watch, names_of_changed

if TYPE_CHECKING:
    from rfplan.files.saving import PlanFile
    from rfplan.model.assessment import Assessment


class Session:
    """An open plan file, the plan as it is now, and the way from one to the other.

    `left` are journals of earlier sessions with changes that were not saved, `catalog_folder` is
    what lies over the shipped catalogue.
    """

    def __init__(self, file: PlanFile, catalog_folder: Path | None = None) -> None:
        self.file = file
        self.catalog_folder = catalog_folder
        self.plan = file.loaded.plan
        self.selection = Selection()
        self.journal = Journal(file.path, file.sha256, journal_folder())
        self._saved = self.plan
        self._history = History()
        self._watch = Watch()
        self._assessed: Assessment | None = None
        self.left = self._left_journals()

    @classmethod
    def open(
        cls,
        path: Path,
        state: State = State.DESIGN,
        serial: str | None = None,
        catalog: Path | None = None,
    ) -> Session:
        """Read a plan, a file or its folder, with catalogue and tables; raises ProblemsError."""
        from rfplan.files.load import load_catalog, load_rulebook
        from rfplan.files.saving import open_plan_file

        file = open_plan_file(path, load_catalog(catalog), load_rulebook(), state, serial)
        session = cls(file, catalog)
        session.selection = worst(session.assessment)
        return session

    @property
    def assessment(self) -> Assessment:
        """The verdict of the plan as it is now."""
        if self._assessed is None or self._assessed.plan is not self.plan:
            self._assessed = self._assess(self.plan)
        return self._assessed

    @property
    def unsaved(self) -> int:
        """How many things differ from the file; compared, not counted on the way."""
        return len(things(self.plan, self._mine()))

    @property
    def saved(self) -> Plan:
        """The plan as its file has it."""
        return self._saved

    @property
    def read_only(self) -> bool:
        """Whether saving will be refused, to be told before there is something to save."""
        return self.file.read_only

    @property
    def undo_words(self) -> str:
        """What undo would take back, '' if there is nothing."""
        return self._history.done[-1].words if self._history.done else ""

    @property
    def redo_words(self) -> str:
        """What redo would make again, '' if there is nothing."""
        return self._history.undone[-1].words if self._history.undone else ""

    def changes(self) -> tuple[ChangeRow, ...]:
        """Return what has happened, the latest last."""
        return tuple(self._history.rows)

    def look_at(self, state: State, serial: str | None = None) -> None:
        """Look at another state or serial number of the same plan."""
        self.plan = replace(self.plan, state=state, serial=serial or self.plan.serial)

    def preview(self, edit: Edit, state: State | None = None) -> Assessment:
        """Return the verdict as it would be after an edit, in any state; raises EditError."""
        plan = edit.apply(self.plan)
        return self._assess(plan if state is None else replace(plan, state=state))

    def do(self, edit: Edit) -> str:
        """Make an edit and tell it and what it does beside, '' if nothing; raises EditError."""
        before, plan = self.plan, edit.apply(self.plan)
        if not differences(before, plan):
            return ""
        words, beside = edit.words(before), edit.consequence(before)
        told = f"{words}; {beside}" if beside else words
        shown = self._go("do", edit, plan)
        self._history.add(Step(words, before, self.plan))
        self._history.note("do", told, shown)
        return told

    def undo(self) -> str:
        """Take the last step back and return it in words, '' if there is none."""
        return self._walk("undo", self._history.done, self._history.undone)

    def redo(self) -> str:
        """Make the step again that was undone last and return it in words, '' without one."""
        return self._walk("redo", self._history.undone, self._history.done)

    def save(self) -> str:
        """Write the plan into its file and say so.

        Raises NotSavedError, ChangedOnDiskError or ProblemsError; the file is then as it was,
        and the changes are kept in the journal.
        """
        count = self.unsaved
        self.file = self.file.save(self.plan, lambda sha256: self.journal.mark("saving", sha256))
        return self._is_saved(count)

    def save_as(self, path: Path) -> str:
        """Write the plan to a new file and go on working there; raises as `save` does."""
        count = self.unsaved
        self.file = self.file.save_as(self.plan, path)
        self.journal.close(keep=False)
        self.journal = Journal(self.file.path, self.file.sha256, journal_folder())
        return self._is_saved(count)

    def reload_if_changed(self) -> Outcome:
        """Look at the files on disk, and read them again if nothing unsaved stands against it."""
        file = self._watch.newer(self.file, self.plan)
        if file is None:
            return Unchanged()
        if isinstance(file, Broken):
            return file
        theirs, mine = differences(self._saved, file.loaded.plan), self._mine()
        name = names_of_changed(self.file, file)
        if theirs and mine and differences(file.loaded.plan, self.plan):
            words = f"{name} changed on disk and you have {counted(self.unsaved)} not saved"
            return Conflict(words, theirs, mine)
        self._take_over(file, self.plan if mine else file.loaded.plan)
        told = f"{counted(len(things(self.plan, theirs)))}: {named(theirs)}" if theirs else ""
        return self._noted(Reloaded(f"{name} changed on disk, {told or 'no value changed'}"))

    def take_theirs(self) -> str:
        """After a conflict: give up what is unsaved for what is in the file."""
        file = self._file_in_conflict()
        self._take_over(file, file.loaded.plan)
        return self._noted(Reloaded(f"{file.path.name} taken as it is on disk")).words

    def keep_mine(self) -> str:
        """After a conflict: put what is unsaved on top of what is in the file, still unsaved."""
        file, lost = self._file_in_conflict(), list[Value]()
        before = plan = self._seen(file.loaded.plan)
        for value in self._mine():
            try:
                plan = SetValues((value,)).apply(plan)
            except EditError:
                lost.append(value)
        self._take_over(file, plan)
        words = f"kept {named(self._mine())}"
        words += f"; no longer there: {named(lost)}" if lost else ""
        self._history.add(Step(words, before, self.plan))
        self._history.note("file", words)
        return words

    def recover(self, journal: LeftJournal) -> str:
        """Take the changes of an earlier session over, as far as they can be made."""
        taken = journal.take()
        self.left = tuple(other for other in self.left if other is not journal)
        if taken is None:
            return "these changes have been taken elsewhere"
        made, stopped = self._replayed(journal.changes)
        words = f"took over {edited(self.plan, made)}"
        stopped = stopped or journal.broken
        self._keep_all(self.file.sha256)
        if stopped:
            stopped += f"; the rest is in {taken}"
        else:
            taken.unlink(missing_ok=True)
        words += f"; {stopped}" if stopped else ""
        self._history.note("taken", words)
        return words

    def discard(self, journal: LeftJournal) -> None:
        """Give up the changes of an earlier session."""
        self.left = tuple(other for other in self.left if other is not journal)
        if taken := journal.take():
            taken.unlink(missing_ok=True)

    def close(self, *, discard: bool = False) -> None:
        """End the session; the journal stays if there are unsaved changes not given up."""
        self.journal.close(keep=not discard and self.unsaved > 0)

    def _assess(self, plan: Plan) -> Assessment:
        from rfplan.assess import assess

        return assess(plan, self.file.catalog, self.file.rulebook)

    def _left_journals(self) -> tuple[LeftJournal, ...]:
        """Return the journals to offer; one without anything readable is put out of the way."""
        found = left_journals(self.file.path, self.file.sha256, journal_folder())
        for journal in found:
            if not journal.changes and (taken := journal.take()):
                self._history.note("taken", f"{journal.broken}; nothing to take from {taken}")
        return tuple(journal for journal in found if journal.changes)

    def _mine(self) -> tuple[Value, ...]:
        """Return the values in which the plan differs from its file."""
        return differences(self._saved, self.plan)

    def _walk(self, did: Literal["undo", "redo"], here: list[Step], there: list[Step]) -> str:
        """Go over the last step of one list, which puts it on the other."""
        if not here:
            return ""
        plan = here[-1].before if did == "undo" else here[-1].after
        shown = self._go(did, SetValues(differences(self.plan, plan)), plan)
        there.append(here.pop())
        self._history.note(did, there[-1].words, shown)
        return there[-1].words

    def _seen(self, plan: Plan) -> Plan:
        """Return a plan under the name, and in the state, that is looked at now."""
        now = self.plan
        return replace(plan, id=now.id, state=now.state, serial=now.serial)

    def _go(self, did: Did, edit: Edit, plan: Plan) -> tuple[Effect, ...]:
        """Go to another plan once the journal has it, and return what that does."""
        plan, before = self._seen(plan), self.assessment
        after = self._assess(plan)
        self._keep(did, edit, plan)
        self.plan, self._assessed = plan, after
        return effects(before, after)

    def _replayed(self, changes: tuple[Entry, ...]) -> tuple[tuple[Entry, ...], str]:
        """Make changes again; return those up to the first that cannot be made, and why not."""
        for number, change in enumerate(changes):
            before = self.plan
            try:
                plan = change.edit.apply(replace(before, state=change.state))
            except EditError as error:
                return changes[:number], str(error)
            self.plan = self._seen(plan)
            self._history.add(Step(change.edit.words(before), before, self.plan))
        return changes, ""

    def _keep(self, did: Did, edit: Edit, plan: Plan) -> None:
        """Write a change to the journal; after a gap there, everything that is unsaved."""
        if self.journal.trouble:
            did, edit = "all", SetValues(differences(self._saved, plan))
        self.journal.write(Entry(did, edit, self.plan.state, now()))

    def _keep_all(self, sha256: str) -> None:
        """Write everything that is unsaved to the journal, on top of this content of the file."""
        if mine := self._mine():
            self.journal.write(Entry("all", SetValues(mine), self.plan.state, now()), sha256)
        else:
            self.journal.mark("reading", sha256)

    def _is_saved(self, count: int) -> str:
        self.journal.mark("saved", self.file.sha256)
        if self.plan.id != self.file.loaded.plan.id:
            self.plan = replace(self.plan, id=self.file.loaded.plan.id)
        self._saved = self.plan
        words = f"saved {self.file.path.name}, {counted(count)}"
        self._history.note("saved", words)
        return words

    def _take_over(self, file: PlanFile, plan: Plan) -> None:
        """Work on with a file as it is on disk now, and with a plan."""
        if differences(self._saved, file.loaded.plan):
            self._history.forget_steps()
        self.file, self._saved = file, file.loaded.plan
        self.plan = self._seen(plan)
        self.selection = self.selection.within(self.plan)
        self._keep_all(file.sha256)

    def _file_in_conflict(self) -> PlanFile:
        file = self._watch.newer(self.file, self.plan)
        if file is None or isinstance(file, Broken):
            raise EditError("there is nothing on disk to choose")
        return file

    def _noted(self, reloaded: Reloaded) -> Reloaded:
        self._history.note("file", reloaded.words)
        return reloaded
