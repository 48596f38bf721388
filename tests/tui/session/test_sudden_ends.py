# SPDX-License-Identifier: Apache-2.0
"""What was accepted survives any sudden end of a session."""

from __future__ import annotations

import os
import signal
import time
from dataclasses import replace
from pathlib import Path
from random import Random

import pytest
from plan_files import PLAN, write_aircraft
from random_edits import random_edit
from sessions import AFT, FORWARD, journals, opened, taken_over

from rfplan.edits import EditError, MoveAntenna, RemoveWaiver, SetCable, differences
from rfplan.files.journal import journal_folder
from rfplan.files.problems import ProblemsError
from rfplan.model.plan import Plan, State
from rfplan.tui.session import Session

KILLS = 200 if os.environ.get("RFPLAN_THOROUGH") == "1" else 20


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
