# SPDX-License-Identifier: Apache-2.0
"""The journal: what was accepted is on disk, and comes back after the process is gone."""

from __future__ import annotations

import json
import os
import stat
import subprocess
import sys
from datetime import UTC, datetime
from pathlib import Path
from typing import Any

import pytest

from rfplan.edits import RemoveWaiver, SetCable, SetValues, Value
from rfplan.files.journal import Entry, Journal, journal_folder
from rfplan.files.left_journals import LeftJournal, left_journals
from rfplan.model.plan import State

AT = datetime(2026, 11, 25, 10, 41, tzinfo=UTC)
BASE, SAVED, OTHER = "0" * 64, "1" * 64, "2" * 64
BACK = SetValues((Value(("design", "cables", "w1", "type"), "rg_58c_u"),))


def entry(cable: str, did: Any = "do") -> Entry:
    """Return a change of one cable, or an undo."""
    edit = BACK if did == "undo" else SetCable(cable, "rg_400_u")
    return Entry(did, edit, State.BUILT, AT)


@pytest.fixture
def plan(tmp_path: Path) -> Path:
    """Return where a plan file would be."""
    return tmp_path / "plan.yaml"


@pytest.fixture
def folder(tmp_path: Path) -> Path:
    """Return where journals go, which is not there yet."""
    return tmp_path / "state" / "journal"


def abandoned(journal: Journal) -> None:
    """Let go of a journal as the end of its process does."""
    assert journal._stream is not None
    journal._stream.close()


def left(plan: Path, folder: Path, sha256: str = BASE) -> LeftJournal:
    """Return the one journal that was left behind."""
    (journal,) = left_journals(plan, sha256, folder)
    return journal


def test_without_a_change_there_is_no_file(plan: Path, folder: Path) -> None:
    journal = Journal(plan, BASE, folder)
    journal.mark("saved", SAVED)
    journal.close(keep=True)
    assert not folder.exists()
    assert left_journals(plan, BASE, folder) == ()


def test_changes_come_back_as_they_were_accepted(plan: Path, folder: Path) -> None:
    journal = Journal(plan, BASE, folder)
    changes = (entry("w1"), Entry("do", RemoveWaiver("v1"), State.FOUND, AT))
    for change in changes:
        journal.write(change)
    abandoned(journal)
    found = left(plan, folder)
    assert (found.changes, found.broken, found.same_file) == (changes, "", True)


def test_each_change_is_flushed_to_the_disk_before_write_returns(
    plan: Path, folder: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    on_disk: list[list[str]] = []

    def look(_: int) -> None:
        on_disk.append([path.read_text() for path in folder.glob("*.jsonl")])

    monkeypatch.setattr(os, "fsync", look)
    journal = Journal(plan, BASE, folder)
    journal.write(entry("w1"))
    (text,) = on_disk[-1]
    assert json.loads(text.splitlines()[-1])["edit"]["cable"] == "w1"
    assert text.endswith("\n")


def test_a_journal_is_for_its_user_only_and_each_line_tells_the_hash_it_builds_on(
    plan: Path, folder: Path
) -> None:
    journal = Journal(plan, BASE, folder)
    journal.write(entry("w1"))
    journal.mark("saving", SAVED)
    journal.write(entry("w2"))
    journal.mark("saved", SAVED)
    journal.write(entry("w3"))
    (path,) = folder.iterdir()
    assert stat.S_IMODE(path.stat().st_mode) == 0o600
    assert [json.loads(line)["on"] for line in path.read_text().splitlines()] == [
        BASE,
        BASE,
        SAVED,
        BASE,
        SAVED,
        SAVED,
    ]


def test_a_journal_in_use_is_not_offered(plan: Path, folder: Path) -> None:
    journal = Journal(plan, BASE, folder)
    journal.write(entry("w1"))
    assert left_journals(plan, BASE, folder) == ()
    abandoned(journal)
    assert len(left_journals(plan, BASE, folder)) == 1


def test_the_journal_of_another_plan_is_not_offered(plan: Path, folder: Path) -> None:
    journal = Journal(plan, BASE, folder)
    journal.write(entry("w1"))
    abandoned(journal)
    assert left_journals(plan.with_name("other.yaml"), BASE, folder) == ()


def test_two_journals_of_one_process_do_not_mix(plan: Path, folder: Path) -> None:
    for cable in ("w1", "w2"):
        journal = Journal(plan, BASE, folder)
        journal.write(entry(cable))
        abandoned(journal)
    found = left_journals(plan, BASE, folder)
    assert [[change.edit for change in each.changes] for each in found] == [
        [SetCable("w1", "rg_400_u")],
        [SetCable("w2", "rg_400_u")],
    ]


def test_closed_with_nothing_to_keep_it_is_gone(plan: Path, folder: Path) -> None:
    for keep in (True, False):
        journal = Journal(plan, BASE, folder)
        journal.write(entry("w1"))
        journal.close(keep=keep)
    assert len(list(folder.iterdir())) == 1


def test_what_was_undone_is_not_offered_and_what_was_made_again_is(
    plan: Path, folder: Path
) -> None:
    journal = Journal(plan, BASE, folder)
    for change in (entry("w1"), entry("w2"), entry("", "undo"), entry("w2", "redo")):
        journal.write(change)
    journal.write(entry("", "undo"))
    abandoned(journal)
    assert [change.edit for change in left(plan, folder).changes] == [SetCable("w1", "rg_400_u")]


def saved_once(plan: Path, folder: Path) -> Journal:
    """Return a journal with one change saved and one not."""
    journal = Journal(plan, BASE, folder)
    journal.write(entry("w1"))
    journal.mark("saving", SAVED)
    journal.mark("saved", SAVED)
    journal.write(entry("w2"))
    return journal


def test_what_was_saved_is_not_offered(plan: Path, folder: Path) -> None:
    abandoned(saved_once(plan, folder))
    found = left(plan, folder, SAVED)
    assert ([change.edit for change in found.changes], found.same_file) == (
        [SetCable("w2", "rg_400_u")],
        True,
    )


def test_a_file_changed_since_is_told(plan: Path, folder: Path) -> None:
    abandoned(saved_once(plan, folder))
    found = left(plan, folder, OTHER)
    assert ([change.edit for change in found.changes], found.same_file) == (
        [SetCable("w2", "rg_400_u")],
        False,
    )


def test_nothing_before_a_line_with_all_that_is_unsaved_is_needed_any_more(
    plan: Path, folder: Path
) -> None:
    journal = Journal(plan, BASE, folder)
    journal.write(entry("w1"))
    whole = Entry("all", BACK, State.BUILT, AT)
    journal.write(whole, OTHER)
    journal.write(entry("", "undo"))
    abandoned(journal)
    found = left(plan, folder, OTHER)
    assert (found.changes, found.same_file) == ((whole, entry("", "undo")), True)


def test_an_undo_of_what_was_saved_stands_for_itself(plan: Path, folder: Path) -> None:
    journal = saved_once(plan, folder)
    for _ in range(3):
        journal.write(entry("", "undo"))
    abandoned(journal)
    assert [change.edit for change in left(plan, folder, SAVED).changes] == [BACK, BACK]


@pytest.mark.parametrize(("on_disk", "cables"), [(BASE, ["w1"]), (SAVED, []), (OTHER, ["w1"])])
def test_a_process_that_ends_while_saving_has_lost_nothing_either_way(
    plan: Path, folder: Path, on_disk: str, cables: list[str]
) -> None:
    journal = Journal(plan, BASE, folder)
    journal.write(entry("w1"))
    journal.mark("saving", SAVED)
    abandoned(journal)
    found = left_journals(plan, on_disk, folder)
    edits = [change.edit for each in found for change in each.changes]
    assert edits == [SetCable(cable, "rg_400_u") for cable in cables]


def test_a_journal_with_nothing_unsaved_is_cleared_away(plan: Path, folder: Path) -> None:
    journal = Journal(plan, BASE, folder)
    journal.write(entry("w1"))
    journal.mark("saved", SAVED)
    abandoned(journal)
    assert left_journals(plan, SAVED, folder) == ()
    assert list(folder.iterdir()) == []


GOOD = {"did": "do", "edit": SetCable("w9", "x").to_json(), "state": "design", "on": BASE}


@pytest.mark.parametrize(
    "line",
    [
        b'{"did": "do", "edit": {"ed',
        b"\n",
        b"\xff\xfe\n",
        b"[1]\n",
        b"null\n",
        b"NaN\n",
        b"[" * 100_000 + b"\n",
        json.dumps(GOOD).encode() + b"\n",
        json.dumps({**GOOD, "at": "yesterday"}).encode() + b"\n",
        json.dumps({**GOOD, "at": "2026-11-25T10:41:00", "state": "flying"}).encode() + b"\n",
        json.dumps({**GOOD, "at": "2026-11-25T10:41:00", "edit": {"edit": "X"}}).encode() + b"\n",
        json.dumps({**GOOD, "at": "2026-11-25T10:41:00", "on": 7}).encode() + b"\n",
        json.dumps({**GOOD, "at": "2026-11-25T10:41:00"}).encode(),
    ],
)
def test_a_broken_line_ends_the_journal_and_what_came_before_is_kept(
    plan: Path, folder: Path, line: bytes
) -> None:
    journal = Journal(plan, BASE, folder)
    journal.write(entry("w1"))
    abandoned(journal)
    (path,) = folder.iterdir()
    path.write_bytes(path.read_bytes() + line + b'{"point": "saved", "on": "5"}\n')
    found = left(plan, folder)
    assert [change.edit for change in found.changes] == [SetCable("w1", "rg_400_u")]
    assert found.broken.startswith("journal line 3: ")


@pytest.mark.parametrize("content", [b"\0\0\0\0", b"{}\n", b'{"rfplan": "journal/2", "on": "0"}\n'])
def test_a_journal_that_is_none_is_told_and_offers_nothing(
    plan: Path, folder: Path, content: bytes
) -> None:
    journal = Journal(plan, BASE, folder)
    journal.write(entry("w1"))
    abandoned(journal)
    (path,) = folder.iterdir()
    path.write_bytes(content)
    found = left(plan, folder)
    assert found.changes == ()
    assert found.broken.startswith("journal line 1: ")


def test_a_journal_just_being_made_is_left_alone(plan: Path, folder: Path) -> None:
    journal = Journal(plan, BASE, folder)
    journal.write(entry("w1"))
    abandoned(journal)
    (path,) = folder.iterdir()
    path.write_bytes(b"")
    assert left_journals(plan, BASE, folder) == ()
    assert path.exists()


def test_a_taken_journal_is_not_offered_again_and_nobody_takes_it_twice(
    plan: Path, folder: Path
) -> None:
    journal = Journal(plan, BASE, folder)
    journal.write(entry("w1"))
    abandoned(journal)
    found = left(plan, folder)
    taken = found.take()
    assert taken is not None
    assert taken.exists()
    assert left_journals(plan, BASE, folder) == ()
    assert found.take() is None


def test_a_full_disk_is_told_and_leaves_no_half_line(
    plan: Path, folder: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    journal = Journal(plan, BASE, folder)
    journal.write(entry("w1"))

    def full(_: int) -> None:
        raise OSError(28, "No space left on device")

    with monkeypatch.context() as patched:
        patched.setattr(os, "fsync", full)
        journal.write(entry("w2"))
    assert journal.trouble == "the disk is full"
    journal.write(entry("w3"))
    assert journal.trouble == ""
    abandoned(journal)
    found = left(plan, folder)
    assert found.broken == ""
    assert [change.edit for change in found.changes] == [
        SetCable("w1", "rg_400_u"),
        SetCable("w3", "rg_400_u"),
    ]


def test_a_folder_that_cannot_be_made_is_told(plan: Path, tmp_path: Path) -> None:
    (tmp_path / "state").write_text("a file")
    journal = Journal(plan, BASE, tmp_path / "state" / "journal")
    journal.write(entry("w1"))
    assert journal.trouble
    journal.close(keep=True)


def test_journals_are_where_the_state_of_the_user_is(
    monkeypatch: pytest.MonkeyPatch, tmp_path: Path
) -> None:
    monkeypatch.setenv("XDG_STATE_HOME", str(tmp_path))
    assert journal_folder() == tmp_path / "rfplan" / "journal"


def test_the_lock_of_another_process_is_seen_until_it_is_killed(plan: Path, folder: Path) -> None:
    code = f"""
import sys
from pathlib import Path
from datetime import datetime
from rfplan.edits import SetCable
from rfplan.files.journal import Entry, Journal
from rfplan.model.plan import State
journal = Journal(Path({str(plan)!r}), {BASE!r}, Path({str(folder)!r}))
journal.write(Entry("do", SetCable("w1", "rg_400_u"), State.BUILT, datetime(2026, 11, 25)))
print("written", flush=True)
sys.stdin.read()
"""
    with subprocess.Popen(
        [sys.executable, "-c", code], stdin=subprocess.PIPE, stdout=subprocess.PIPE
    ) as process:
        assert process.stdout is not None
        assert process.stdout.readline() == b"written\n"
        assert left_journals(plan, BASE, folder) == ()
        process.kill()
        process.wait()
        assert len(left(plan, folder).changes) == 1
