# SPDX-License-Identifier: Apache-2.0
"""rfplan release, and comparing with what was released."""

from __future__ import annotations

import json
import shlex
from pathlib import Path

import pytest
from command_line import FAILING, NAMES, PLAN, Run, aircraft


@pytest.fixture
def plan(tmp_path: Path) -> str:
    return aircraft(tmp_path / "kite", PLAN + NAMES)


def test_a_release_says_where_it_is_and_what_to_do_next(rfplan: Run, plan: str) -> None:
    answer = rfplan("release", plan)
    assert (answer.code, answer.err) == (0, "")
    assert answer.out.startswith("released/A.zip written. Raise revision.letter")
    assert rfplan("verify", f"{plan}/released/A.zip").code == 0


def test_a_letter_is_released_once(rfplan: Run, plan: str) -> None:
    rfplan("release", plan)
    answer = rfplan("release", plan)
    assert (answer.code, answer.out) == (2, "")
    assert "this revision is released already; raise revision.letter" in answer.err


def test_every_reason_against_a_release_is_told(rfplan: Run, tmp_path: Path) -> None:
    answer = rfplan("release", aircraft(tmp_path / "kite", FAILING))
    assert (answer.code, answer.out) == (1, "")
    lines = answer.err.splitlines()
    assert lines[0] == "the verdict is FAIL-HIGH"
    assert "people.released: no name" in lines
    assert any(line.startswith("rg_400_u.loss is neither measured") for line in lines)
    assert lines[-1] == "rfplan: not released"


@pytest.mark.parametrize("options", [[], ["--state", "built", "--serial", "4"]])
def test_the_command_that_a_refusal_tells_releases_the_plan_once_a_name_stands_in_it(
    rfplan: Run, tmp_path: Path, options: list[str]
) -> None:
    names, _, _ = NAMES.partition("accepted:")
    plan = aircraft(tmp_path / "a kite", PLAN + names)
    refused = rfplan("release", plan, *options).err.splitlines()
    (told,) = (one for one in refused if "rfplan accept" in one)
    words = shlex.split(told.replace("NAME", "'C. Person'"))
    assert words[-2 - len(options) : -2] == options
    assert rfplan(*words[1:]).code == 0
    answer = rfplan("release", plan, *options)
    assert (answer.code, answer.err) == (0, "")


def test_what_nobody_may_accept_is_no_entry(rfplan: Run, tmp_path: Path) -> None:
    plan = "\n".join(line for line in (PLAN + NAMES).splitlines() if "released:" not in line)
    answer = rfplan("release", aircraft(tmp_path / "kite", plan))
    first, *_, last = answer.err.splitlines()
    assert (first, last) == ("people.released: no name", "rfplan: not released")
    assert "released: {name: N. Name" in answer.err
    assert "rfplan accept" not in answer.err


def test_released_revisions_are_listed(rfplan: Run, plan: str) -> None:
    assert rfplan("release", plan, "--list").out.startswith("No revision is in ")
    rfplan("release", plan)
    assert rfplan("release", plan, "--list").out == "A  released  design  2026-11-20\n"


def test_the_plan_at_hand_is_compared_with_a_released_one(rfplan: Run, plan: str) -> None:
    rfplan("release", plan)
    same = rfplan("compare", f"{plan}@rel:A", f"{plan}/released/A.zip")
    assert (same.code, same.err) == (0, "")
    file = Path(plan) / "plan.yaml"
    file.write_text(file.read_text("utf-8").replace("length: 11 ft", "length: 12 ft"), "utf-8")
    answer = rfplan("compare", f"{plan}@rel:A", plan, "--format", "json")
    assert answer.code == 1
    tables = {table["key"]: table["rows"] for table in json.loads(answer.out)["tables"]}
    anew = [row[0]["value"] for row in tables["reissue"]]
    assert {"loss_budget", "cut_list"} <= set(anew) and "cautions" not in anew


def test_sheets_to_issue_anew_are_told_only_beside_something_filed(rfplan: Run, plan: str) -> None:
    assert "issue anew" not in rfplan("compare", f"{plan}@found", f"{plan}@design").out


def test_a_revision_that_is_not_there_is_named(rfplan: Run, plan: str) -> None:
    answer = rfplan("compare", f"{plan}@rel:B", plan)
    assert (answer.code, answer.out) == (2, "")
    assert "released/B.zip:1:1: there is no such file" in answer.err


def test_a_damaged_package_is_not_compared(rfplan: Run, plan: str, tmp_path: Path) -> None:
    odd = tmp_path / "odd.zip"
    odd.write_bytes(b"PK\x03\x04 and so on")
    answer = rfplan("compare", str(odd), plan)
    assert answer.code == 2 and "damaged or changed" in answer.err
