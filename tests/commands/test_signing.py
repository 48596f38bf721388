# SPDX-License-Identifier: Apache-2.0
"""rfplan waive and rfplan accept: signed by name, bound to what is there, written into the plan."""

from __future__ import annotations

import json
from datetime import date
from pathlib import Path
from shutil import copytree
from typing import Any

import pytest
from command_line import INCOMPLETE, PLAN, WAIVED, Run, aircraft
from demo_plans import FOLDER

REASON = "the roof has no wider place for it"
BARE = WAIVED[: WAIVED.index("waivers:")]
"""A ground plane that is asked for and too small, which nobody has waived."""

FINDING = "RF205/com/design"


def written(plan: str) -> str:
    return (Path(plan) / "plan.yaml").read_text("utf-8")


def told(rfplan: Run, plan: str) -> dict[str, Any]:
    answer: dict[str, Any] = json.loads(rfplan("check", plan, "--json").out)
    return answer


def waiver(rfplan: Run, plan: str) -> dict[str, Any]:
    found = {one["id"]: one for one in told(rfplan, plan)["findings"]}
    note: dict[str, Any] = found[FINDING]["waiver"]
    return note


def point(rfplan: Run, plan: str, id: str) -> dict[str, Any]:
    points = {one["id"]: one for one in told(rfplan, plan)["open_points"]}
    return points[id]


@pytest.fixture
def bare(tmp_path: Path) -> str:
    return aircraft(tmp_path / "kite", BARE)


def test_a_finding_is_waived_and_bound_and_the_file_keeps_all_else(rfplan: Run, bare: str) -> None:
    assert rfplan("check", bare).code == 1
    signing = ("--by", "A. Person", "--reason", REASON, "--role", "engineer")
    more = ("--data", "sheet DA-1", "--check", "key it on 118.0", "--date", "2026-11-20")
    answer = rfplan("waive", bare, FINDING, *signing, *more)
    assert (answer.code, answer.err) == (0, "")
    assert answer.out == "RF205 for com waived by A. Person\nplan.yaml saved\n"
    assert written(bare).startswith(BARE.rstrip("\n"))
    note = waiver(rfplan, bare)
    assert (note["reopened"], note["unbound"], note["check"]) == (False, False, "key it on 118.0")
    assert (note["reason"], note["date"]) == (REASON, "2026-11-20")
    assert rfplan("check", bare).code == 0


def test_the_objects_of_a_finding_have_no_order(rfplan: Run, tmp_path: Path) -> None:
    folder = tmp_path / "twin"
    copytree(FOLDER / "twin", folder)
    signing = ("--by", "A. Person", "--reason", REASON, "--state", "found")
    answer = rfplan("waive", str(folder), "RF501/xpdr1_b+xpdr2_b/found", *signing)
    assert (answer.code, answer.err) == (0, "")
    answer = rfplan("waive", str(folder), "RF501/dme_b+xpdr2_b/found", *signing)
    assert (answer.code, answer.err) == (0, "")


def test_what_the_command_line_binds_the_workspace_would_bind_too(rfplan: Run, bare: str) -> None:
    (before,) = (one for one in told(rfplan, bare)["findings"] if one["id"] == FINDING)
    rfplan("waive", bare, FINDING, "--by", "A. Person", "--reason", REASON)
    assert f"bound: {before['bound']}" in written(bare)
    assert date.today().isoformat() in written(bare)


def test_a_waiver_that_was_written_by_hand_is_bound_by_signing_it_anew(
    rfplan: Run, tmp_path: Path
) -> None:
    plan = aircraft(tmp_path / "kite", WAIVED)
    assert waiver(rfplan, plan)["unbound"]
    assert "has 16 characters" in rfplan("waive", plan, FINDING, "--by", "B. Person").err
    rfplan("waive", plan, FINDING, "--by", "B. Person", "--reason", REASON, "--data", "sheet DA-1")
    assert rfplan("waive", plan, FINDING, "--by", "C. Person").code == 0
    note = waiver(rfplan, plan)
    assert (note["id"], note["who"], note["unbound"]) == ("v1", "C. Person", False)
    assert (note["reason"], note["approved_data"]) == (REASON, "sheet DA-1")
    assert written(plan).count("RF205") == 1


def test_an_acceptance_that_was_written_by_hand_is_bound_by_signing_it_anew(
    rfplan: Run, tmp_path: Path
) -> None:
    plan = aircraft(
        tmp_path / "kite", f"{PLAN}accepted:\n  bnc.loss: {{who: A. Person, date: 2026-11-20}}\n"
    )
    assert point(rfplan, plan, "bnc.loss")["accepted"]["unbound"]
    answer = rfplan("accept", plan, "bnc.loss", "rg_400_u.loss", "--by", "A. Person")
    assert (answer.code, answer.err) == (0, "")
    assert answer.out == (
        "bnc.loss accepted by A. Person\nrg_400_u.loss accepted by A. Person\nplan.yaml saved\n"
    )
    for id in ("bnc.loss", "rg_400_u.loss"):
        one = point(rfplan, plan, id)
        assert not one["accepted"]["unbound"]
        assert f"bound: {one['bound']}" in written(plan)
    assert written(plan).startswith(PLAN)


@pytest.mark.parametrize(
    ("words", "said"),
    [
        (("waive", FINDING, "--reason", REASON, "--by", " "), "needs the name of who signs"),
        (("waive", FINDING, "--by", "A. Person"), "the reason has 0 characters, 20 are needed"),
        (
            ("waive", "RF205/con/design", "--by", "A. Person", "--reason", REASON),
            "no finding 'RF205/con/design'; did you mean RF205/com/design?",
        ),
        (("accept", "bnc.los", "--by", "A. Person"), "no open point 'bnc.los'; did you mean bnc"),
        (("accept", "bnc.loss", "--by", " "), "needs the name of who accepts it"),
        (("accept", "bnc.loss", "gone", "--by", "A. Person"), "no open point 'gone'"),
    ],
)
def test_what_cannot_be_signed_is_told_and_nothing_is_written(
    rfplan: Run, bare: str, words: tuple[str, ...], said: str
) -> None:
    command, *rest = words
    answer = rfplan(command, bare, *rest)
    assert (answer.code, answer.out) == (1, "")
    assert answer.err.startswith("rfplan: not signed: ")
    assert said in answer.err
    assert written(bare) == BARE


def test_a_value_that_is_missing_can_neither_be_waived_nor_accepted(
    rfplan: Run, tmp_path: Path
) -> None:
    plan = aircraft(tmp_path / "kite", INCOMPLETE)
    blocking = [one["id"] for one in told(rfplan, plan)["open_points"] if one["blocking"]]
    answer = rfplan("accept", plan, blocking[0], "--by", "A. Person")
    assert "blocks a verdict: the value is needed, not a name" in answer.err
    assert written(plan) == INCOMPLETE


def test_a_signature_needs_a_name(rfplan: Run, bare: str) -> None:
    answer = rfplan("accept", bare, "bnc.loss")
    assert answer.code == 2
    assert "--by" in answer.err


def test_a_day_that_is_none_and_a_plan_that_is_none_are_told_with_their_place(
    rfplan: Run, bare: str, tmp_path: Path
) -> None:
    assert "--date" in rfplan("accept", bare, "bnc.loss", "--by", "A", "--date", "25.11").err
    answer = rfplan("accept", str(tmp_path), "bnc.loss", "--by", "A. Person")
    assert (answer.code, answer.out) == (2, "")


def test_a_file_that_is_read_only_is_not_written(rfplan: Run, bare: str) -> None:
    (Path(bare) / "plan.yaml").chmod(0o444)
    answer = rfplan("accept", bare, "bnc.loss", "--by", "A. Person")
    assert (answer.code, answer.out) == (2, "")
    assert answer.err == "rfplan: not saved: plan.yaml is read-only\n"


def test_an_advice_is_not_waived_for_it_fails_nothing(rfplan: Run, bare: str) -> None:
    before = written(bare)
    advice = next(one["id"] for one in told(rfplan, bare)["findings"] if one["verdict"] == "ADVICE")
    answer = rfplan("waive", bare, advice, "--by", "A. Person", "--reason", REASON)
    assert (answer.code, answer.out) == (1, "")
    assert f"{advice} is ADVICE: only a FAIL of a rule can be waived" in answer.err
    assert written(bare) == before
