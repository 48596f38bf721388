# SPDX-License-Identifier: Apache-2.0
"""A session without a terminal: edits, undo, what is unsaved, saving."""

from __future__ import annotations

import os
import subprocess
import sys
from pathlib import Path

import pytest
from plan_files import PLAN, edited
from sessions import AFT, FORWARD, journals, opened, taken_over

from rfplan.edits import EditError, MoveAntenna, RemoveWaiver, SetCable, differences
from rfplan.files.problems import ProblemsError
from rfplan.files.replacing import NotSavedError
from rfplan.model.plan import State
from rfplan.tui.outcomes import Unchanged
from rfplan.tui.session import Session
from rfplan.units import Place


def test_a_plan_is_opened_with_catalogue_and_tables_and_its_worst_path_selected(
    folder: Path,
) -> None:
    session = Session.open(folder, State.BUILT, "31")
    assert (session.plan.state, session.plan.serial) == (State.BUILT, "31")
    paths = {path.id: path for path in session.assessment.paths}
    chosen = paths[session.selection.path or ""]
    assert session.selection.antenna == chosen.antenna
    assert (session.unsaved, session.read_only, session.changes()) == (0, False, ())


def test_a_plan_with_problems_is_not_opened(folder: Path) -> None:
    (folder / "plan.yaml").write_text(edited(PLAN, ("source: tape\n", "sauce: tape\n")))
    with pytest.raises(ProblemsError):
        opened(folder)


def test_an_edit_is_judged_told_and_counted_as_unsaved(session: Session) -> None:
    before = session.assessment
    assert session.do(AFT) == "gnss moved to 129.9 0 in on top"
    assert session.assessment.plan is session.plan
    assert session.assessment is not before
    assert session.unsaved == 1
    (row,) = session.changes()
    assert (row.happening, row.words, row.steps) == ("do", "gnss moved to 129.9 0 in on top", 1)


def test_a_move_of_many_steps_shown_before_is_one_step_to_undo(session: Session) -> None:
    plan = session.plan
    for step in range(10):
        session.preview(MoveAntenna("gnss", "top", Place(3.0 + step / 100, 0.0, None)))
    assert (session.plan is plan, journals(), session.undo_words) == (True, [], "")
    session.do(AFT)
    moved = session.plan
    assert session.undo() == "gnss moved to 129.9 0 in on top"
    assert session.plan == plan
    assert session.redo() == "gnss moved to 129.9 0 in on top"
    assert session.plan == moved


def test_the_effects_of_a_change_are_told(session: Session) -> None:
    session.do(MoveAntenna("gnss", "top", Place(81 * 0.0254, 0.0, None)))
    (row,) = session.changes()
    assert row.effects
    assert all(effect.before != effect.after for effect in row.effects)
    session.undo()
    back = {
        (effect.subject, effect.after, effect.before) for effect in session.changes()[1].effects
    }
    assert back == {(effect.subject, effect.before, effect.after) for effect in row.effects}


def test_an_edit_that_changes_nothing_or_cannot_be_made_leaves_no_trace(session: Session) -> None:
    here = session.plan.design.antennas["gnss"].at
    assert session.do(MoveAntenna("gnss", "top", here)) == ""
    with pytest.raises(EditError):
        session.do(RemoveWaiver("v9"))
    with pytest.raises(EditError):
        session.preview(RemoveWaiver("v9"))
    assert (session.undo(), session.redo(), session.changes(), journals()) == ("", "", (), [])


def test_after_a_new_edit_there_is_nothing_to_redo(session: Session) -> None:
    session.do(AFT)
    session.undo()
    assert session.redo_words
    session.do(FORWARD)
    assert session.redo_words == session.redo() == ""


def test_steps_are_undone_whatever_state_is_looked_at(session: Session) -> None:
    session.do(AFT)
    session.look_at(State.FOUND)
    session.undo()
    assert session.plan.state is State.FOUND
    assert session.unsaved == 0


def test_unsaved_is_compared_and_not_counted(session: Session) -> None:
    session.do(AFT)
    session.do(FORWARD)
    assert session.unsaved == 1
    session.save()
    assert session.unsaved == 0
    session.undo()
    assert session.unsaved == 1
    session.redo()
    assert session.unsaved == 0


def test_saved_undone_and_saved_again_the_file_is_as_it_was(session: Session, folder: Path) -> None:
    session.do(AFT)
    assert session.save() == "saved plan.yaml, 1 change"
    assert (folder / "plan.yaml").read_text() != PLAN
    session.undo()
    session.save()
    assert (folder / "plan.yaml").read_text() == PLAN


def test_saving_is_no_change_on_disk_by_others(session: Session) -> None:
    session.do(AFT)
    session.save()
    assert session.reload_if_changed() == Unchanged()


def test_a_read_only_file_is_told_before_and_refused_and_the_work_is_kept(
    folder: Path,
) -> None:
    (folder / "plan.yaml").chmod(0o444)
    session = opened(folder)
    assert session.read_only
    session.do(AFT)
    with pytest.raises(NotSavedError, match="read-only"):
        session.save()
    assert (folder / "plan.yaml").read_text() == PLAN
    assert session.unsaved == 1
    session.close()
    assert len(opened(folder).left) == 1


def test_saved_under_another_name_the_work_goes_on_there(session: Session, folder: Path) -> None:
    session.do(AFT)
    assert session.save_as(folder / "study.yaml") == "saved study.yaml, 1 change"
    assert (session.unsaved, session.plan.id, journals()) == (0, "study", [])
    session.undo()
    session.save()
    assert (folder / "study.yaml").read_text() == (folder / "plan.yaml").read_text() == PLAN


def test_on_a_full_disk_nothing_is_called_saved(
    session: Session, folder: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    def full(_: int) -> None:
        raise OSError(28, "No space left on device")

    monkeypatch.setattr(os, "fsync", full)
    session.do(AFT)
    assert session.journal.trouble == "the disk is full"
    with pytest.raises(NotSavedError, match="the disk is full"):
        session.save()
    assert session.unsaved == 1
    assert (folder / "plan.yaml").read_text() == PLAN


def test_after_a_gap_the_journal_has_everything_again(
    session: Session, folder: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    def full(_: int) -> None:
        raise OSError(28, "No space left on device")

    session.do(AFT)
    with monkeypatch.context() as patched:
        patched.setattr(os, "fsync", full)
        session.do(SetCable("w1", "rg_58c_u"))
    session.do(SetCable("w4", "rg_400_u"))
    session.undo()
    expected = session.plan
    session.close()
    assert differences(taken_over(folder), expected) == ()


def test_a_session_can_be_imported_without_anything_heavy() -> None:
    heavy = "{'numpy', 'scipy', 'skrf', 'pydantic', 'yaml', 'pint', 'textual'}"
    code = f"import rfplan.tui.session, sys; print(sorted({heavy} & set(sys.modules)))"
    ran = subprocess.run([sys.executable, "-c", code], capture_output=True, text=True, check=True)
    assert ran.stdout.strip() == "[]"
