# SPDX-License-Identifier: Apache-2.0
"""Other people's changes to the files of a session: seen, merged, in conflict, broken."""

from __future__ import annotations

from pathlib import Path

import pytest
from plan_files import AIRFRAME, PLAN, edited
from sessions import AFT, THEIRS, opened, replace_file, taken_over

from rfplan.edits import EditError, MoveAntenna, SetCable, differences
from rfplan.files.saving import ChangedOnDiskError
from rfplan.tui.outcomes import Broken, Conflict, Reloaded, Unchanged
from rfplan.tui.selection import Selection
from rfplan.tui.session import Session
from rfplan.units import Place


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
