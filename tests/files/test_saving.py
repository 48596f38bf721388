# SPDX-License-Identifier: Apache-2.0
"""Saving: every other byte kept, read again and compared, never over a stranger's change."""

from __future__ import annotations

import os
import re
from collections.abc import Callable, Iterator
from dataclasses import replace
from pathlib import Path
from random import Random

import pytest
from plan_files import AIRFRAME, PLAN, edited, loaded, shipped_catalog, shipped_rulebook
from random_edits import random_edit

from rfplan.edits import MoveAntenna, SetCable, differences
from rfplan.files import saving
from rfplan.files.folders import shipped
from rfplan.files.marks import Document, parse
from rfplan.files.problems import ProblemsError
from rfplan.files.replacing import NotSavedError
from rfplan.files.saving import ChangedOnDiskError, PlanFile, open_plan_file
from rfplan.files.shape import entries
from rfplan.model.plan import Plan, State
from rfplan.units import Place

THOROUGH = os.environ.get("RFPLAN_THOROUGH") == "1"
EDITS = 1000 if THOROUGH else 150

COMMENTED = "# an invented aircraft\n" + edited(
    PLAN,
    (
        'people: {prepared: {name: M. Probe, stamp: 7}, checked: "?"}',
        'people:\n  prepared: {name: M. Probe, stamp: 7}\n  checked: "?"',
    ),
    (
        "  nav: {type: nav_whip_v, on: top, at: 200 0 in}",
        "  nav:                # block style\n    type: nav_whip_v\n\n    # as surveyed\n"
        "    on: 'top'\n    at: \"200 0 in\"   # twice measured",
    ),
    (
        "    found: {type: com_whip, on: bottom, at: 80 0 in}",
        "    found:\n      type: com_whip   # old\n      on: bottom\n      at: 80 0 in",
    ),
    (
        "  w3: {type: rg_58c_u, plugs: [bnc, bnc]}",
        "  # the pair to the splitter\n  w3:\n    type: rg_58c_u\n    plugs:\n      - bnc # unit\n"
        "      - bnc   # splitter\n    loops: [\n      5 in,   # at the unit\n      60 mm\n    ]",
    ),
    ("    reason: no other place", "    reason: |\n      no other place\n      on this deck"),
)
VARIANTS: dict[str, Callable[[str], str]] = {
    "lf": str,
    "crlf": lambda text: text.replace("\n", "\r\n"),
    "bom": lambda text: "\ufeff" + text,
    "no newline at the end": lambda text: text.rstrip("\n"),
}
ELSEWHERE = MoveAntenna("gnss", "top", Place(3.3, 0.0, None))


def write(folder: Path, plan: str = PLAN) -> Path:
    """Write the two files of an aircraft exactly as given; return the plan file."""
    (folder / "airframe.yaml").write_bytes(AIRFRAME.encode())
    (folder / "plan.yaml").write_bytes(plan.encode())
    return folder / "plan.yaml"


def opened(path: Path, state: State = State.DESIGN) -> PlanFile:
    """Open a plan file with the shipped catalogue and tables."""
    return open_plan_file(path, shipped_catalog(), shipped_rulebook(), state, None)


@pytest.fixture
def file(tmp_path: Path) -> PlanFile:
    """Return an open plan file."""
    return opened(write(tmp_path))


def other_lines(document: Document, ids: set[tuple[str, str]]) -> list[str]:
    """Return the lines of a text that do not belong to some things, or to a section of these."""
    cut: set[int] = set()
    for name, section in entries(document.root).items():
        for id, entry in entries(section).items():
            if (name, id) in ids:
                cut |= lines_of(document, section.key_marks[id].start, entry.mark.end)
        if all((name, id) in ids for id in entries(section)) and entries(section):
            cut |= lines_of(document, *[document.root.key_marks[name].start] * 2)
    lines = document.text.splitlines()
    return [line for number, line in enumerate(lines) if number not in cut]


def lines_of(document: Document, start: int, end: int) -> set[int]:
    """Return the numbers of the lines that a span touches, from 0."""
    first, last = (len(re.findall(r"\r\n|\n", document.text[:at])) for at in (start, end))
    return set(range(first, last + 1))


def touched(before: Plan, after: Plan, document: Document) -> set[tuple[str, str]]:
    """Return the things that differ, and the copies of these."""
    ways = [value.way for value in differences(before, after)]
    ids = {(way[1], way[2]) if way[0] in list(State) else (way[0], way[1]) for way in ways}
    cables = entries(entries(document.root)["cables"])
    copies = {("cables", id) for id in cables if "like:" in document.source(cables[id].mark)}
    return ids | (copies if any(section == "cables" for section, _ in ids) else set())


def comments(text: str) -> list[str]:
    """Return the comments of a text."""
    return re.findall(r"(?:^|\s)# .*", text)


@pytest.mark.parametrize("variant", VARIANTS)
def test_random_edits_are_saved_with_every_other_byte_kept(tmp_path: Path, variant: str) -> None:
    random = Random(f"saving {variant}")
    text = VARIANTS[variant](COMMENTED)
    for number in range(EDITS // len(VARIANTS)):
        path = write(tmp_path, text)
        file = opened(path, random.choice(list(State)))
        plan = random_edit(random, file.loaded.plan).apply(file.loaded.plan)
        if number % 3 == 0:
            plan = random_edit(random, plan).apply(plan)
        file.save(plan)
        new = path.read_bytes().decode()
        assert differences(loaded(path).plan, plan) == ()
        old_document, new_document = parse(text, "old"), parse(new, "new")
        assert (new_document.bom, new_document.newline) == (old_document.bom, old_document.newline)
        ids = touched(file.loaded.plan, plan, old_document)
        assert other_lines(new_document, ids) == other_lines(old_document, ids)
        assert set(re.findall(r"\r?\n", new)) == set(re.findall(r"\r?\n", text))
        assert new.endswith("\n") == text.endswith("\n")
        if not {name for name, _ in ids} & {"waivers", "measurements"}:
            kept = re.search(r"loops: \[\s", new)  # a comment inside a value goes with the value
            assert comments(new) == [c for c in comments(text) if kept or "at the unit" not in c]


@pytest.mark.parametrize(
    "aircraft", sorted(shipped("demo_aircraft").iterdir()), ids=lambda a: a.name
)
def test_random_edits_of_a_demo_aircraft_are_saved(tmp_path: Path, aircraft: Path) -> None:
    random = Random(aircraft.name)
    for _ in range(EDITS // 15):
        for name in ("plan.yaml", "airframe.yaml"):
            (tmp_path / name).write_bytes((aircraft / name).read_bytes())
        file = opened(tmp_path / "plan.yaml", random.choice(list(State)))
        plan = random_edit(random, file.loaded.plan).apply(file.loaded.plan)
        file.save(plan)
        text, new = (aircraft / "plan.yaml").read_text(), (tmp_path / "plan.yaml").read_text()
        ids = touched(file.loaded.plan, plan, parse(text, "old"))
        assert other_lines(parse(new, "new"), ids) == other_lines(parse(text, "old"), ids)


def test_a_long_row_of_edits_ends_where_it_began_when_all_is_undone(tmp_path: Path) -> None:
    random = Random(7)
    path = write(tmp_path, COMMENTED)
    file = opened(path)
    original, plan = file.loaded.plan, file.loaded.plan
    for _ in range(EDITS // 10):
        plan = replace(plan, state=random.choice(list(State)))
        plan = random_edit(random, plan).apply(plan)
        file = file.save(plan)
        assert differences(loaded(path).plan, plan) == ()
    file.save(original)
    assert path.read_bytes().decode() == COMMENTED


def test_saving_what_was_read_writes_nothing(file: PlanFile) -> None:
    before = file.path.stat()
    assert file.save(file.loaded.plan) is file
    assert file.path.stat() == before


def test_a_file_saved_twice_knows_its_own_content(file: PlanFile) -> None:
    plan = ELSEWHERE.apply(file.loaded.plan)
    file = file.save(plan)
    assert file.hashes_on_disk() == (file.sha256, file.airframe_sha256)
    file.save(SetCable("w1", "rg_58c_u").apply(plan))
    assert loaded(file.path).plan.design.cables["w1"].type == "rg_58c_u"


def test_the_hash_is_announced_before_the_file_has_it(file: PlanFile) -> None:
    announced: list[tuple[str, bool]] = []

    def announce(sha256: str) -> None:
        announced.append((sha256, file.path.read_bytes().decode() == PLAN))

    saved = file.save(ELSEWHERE.apply(file.loaded.plan), announce)
    assert announced == [(saved.sha256, True)]


def test_a_change_by_others_is_never_overwritten(file: PlanFile) -> None:
    theirs = edited(PLAN, ("at: 82 0 in", "at: 83 0 in"))
    file.path.write_text(theirs)
    with pytest.raises(ChangedOnDiskError, match=r"plan\.yaml changed on disk"):
        file.save(ELSEWHERE.apply(file.loaded.plan))
    assert file.path.read_text() == theirs


def test_a_change_in_the_last_moment_is_not_overwritten_either(
    file: PlanFile, monkeypatch: pytest.MonkeyPatch
) -> None:
    theirs = edited(PLAN, ("at: 82 0 in", "at: 83 0 in"))
    check = PlanFile._check_reads_as

    def check_slowly(self: PlanFile, document: Document, plan: Plan) -> None:
        check(self, document, plan)
        self.path.write_text(theirs)

    monkeypatch.setattr(PlanFile, "_check_reads_as", check_slowly)
    with pytest.raises(ChangedOnDiskError):
        file.save(ELSEWHERE.apply(file.loaded.plan))
    assert file.path.read_text() == theirs
    assert sorted(os.listdir(file.path.parent)) == ["airframe.yaml", "plan.yaml"]


def test_a_file_that_is_gone_is_not_written_again_unasked(file: PlanFile) -> None:
    file.path.unlink()
    with pytest.raises(ChangedOnDiskError, match="no longer there"):
        file.save(ELSEWHERE.apply(file.loaded.plan))
    assert not file.path.exists()


def test_a_read_only_file_is_refused_and_stays_as_it_was(file: PlanFile) -> None:
    file.path.chmod(0o444)
    assert file.read_only
    with pytest.raises(NotSavedError, match=r"plan\.yaml is read-only"):
        file.save(ELSEWHERE.apply(file.loaded.plan))
    assert file.path.read_text() == PLAN


def test_a_link_to_a_plan_is_saved_to_where_it_leads(tmp_path: Path) -> None:
    (tmp_path / "aircraft").mkdir()
    (tmp_path / "store").mkdir()
    target = write(tmp_path / "aircraft").rename(tmp_path / "store" / "v2.yaml")
    link = tmp_path / "aircraft" / "plan.yaml"
    link.symlink_to(target)
    file = opened(link)
    file.save(ELSEWHERE.apply(file.loaded.plan))
    assert link.is_symlink()
    assert "129.9212598 0 in" in target.read_text()


def test_what_would_be_read_differently_is_refused(
    file: PlanFile, monkeypatch: pytest.MonkeyPatch
) -> None:
    moved = ELSEWHERE.apply(file.loaded.plan)
    other = MoveAntenna("gnss", "top", Place(3.1, 0.0, None)).apply(file.loaded.plan)
    text = saving.updated(file.loaded.documents[0], file.loaded.plan, other)
    monkeypatch.setattr(saving, "updated", lambda *_: text)
    with pytest.raises(ProblemsError, match="gnss at would not be read again as it is"):
        file.save(moved)
    assert file.path.read_text() == PLAN


def test_a_plan_that_the_loader_refuses_is_not_saved_and_the_problem_names_the_file(
    file: PlanFile,
) -> None:
    with pytest.raises(ProblemsError) as refusal:
        file.save(SetCable("w1", "rg_9999").apply(file.loaded.plan))
    (problem,) = refusal.value.problems
    assert problem.file == str(file.path)
    assert "no cable type 'rg_9999'" in problem.message
    assert file.path.read_text() == PLAN


def test_saved_under_another_name_the_old_file_stays_and_the_new_one_is_open(
    file: PlanFile,
) -> None:
    plan = ELSEWHERE.apply(file.loaded.plan)
    new = file.save_as(plan, file.path.with_name("study.yaml"))
    assert file.path.read_text() == PLAN
    assert (new.path.name, new.loaded.plan.id) == ("study.yaml", "study")
    assert differences(new.loaded.plan, plan) == ()


def test_in_another_folder_the_airframe_comes_along(file: PlanFile, tmp_path: Path) -> None:
    folder = tmp_path / "copy"
    folder.mkdir()
    new = file.save_as(file.loaded.plan, folder / "plan.yaml")
    assert (folder / "airframe.yaml").read_text() == AIRFRAME
    assert new.read_only is False


@pytest.mark.parametrize("name", ["plan.yaml", "airframe.yaml"])
def test_nothing_that_is_there_is_written_over(file: PlanFile, tmp_path: Path, name: str) -> None:
    folder = tmp_path / "copy"
    folder.mkdir()
    (folder / name).write_text("something else")
    with pytest.raises(NotSavedError, match=r"is there already|another airframe"):
        file.save_as(file.loaded.plan, folder / "plan.yaml")
    assert [(path.name, path.read_text()) for path in _files(folder)] == [(name, "something else")]


def _files(folder: Path) -> Iterator[Path]:
    return (path for path in folder.iterdir())


def test_a_full_disk_leaves_the_file_as_it_was(
    file: PlanFile, monkeypatch: pytest.MonkeyPatch
) -> None:
    def full(_: int) -> None:
        raise OSError(28, "No space left on device")

    monkeypatch.setattr(os, "fsync", full)
    with pytest.raises(NotSavedError, match="the disk is full"):
        file.save(ELSEWHERE.apply(file.loaded.plan))
    assert file.path.read_text() == PLAN
    assert sorted(os.listdir(file.path.parent)) == ["airframe.yaml", "plan.yaml"]
