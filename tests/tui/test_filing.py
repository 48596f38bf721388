# SPDX-License-Identifier: Apache-2.0
from __future__ import annotations

import os
import stat
from pathlib import Path

import pytest
from workspaces import PLAN, Seat

from rfplan.files.journal import Journal
from rfplan.tui.overlays.reading import ReadingOverlay
from rfplan.tui.runs import text_of

MOVED = ("m", "down", "down", "enter")


@pytest.fixture
def seat(frozen: Path) -> Seat:
    seat = Seat(frozen)
    seat.workspace.looking.select_antenna("g1")
    seat.draw()
    return seat


DROPPED = PLAN.replace("[tnc, tnc], length: 150 in}", "[tnc, tnc], drops: [5 in, 3 in]}")


@pytest.fixture
def dropped(frozen: Path) -> Seat:
    """Return a seat at a plan that states the drop at its selected antenna."""
    (frozen / "plan.yaml").write_text(DROPPED, encoding="utf-8")
    seat = Seat(frozen)
    seat.workspace.looking.select_antenna("g1")
    seat.draw()
    return seat


def put(folder: Path, text: str) -> None:
    """Replace the plan as editors do, by a new file under the old name."""
    beside = folder / "plan.yaml.new"
    beside.write_text(text, encoding="utf-8")
    beside.replace(folder / "plan.yaml")


def test_saving_and_undoing_is_unsaved_again_and_saves_back_to_the_same_bytes(
    seat: Seat, frozen: Path
) -> None:
    before = (frozen / "plan.yaml").read_bytes()
    seat.press(*MOVED, "ctrl+s")
    assert "saved plan.yaml, 1 change" in seat.sentence
    assert "unsaved" not in seat.top
    assert (frozen / "plan.yaml").read_bytes() != before
    seat.press("u")
    assert "1 unsaved" in seat.top
    seat.press("ctrl+s")
    assert (frozen / "plan.yaml").read_bytes() == before


def test_a_move_tells_the_entered_drop_that_it_gives_up(dropped: Seat) -> None:
    dropped.press(*MOVED)
    words = "g1 moved to 114 L8 in on top; the drop of wg there is estimated now"
    assert dropped.sentence == words
    assert dropped.workspace.session.changes()[-1].words == words
    dropped.press("u")
    assert dropped.sentence == "undone: g1 moved to 114 L8 in on top. U redoes"


def test_a_read_only_file_is_told_at_opening_and_is_never_said_to_be_saved(frozen: Path) -> None:
    plan = frozen / "plan.yaml"
    plan.chmod(stat.S_IRUSR)
    before = plan.read_bytes()
    seat = Seat(frozen)
    seat.workspace.filing.opened()
    seat.draw()
    assert "read-only" in seat.sentence
    assert "read-only" in seat.top
    seat.workspace.looking.select_antenna("g1")
    seat.press(*MOVED, "ctrl+s")
    assert "Not saved" in seat.sentence
    assert "read-only" in seat.sentence
    assert plan.read_bytes() == before
    assert " 1 read-only " in seat.top


def test_a_full_disk_is_told_at_saving(seat: Seat, monkeypatch: pytest.MonkeyPatch) -> None:
    seat.press(*MOVED)

    def full(*_: object) -> int:
        raise OSError(28, "No space left on device")

    monkeypatch.setattr(os, "fsync", full)
    seat.press("ctrl+s")
    assert "Not saved" in seat.sentence
    assert "disk is full" in seat.sentence
    assert "1 unsaved" in seat.top


def test_a_change_on_disk_is_taken_each_time_it_comes(seat: Seat, frozen: Path) -> None:
    for station in (118, 120):
        put(frozen, PLAN.replace("at: 114 L4 in", f"at: {station} L4 in"))
        seat.workspace.filing.look_at_disk()
        seat.draw()
        assert "changed on disk" in seat.sentence
        assert f"FS {station}.0" in seat.frame.text()


def test_saving_ourselves_is_no_change_on_disk(seat: Seat) -> None:
    seat.press(*MOVED, "ctrl+s")
    seat.workspace.message = None
    seat.workspace.filing.look_at_disk()
    assert seat.workspace.message is None


def test_a_change_on_disk_against_unsaved_changes_asks_and_overwrites_nothing(
    seat: Seat, frozen: Path
) -> None:
    seat.press(*MOVED)
    theirs = PLAN.replace("at: 160 0 in", "at: 162 0 in")
    put(frozen, theirs)
    seat.workspace.filing.look_at_disk()
    text = seat.draw().text()
    assert "Changed on disk" in text
    assert "keep mine" in text
    seat.press("escape", "ctrl+s")
    assert (frozen / "plan.yaml").read_text() == theirs
    assert "Changed on disk" in seat.frame.text()
    seat.press("k")
    antennas = seat.workspace.session.plan.installation.antennas
    assert round(antennas["c1"].at.fs_m / 0.0254) == 162
    assert round(antennas["g1"].at.bl_m / 0.0254) == -8
    assert "1 unsaved" in seat.top


def test_theirs_can_be_taken_and_the_difference_be_seen(seat: Seat, frozen: Path) -> None:
    seat.press(*MOVED)
    put(frozen, PLAN.replace("at: 160 0 in", "at: 162 0 in"))
    seat.workspace.filing.look_at_disk()
    assert "Yours, not saved" in seat.press("d")
    assert "Changed on disk" in seat.press("q")
    seat.press("t")
    assert seat.workspace.session.unsaved == 0


def test_the_difference_tells_values_as_a_file_does_and_what_states_share_once(
    dropped: Seat, frozen: Path
) -> None:
    dropped.press(*MOVED)
    put(frozen, DROPPED.replace("at: 160 0 in", "at: 162 0 in").replace("a frozen", "an old"))
    dropped.workspace.filing.look_at_disk()
    text = dropped.press("d")
    overlay = dropped.workspace.overlay
    assert isinstance(overlay, ReadingOverlay)
    assert [text_of(row) for row in overlay.rows] == [
        "On disk",
        "  title  a frozen plan for tests → an old plan for tests",
        "  c1 at  found, design, built  160 0 in → 162 0 in",
        "",
        "Yours, not saved",
        "  g1 at  design, built  114 L4 in → 114 L8 in",
        "  wg drops  design, built  5 in, 3 in → 5 in, estimated",
    ]
    assert "114 L4 in → 114 L8 in" in text


def test_the_difference_tells_what_is_new_and_what_is_gone(seat: Seat, frozen: Path) -> None:
    seat.press(*MOVED)
    gone = PLAN[PLAN.index("  m2:") :]
    put(frozen, PLAN.replace(gone, "").replace("  c2:", "  c3: {like: c2}\n  c2:"))
    seat.workspace.filing.look_at_disk()
    seat.press("d")
    overlay = seat.workspace.overlay
    assert isinstance(overlay, ReadingOverlay)
    told = [text_of(row) for row in overlay.rows]
    assert "  c3 at  found, design, built  - → 150 0 in" in told
    assert "  m2 loss  1.9 dB → -" in told


def test_a_broken_file_leaves_the_last_good_plan_and_says_where(seat: Seat, frozen: Path) -> None:
    put(frozen, PLAN.replace("at: 160 0 in", "at: 160 in in"))
    seat.workspace.filing.look_at_disk()
    seat.draw()
    line = next(i for i, text in enumerate(PLAN.splitlines(), 1) if "160 0 in" in text)
    assert f"plan.yaml:{line}:" in seat.workspace.banner
    seat.press("down")
    seat.press("m", "right", "enter")
    assert seat.workspace.session.unsaved == 1
    seat.press("u")
    put(frozen, PLAN)
    seat.workspace.filing.look_at_disk()
    assert seat.workspace.banner == ""


def test_a_file_broken_after_saving_is_told_at_once_and_nothing_says_saved(
    seat: Seat, frozen: Path
) -> None:
    seat.press(*MOVED, "ctrl+s")
    assert "saved plan.yaml" in seat.sentence
    text = (frozen / "plan.yaml").read_text()
    put(frozen, f"{text}foo: bar\n")
    for _ in range(2):  # what is said once stays said without a key
        seat.workspace.filing.look_at_disk()
        seat.draw()
        assert f"plan.yaml:{len(text.splitlines()) + 1}:1" in seat.sentence
        assert "saved" not in seat.top
        assert f"{seat.workspace.look.glyphs.fails} file" in seat.top
    seat.press("down")
    assert "plan.yaml:" in seat.sentence
    put(frozen, text)
    seat.workspace.filing.look_at_disk()
    seat.draw()
    assert " saved " in seat.top


def test_what_cannot_be_saved_over_a_broken_file_is_told_as_not_saved(
    seat: Seat, frozen: Path
) -> None:
    seat.press(*MOVED)
    put(frozen, f"{PLAN}foo: bar\n")
    above = seat.press("ctrl+s").splitlines()[-3]
    assert "Not saved: plan.yaml changed on disk" in above
    assert "plan.yaml:" in seat.sentence  # the banner stays
    assert f"1 {seat.workspace.look.glyphs.fails} file" in seat.top
    assert "Not saved" not in seat.press("down")
    assert "plan.yaml:" in seat.sentence


@pytest.mark.parametrize("size", [(80, 24), (200, 60)])
def test_what_an_act_says_stands_above_the_banner_and_never_over_it(
    frozen: Path, size: tuple[int, int]
) -> None:
    seat = Seat(frozen, size)
    put(frozen, f"{PLAN}foo: bar\n")
    seat.workspace.filing.look_at_disk()
    before = seat.press("down").splitlines()
    rows = seat.press("u").splitlines()
    assert rows[-3].strip() == "Nothing to undo."
    assert rows[-2] == before[-2] and "plan.yaml:" in rows[-2]
    assert {len(row) for row in rows} == {size[0]}
    assert seat.press("down").splitlines()[-3] == before[-3]


def test_quitting_asks_only_when_something_is_unsaved(seat: Seat) -> None:
    seat.press("q")
    assert seat.desk.left == 1
    seat.press(*MOVED)
    text = seat.press("q")
    assert "1 change not saved." in text
    seat.press("escape")
    assert seat.desk.left == 1
    seat.press("q", "s")
    assert seat.desk.left == 2
    assert seat.workspace.session.unsaved == 0


def test_discarding_leaves_no_journal(seat: Seat, tmp_path: Path) -> None:
    seat.press(*MOVED)
    assert list((tmp_path / "state").rglob("*.jsonl"))
    seat.press("q", "d")
    assert not list((tmp_path / "state").rglob("*.jsonl"))


def crash(seat: Seat, monkeypatch: pytest.MonkeyPatch) -> None:
    """End without closing: the journal stays, and its lock goes with the process."""
    stream = seat.workspace.session.journal._stream
    assert stream is not None
    stream.close()


def test_one_move_is_one_change_wherever_it_is_counted(
    dropped: Seat, frozen: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    dropped.press(*MOVED)
    assert "1 unsaved" in dropped.top
    dropped.press("m", "right", "enter")  # the same antenna again
    assert "1 unsaved" in dropped.top
    crash(dropped, monkeypatch)
    again = Seat(frozen)
    again.workspace.filing.opened()
    assert "Found 1 change not saved" in again.draw().text()
    again.press("enter")
    assert again.sentence == "took over 1 change"
    assert "1 unsaved" in again.top
    again.press("ctrl+s")
    assert "saved plan.yaml, 1 change" in again.sentence


def test_a_change_left_and_discarded_is_counted_alike(
    dropped: Seat, frozen: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    dropped.press(*MOVED, "u", "U")
    crash(dropped, monkeypatch)
    again = Seat(frozen)
    again.workspace.filing.opened()
    assert "Found 1 change not saved" in again.draw().text()
    again.press("d")
    assert again.sentence == "discarded 1 change"


@pytest.mark.parametrize("answer", ["enter", "d", "v"])
def test_what_an_earlier_session_left_is_offered_at_the_start(
    seat: Seat, frozen: Path, monkeypatch: pytest.MonkeyPatch, answer: str
) -> None:
    seat.press(*MOVED)
    crash(seat, monkeypatch)
    again = Seat(frozen)
    again.workspace.filing.opened()
    assert "Found 1 change" in again.draw().text()
    text = again.press(answer)
    if answer == "enter":
        assert "1 unsaved" in again.top
        assert "1 change" in again.sentence
    elif answer == "d":
        assert again.workspace.session.unsaved == 0
        assert not Seat(frozen).workspace.session.left
    else:
        assert "g1 moved" in text
        assert "Found 1 change" in again.press("q")


def test_a_broken_journal_does_not_stop_the_start_twice_in_a_row(
    seat: Seat, frozen: Path, monkeypatch: pytest.MonkeyPatch, tmp_path: Path
) -> None:
    seat.press(*MOVED)
    crash(seat, monkeypatch)
    journal = next((tmp_path / "state").rglob("*.jsonl"))
    journal.write_bytes(journal.read_bytes() + b"{rubbish\n")
    for _ in range(2):
        again = Seat(frozen)
        again.workspace.filing.opened()
        again.press("enter")
        assert again.workspace.overlay is None


def test_a_journal_that_cannot_be_written_is_told(
    seat: Seat, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr(Journal, "write", lambda self, _: setattr(self, "trouble", "no space"))
    seat.press(*MOVED)
    assert "journal cannot be written: no space" in seat.sentence


def test_saving_under_another_name_never_replaces_a_file(seat: Seat, frozen: Path) -> None:
    seat.press(*MOVED, ":")
    seat.type("save as")
    seat.press("enter")
    assert "is there already" in seat.press("enter")
    seat.press("ctrl+u")
    seat.type(str(frozen / "other.yaml"))
    seat.press("enter")
    assert (frozen / "other.yaml").exists()
    assert (frozen / "plan.yaml").read_text() == PLAN
    assert seat.workspace.session.unsaved == 0


def test_the_editor_opens_at_the_line_of_what_is_selected(seat: Seat, frozen: Path) -> None:
    seat.press("E")
    line = next(i for i, text in enumerate(PLAN.splitlines(), 1) if text.startswith("  gnss: {ch"))
    assert seat.desk.edited == [(frozen / "plan.yaml", line)]


@pytest.mark.parametrize("name", ["plan.yaml", "airframe.yaml"])
def test_the_editor_opens_at_the_first_fault_of_a_broken_file(
    seat: Seat, frozen: Path, name: str
) -> None:
    text = (frozen / name).read_text("utf-8")
    (frozen / name).write_text(f"{text}foo: bar\nbar: foo\n", encoding="utf-8")
    seat.workspace.filing.look_at_disk()
    seat.press("E")
    assert seat.desk.edited == [(frozen / name, len(text.splitlines()) + 1)]
    (frozen / name).write_text(text, encoding="utf-8")
    seat.workspace.filing.look_at_disk()
    seat.press("E")
    assert seat.desk.edited[1][0] == frozen / "plan.yaml"


def test_another_plan_is_opened_only_when_nothing_is_unsaved(seat: Seat, frozen: Path) -> None:
    seat.press("o")
    seat.press("ctrl+u")
    seat.type(str(frozen))
    seat.press("enter")
    assert seat.desk.opened == [frozen]
    seat.press(*MOVED, "o")
    assert "not saved" in seat.sentence
    assert seat.workspace.overlay is None
