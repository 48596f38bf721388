# SPDX-License-Identifier: Apache-2.0
"""A session without a terminal: edits, undo, saving, other people's changes, and sudden ends."""

from __future__ import annotations

import os
import signal
import subprocess
import sys
import time
from dataclasses import replace
from pathlib import Path
from random import Random

import pytest
from plan_files import AIRFRAME, PLAN, edited, shipped_catalog, shipped_rulebook, write_aircraft
from random_edits import random_edit

from rfplan.edits import EditError, MoveAntenna, RemoveWaiver, SetCable, differences
from rfplan.files.journal import journal_folder
from rfplan.files.problems import ProblemsError
from rfplan.files.replacing import NotSavedError
from rfplan.files.saving import ChangedOnDiskError, open_plan_file
from rfplan.model.plan import Plan, State
from rfplan.tui.outcomes import Broken, Conflict, Reloaded, Unchanged
from rfplan.tui.selection import Selection
from rfplan.tui.session import Session
from rfplan.units import Place

KILLS = 200 if os.environ.get("RFPLAN_THOROUGH") == "1" else 20

AFT = MoveAntenna("gnss", "top", Place(3.3, 0.0, None))
FORWARD = MoveAntenna("gnss", "top", Place(3.0, 0.0, None))
THEIRS = edited(PLAN, ("    built: {at: 82 0 in}", "    built: {at: 83 0 in}"))


@pytest.fixture(autouse=True)
def state_folder(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    """Keep journals in a folder of the test."""
    monkeypatch.setenv("XDG_STATE_HOME", str(tmp_path / "state"))
    return tmp_path / "state"


@pytest.fixture
def folder(tmp_path: Path) -> Path:
    """Return the folder of an aircraft."""
    (tmp_path / "tandem").mkdir()
    return write_aircraft(tmp_path / "tandem")


def opened(folder: Path, state: State = State.DESIGN) -> Session:
    """Open a session as the command does, but read catalogue and tables only once."""
    file = open_plan_file(folder, shipped_catalog(), shipped_rulebook(), state, None)
    return Session(file)


@pytest.fixture
def session(folder: Path) -> Session:
    """Return a session with nothing done yet."""
    return opened(folder)


def journals() -> list[str]:
    """Return the names of all journals there are."""
    return sorted(path.name for path in journal_folder().glob("*"))


def replace_file(path: Path, text: str) -> None:
    """Save a file as editors do, by a rename."""
    beside = path.with_name("beside")
    beside.write_text(text)
    beside.replace(path)


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


def taken_over(folder: Path) -> Plan:
    """Return the plan of a new session that takes over what is left behind."""
    session = opened(folder)
    for journal in session.left:
        session.recover(journal)
    session.close(discard=True)
    return session.plan


def test_other_peoples_saves_by_rename_are_seen_each_time(session: Session, folder: Path) -> None:
    session.selection = Selection("gnss", "gnss")
    path = folder / "plan.yaml"
    for station in (83, 84):
        replace_file(path, edited(PLAN, ("at: 82 0 in", f"at: {station} 0 in")))
        outcome = session.reload_if_changed()
        assert outcome == Reloaded("plan.yaml changed on disk, 1 change: com at")
        assert session.plan.built.antennas["com"].at.fs_m == pytest.approx(station * 0.0254)
        assert session.reload_if_changed() == Unchanged()
    assert (session.unsaved, session.selection.path) == (0, "gnss")
    assert [row.happening for row in session.changes()] == ["file", "file"]


def test_a_changed_airframe_is_read_again_too(session: Session, folder: Path) -> None:
    wider = edited(AIRFRAME, ("keep_off: 1 in", "keep_off: 2 in"))
    replace_file(folder / "airframe.yaml", wider)
    outcome = session.reload_if_changed()
    words = "airframe.yaml changed on disk, 1 change: airframe canopy keep off"
    assert outcome == Reloaded(words)
    assert session.plan.airframe.zones["canopy"].keep_off_m == pytest.approx(0.0508)


def test_a_comment_by_others_is_kept_and_so_are_unsaved_changes(
    session: Session, folder: Path
) -> None:
    session.do(AFT)
    replace_file(folder / "plan.yaml", f"{PLAN}# seen\n")
    assert session.reload_if_changed() == Reloaded("plan.yaml changed on disk, no value changed")
    assert session.unsaved == 1
    session.save()
    assert (folder / "plan.yaml").read_text().endswith("# seen\n")
    session.undo()
    assert session.unsaved == 1


def test_a_sudden_end_after_a_comment_by_others_loses_nothing(
    session: Session, folder: Path
) -> None:
    session.do(AFT)
    replace_file(folder / "plan.yaml", f"{PLAN}# seen\n")
    session.reload_if_changed()
    session.journal.close(keep=True)
    assert differences(taken_over(folder), session.plan) == ()


def test_a_sudden_end_just_after_the_file_was_replaced_offers_nothing_twice(
    session: Session, folder: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    def end(*_: object) -> str:
        raise SystemExit

    monkeypatch.setattr(Session, "_is_saved", end)
    session.do(AFT)
    with pytest.raises(SystemExit):
        session.save()
    session.journal.close(keep=True)
    again = opened(folder)
    assert again.left == ()
    assert again.plan.design.antennas["gnss"].at.fs_m == pytest.approx(3.3)


def test_a_sudden_end_and_a_change_by_others_offer_what_was_not_saved(
    session: Session, folder: Path
) -> None:
    session.do(AFT)
    session.save()
    session.do(SetCable("w4", "rg_400_u"))
    session.journal.close(keep=True)
    replace_file(folder / "plan.yaml", THEIRS)
    (left,) = opened(folder).left
    assert [change.edit for change in left.changes] == [SetCable("w4", "rg_400_u")]
    assert not left.same_file


def test_a_change_by_others_is_no_conflict_if_it_is_the_same(
    session: Session, folder: Path
) -> None:
    session.do(MoveAntenna("gnss", "top", Place(127 * 0.0254, 0.0, None)))
    replace_file(folder / "plan.yaml", edited(PLAN, ("at: 126 L1 in", "at: 127 0 in")))
    assert isinstance(session.reload_if_changed(), Reloaded)
    assert session.unsaved == 0


def in_conflict(session: Session, folder: Path) -> Conflict:
    """Make an edit while somebody else makes another one."""
    session.do(AFT)
    replace_file(folder / "plan.yaml", THEIRS)
    conflict = session.reload_if_changed()
    assert isinstance(conflict, Conflict)
    return conflict


def test_a_conflict_is_told_with_both_sides_and_nothing_is_overwritten(
    session: Session, folder: Path
) -> None:
    conflict = in_conflict(session, folder)
    assert conflict.words == "plan.yaml changed on disk and you have 1 change not saved"
    assert [value.way[1:] for value in conflict.theirs] == [("antennas", "com", "at")]
    assert {value.way[2] for value in conflict.mine} == {"gnss"}
    with pytest.raises(ChangedOnDiskError):
        session.save()
    assert (folder / "plan.yaml").read_text() == THEIRS
    assert isinstance(session.reload_if_changed(), Conflict)


def test_what_is_mine_can_be_kept_on_top_of_what_is_theirs(session: Session, folder: Path) -> None:
    in_conflict(session, folder)
    assert session.keep_mine() == "kept gnss at"
    assert session.unsaved == 1
    session.save()
    plan = opened(folder).plan
    assert plan.design.antennas["gnss"].at.fs_m == pytest.approx(3.3)
    assert plan.built.antennas["com"].at.fs_m == pytest.approx(83 * 0.0254)


def test_what_was_kept_can_be_undone_and_leaves_what_is_theirs(
    session: Session, folder: Path
) -> None:
    in_conflict(session, folder)
    session.keep_mine()
    assert session.undo() == "kept gnss at"
    assert session.unsaved == 0
    assert session.plan.built.antennas["com"].at.fs_m == pytest.approx(83 * 0.0254)
    assert [row.happening for row in session.changes()] == ["do", "file", "undo"]


def test_what_others_have_taken_out_is_told_when_mine_is_kept(
    session: Session, folder: Path
) -> None:
    session.do(AFT)
    session.do(MoveAntenna("nav", "top", Place(4.0, 0.0, None)))
    gone = edited(
        PLAN,
        ("  nav: {type: nav_whip_v, on: top, at: 200 0 in}\n", ""),
        ("  vor1: {chain: [vhf1.vor, w3, split.a, w5, nav]}\n", ""),
        ("  vor2: {chain: [vhf2.vor, w4, split.b, w5, nav]}\n", ""),
    )
    replace_file(folder / "plan.yaml", gone)
    assert isinstance(session.reload_if_changed(), Conflict)
    assert session.keep_mine() == "kept gnss at; no longer there: nav at"


def test_what_is_theirs_can_be_taken(session: Session, folder: Path) -> None:
    in_conflict(session, folder)
    assert session.take_theirs() == "plan.yaml taken as it is on disk"
    assert (session.unsaved, session.undo()) == (0, "")
    assert session.plan.built.antennas["com"].at.fs_m == pytest.approx(83 * 0.0254)
    session.close()
    assert opened(folder).left == ()


@pytest.mark.parametrize("choice", ["keep_mine", "take_theirs"])
def test_a_sudden_end_after_a_conflict_brings_back_what_was_chosen(
    session: Session, folder: Path, choice: str
) -> None:
    in_conflict(session, folder)
    getattr(session, choice)()
    session.do(SetCable("w4", "rg_400_u"))
    session.journal.close(keep=True)
    assert differences(taken_over(folder), session.plan) == ()


def test_without_a_conflict_there_is_nothing_to_choose(session: Session) -> None:
    for choose in (session.keep_mine, session.take_theirs):
        with pytest.raises(EditError, match="nothing on disk to choose"):
            choose()


def test_a_broken_file_is_told_with_its_place_and_the_last_good_plan_stays(
    session: Session, folder: Path
) -> None:
    session.do(AFT)
    good, path = session.plan, folder / "plan.yaml"
    replace_file(path, edited(PLAN, ("at: 82 0 in", "at: 82")))
    outcome = session.reload_if_changed()
    assert isinstance(outcome, Broken)
    assert outcome is session.reload_if_changed()
    problem = outcome.problems[0]
    line = PLAN[: PLAN.index("82 0 in")].count("\n") + 1
    assert (problem.file, problem.line, problem.column) == (str(path), line, 17)
    assert outcome.words.startswith(f"plan.yaml:{line}:17: ")
    with pytest.raises(ChangedOnDiskError):
        session.save()
    assert session.plan is good
    replace_file(path, PLAN)
    assert session.reload_if_changed() == Unchanged()
    session.save()


def test_a_file_that_is_gone_is_told(session: Session, folder: Path) -> None:
    (folder / "plan.yaml").unlink()
    outcome = session.reload_if_changed()
    assert isinstance(outcome, Broken)
    assert "there is no such file" in outcome.words


def test_what_was_not_saved_is_offered_and_taken_over(session: Session, folder: Path) -> None:
    session.do(AFT)
    session.look_at(State.FOUND)
    session.do(SetCable("w4", "rg_400_u"))
    session.journal.close(keep=True)
    again = opened(folder)
    (left,) = again.left
    assert (len(left.changes), left.same_file) == (2, True)
    assert again.recover(left) == "took over 2 changes"
    assert differences(again.plan, session.plan) == ()
    assert (again.plan.state, again.unsaved, again.left) == (State.DESIGN, 2, ())
    again.undo()
    again.undo()
    assert again.unsaved == 0
    again.close()
    assert journals() == []


def test_changes_taken_over_survive_a_second_sudden_end(session: Session, folder: Path) -> None:
    session.do(AFT)
    session.journal.close(keep=True)
    for _ in range(3):
        again = opened(folder)
        again.recover(again.left[0])
        again.journal.close(keep=True)
    assert differences(again.plan, session.plan) == ()


def test_what_ends_the_process_while_it_takes_changes_over_cannot_end_the_next(
    session: Session, folder: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    session.do(AFT)
    session.journal.close(keep=True)
    again = opened(folder)
    with monkeypatch.context() as patched:
        patched.setattr(MoveAntenna, "apply", lambda *_: os.abort)
        with pytest.raises(TypeError):
            again.recover(again.left[0])
    third = opened(folder)
    assert third.left == ()
    assert [name for name in journals() if name.endswith(".taken")]


def test_discarded_changes_are_gone(session: Session, folder: Path) -> None:
    session.do(AFT)
    session.journal.close(keep=True)
    again = opened(folder)
    again.discard(again.left[0])
    assert (again.left, journals()) == ((), [])


def test_a_broken_journal_does_not_stop_the_start_twice_in_a_row(
    session: Session, folder: Path
) -> None:
    session.do(AFT)
    session.journal.close(keep=True)
    (path,) = journal_folder().iterdir()
    path.write_bytes(b"\xff not a journal\n")
    again = opened(folder)
    assert again.left == ()
    assert "journal line 1" in again.changes()[0].words
    assert opened(folder).changes() == ()


def test_changes_that_cannot_be_made_any_more_end_the_taking_over(
    session: Session, folder: Path
) -> None:
    session.do(AFT)
    session.do(RemoveWaiver("v1"))
    session.do(FORWARD)
    session.journal.close(keep=True)
    (folder / "plan.yaml").write_text(PLAN[: PLAN.index("waivers:")])
    again = opened(folder)
    assert again.left[0].same_file is False
    words = again.recover(again.left[0])
    assert words.startswith("took over 1 change; there is no waiver v1; the rest is in ")
    assert again.plan.design.antennas["gnss"].at.fs_m == pytest.approx(3.3)


def test_the_journal_goes_when_all_is_saved_or_given_up_and_stays_otherwise(
    folder: Path,
) -> None:
    for discard, kept in ((True, 0), (False, 1)):
        session = opened(folder)
        session.do(AFT)
        session.close(discard=discard)
        assert len(journals()) == kept
    session = opened(folder)
    session.recover(session.left[0])
    session.save()
    session.close()
    assert journals() == []


def play(session: Session, seed: int, steps: int, report: int | None = None) -> None:
    """Work at random but always the same for one seed; report each step once it is accepted."""
    random = Random(seed)
    for _ in range(steps):
        session.look_at(random.choice(list(State)))
        act = random.choice(("do", "do", "do", "undo", "redo", "save"))
        try:
            if act == "do":
                session.do(random_edit(random, session.plan))
            else:
                getattr(session, act)()
        except (EditError, ProblemsError):
            pass
        if report is not None:
            os.write(report, b".")


@pytest.mark.skipif(not hasattr(os, "fork"), reason="needs fork()")
def test_kill_9_at_any_moment_loses_nothing_that_was_accepted(tmp_path: Path) -> None:
    random = Random(9)
    for number in range(KILLS):
        folder, twin = tmp_path / f"killed{number}", tmp_path / f"twin{number}"
        for each in (folder, twin):
            each.mkdir()
            write_aircraft(each)
        accepted = killed_at_work(folder, number, random)
        plan = taken_over(folder)
        expected = [after(twin, number, steps) for steps in (accepted, accepted + 1)]
        assert any(not differences(plan, one) for one in expected), (number, accepted)


STEPS = 12


def killed_at_work(folder: Path, seed: int, random: Random) -> int:
    """Let a child work and kill it at a random moment; return how many steps it has reported."""
    reading, writing = os.pipe()
    child = os.fork()
    if not child:
        try:
            play(opened(folder), seed, STEPS, writing)
        finally:
            os._exit(0)
    os.close(writing)
    count = 0
    until = random.randint(0, STEPS - 1)
    while count < until and os.read(reading, 1):
        count += 1
    time.sleep(random.random() * 0.02)
    os.kill(child, signal.SIGKILL)
    os.waitpid(child, 0)
    while os.read(reading, 1):
        count += 1
    os.close(reading)
    return count


def after(folder: Path, seed: int, steps: int) -> Plan:
    """Return the plan after as many steps, done without being disturbed."""
    write_aircraft(folder)
    session = opened(folder)
    play(session, seed, steps)
    session.close(discard=True)
    return replace(session.plan, state=State.DESIGN)


def test_a_session_can_be_imported_without_anything_heavy() -> None:
    heavy = "{'numpy', 'scipy', 'skrf', 'pydantic', 'yaml', 'pint', 'textual'}"
    code = f"import rfplan.tui.session, sys; print(sorted({heavy} & set(sys.modules)))"
    ran = subprocess.run([sys.executable, "-c", code], capture_output=True, text=True, check=True)
    assert ran.stdout.strip() == "[]"
