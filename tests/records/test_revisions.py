# SPDX-License-Identifier: Apache-2.0
"""A plan is released once under its letter, when nothing is left open and names stand for it."""

from __future__ import annotations

from dataclasses import replace
from pathlib import Path

import pytest
from command_line import FAILING, INCOMPLETE, PLAN, aircraft
from plan_files import edited, shipped_catalog, shipped_rulebook

from rfplan.assess import assess
from rfplan.files.load import load_plan
from rfplan.model.assessment import Reading
from rfplan.model.findings import Verdict
from rfplan.model.plan import State
from rfplan.records.package import package
from rfplan.records.revisions import NotReleasedError, hindrances, release, revisions
from rfplan.records.settings import Settings
from rfplan.records.verify import judged_again, opened, verify
from rfplan.rules.acceptances import binding_of

PEOPLE = """\
people:
  prepared: {name: A. Person}
  checked: {name: B. Person}
  released: {name: C. Person}
"""
DRAFT = edited(PLAN, ("status: released", "status: draft"))


def open_points(plan: str, folder: Path) -> list[str]:
    """Return the ids of all open points of a plan."""
    return list(bindings(plan, folder))


def bindings(plan: str, folder: Path) -> dict[str, str | None]:
    """Return what an acceptance of each open point of a plan is bound to."""
    loaded = load_plan(
        Path(aircraft(folder, plan)), catalog=shipped_catalog(), rulebook=shipped_rulebook()
    )
    assessment = assess(loaded.plan, shipped_catalog(), shipped_rulebook())
    return {point.id: binding_of(point) for point in assessment.open_points}


def accepting(plan: str, folder: Path) -> str:
    """Return the plan with names, and with everything that is to be confirmed accepted."""
    ids = open_points(plan + PEOPLE, folder)
    lines = "".join(f"  {id}: {{who: C. Person, date: 2026-11-20}}\n" for id in ids)
    return f"{plan}{PEOPLE}accepted:\n{lines}"


@pytest.fixture
def ready(tmp_path: Path) -> Path:
    """A draft with nothing left open."""
    return Path(aircraft(tmp_path / "ready", accepting(DRAFT, tmp_path / "ready")))


def reasons(plan: str, folder: Path, state: State = State.DESIGN) -> list[str]:
    with pytest.raises(NotReleasedError) as caught:
        release(Path(aircraft(folder, plan)), Settings(state=state))
    assert not (folder / "released").exists()
    return list(caught.value.reasons)


def test_a_plan_is_released_as_a_package_that_is_no_draft(ready: Path) -> None:
    path = release(ready, Settings())
    assert path == ready / "released" / "A.zip"
    content = path.read_bytes()
    members, manifest = opened(content)
    assert manifest.status == "released"
    assert b"DRAFT" not in members["sheets/loss_budget.txt"]
    assert b"released" in members["sheets/loss_budget.txt"]
    assert verify(content, ()).differences == ()


def test_a_release_leaves_the_plan_as_it_is(ready: Path) -> None:
    before = (ready / "plan.yaml").read_bytes()
    release(ready, Settings())
    assert (ready / "plan.yaml").read_bytes() == before


def test_what_is_built_is_released_as_built(ready: Path) -> None:
    _, manifest = opened(release(ready, Settings(state=State.BUILT)).read_bytes())
    assert manifest.status == "as built"


def test_a_release_is_never_written_over(ready: Path) -> None:
    path = release(ready, Settings())
    content = path.read_bytes()
    with pytest.raises(FileExistsError, match=r"raise revision\.letter"):
        release(ready, Settings(units="mm"))
    assert path.read_bytes() == content
    assert [one.name for one in path.parent.iterdir()] == ["A.zip"]


@pytest.mark.parametrize(("plan", "word"), [(FAILING, "FAIL-HIGH"), (INCOMPLETE, "INCOMPLETE")])
def test_what_fails_or_is_incomplete_is_not_released(tmp_path: Path, plan: str, word: str) -> None:
    told = reasons(accepting(plan, tmp_path / "kite"), tmp_path / "kite")
    assert told[0] == f"the verdict is {word}"


@pytest.mark.parametrize("role", ["prepared", "checked", "released"])
def test_nothing_is_released_without_the_names(tmp_path: Path, role: str) -> None:
    plan = accepting(DRAFT, tmp_path / "kite")
    lines = [line for line in plan.splitlines() if f"{role}: {{name" not in line]
    assert reasons("\n".join(lines), tmp_path / "kite") == [f"people.{role}: no name"]


def test_a_name_that_is_not_known_yet_is_none(tmp_path: Path) -> None:
    plan = edited(accepting(DRAFT, tmp_path / "kite"), ("{name: B. Person}", '{name: "?"}'))
    assert reasons(plan, tmp_path / "kite") == ["people.checked: no name"]


def test_nothing_is_released_without_a_letter_that_can_name_a_file(tmp_path: Path) -> None:
    plan = accepting(DRAFT, tmp_path / "kite")
    without = edited(plan, ("letter: A, ", ""))
    assert reasons(without, tmp_path / "kite") == ["revision.letter: there is none"]
    (climbing,) = reasons(edited(plan, ("letter: A", 'letter: "../A"')), tmp_path / "kite")
    assert "can name a file" in climbing


def test_each_point_that_is_neither_measured_nor_accepted_is_named(tmp_path: Path) -> None:
    points = open_points(DRAFT + PEOPLE, tmp_path / "kite")
    told = reasons(DRAFT + PEOPLE, tmp_path / "kite")
    assert len(told) == len(points) > 1
    for point, reason in zip(sorted(points), sorted(told), strict=True):
        assert reason.startswith(f"{point} is neither measured nor accepted by name")


def test_a_point_is_accepted_by_a_name_only(tmp_path: Path) -> None:
    plan = accepting(DRAFT, tmp_path / "kite")
    nobody = edited(plan, ("rg_400_u.loss: {who: C. Person", 'rg_400_u.loss: {who: "?"'))
    (reason,) = reasons(nobody, tmp_path / "kite")
    assert reason.startswith("rg_400_u.loss")


def test_a_point_that_changed_since_it_was_accepted_is_open_again(tmp_path: Path) -> None:
    plan = accepting(DRAFT, tmp_path / "kite")
    entry = "rg_400_u.loss: {who: C. Person, date: 2026-11-20"
    bound = bindings(plan, tmp_path / "kite")["rg_400_u.loss"]
    held = edited(plan, (entry, f"{entry}, bound: {bound}"))
    assert release(Path(aircraft(tmp_path / "held", held)), Settings()).is_file()
    (reason,) = reasons(edited(plan, (entry, f"{entry}, bound: 00000000")), tmp_path / "kite")
    assert reason.startswith(
        "rg_400_u.loss has changed since C. Person accepted it on 2026-11-20: rg_400_u: loss rests"
    )


def test_a_loss_that_was_measured_and_agrees_needs_nobodys_name(ready: Path) -> None:
    with judged_again(package(ready, Settings())) as filed:
        assessment = filed.assessment
    nobody = replace(
        assessment,
        open_points=tuple(replace(point, acceptance=None) for point in assessment.open_points),
    )
    (path,) = assessment.paths
    open_before = [reason.split()[0] for reason in hindrances(nobody)]
    assert {"rg_400_u.loss", "bnc.loss"} <= set(open_before)
    reading = _reading("AGREES")
    measured = replace(nobody, paths=(replace(path, readings=(reading,)),))
    left = [reason.split()[0] for reason in hindrances(measured)]
    assert not {"rg_400_u.loss", "bnc.loss"} & set(left)
    for useless in (_reading("DIFFERS"), replace(reading, stale=True)):
        still = replace(nobody, paths=(replace(path, readings=(useless,)),))
        assert [reason.split()[0] for reason in hindrances(still)] == open_before


def _reading(agreement: str) -> Reading:
    return Reading(
        id="m1",
        path="com",
        state="design",
        frequency_hz=127.0e6,
        loss_db=1.0,
        predicted_db=1.0,
        difference_db=0.0,
        allowed_db=0.5,
        in_window=Verdict.PASS,
        agreement=agreement,
        stale=False,
    )


def test_a_later_revision_supersedes_those_before_it(ready: Path) -> None:
    release(ready, Settings())
    plan = (ready / "plan.yaml").read_text("utf-8")
    for letter in ("Z", "AA"):
        (ready / "plan.yaml").write_text(plan.replace("letter: A", f"letter: {letter}"), "utf-8")
        release(ready, Settings())
    (ready / "released" / "note.zip").write_bytes(b"no package")
    listed = [(one.letter, one.status) for one in revisions(ready / "released")]
    assert listed == [("A", "superseded"), ("Z", "superseded"), ("AA", "released")]


def test_a_folder_without_releases_lists_none(tmp_path: Path) -> None:
    assert list(revisions(tmp_path / "released")) == []
