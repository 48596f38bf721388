# SPDX-License-Identifier: Apache-2.0
"""rfplan check: the verdict on the screen, in the exit code and in the answer for programs."""

from __future__ import annotations

import json
from pathlib import Path

import pytest
from command_line import FAILING, INCOMPLETE, PLAN, WAIVED, Run, aircraft
from plan_files import edited

from rfplan.files.folders import shipped

KEYS = {
    *("format", "tool", "inputs", "aircraft", "state", "revision", "policy", "verdict"),
    *("exit_code", "counts", "problems", "paths", "antennas", "spacing", "isolation"),
    *("mixing", "channel_pairs", "findings", "open_points"),
}


@pytest.fixture
def plan(tmp_path: Path) -> str:
    return aircraft(tmp_path / "kite")


@pytest.mark.parametrize(
    ("text", "options", "code", "verdict"),
    [
        (PLAN, [], 0, "PASS"),
        (PLAN, ["--strict"], 0, "PASS"),
        (FAILING, [], 1, "FAIL-HIGH"),
        (INCOMPLETE, [], 3, "INCOMPLETE"),
        (WAIVED, [], 0, "WAIVED"),
        (WAIVED, ["--strict"], 1, "WAIVED"),
    ],
)
def test_the_exit_code_follows_from_the_verdict(
    rfplan: Run, tmp_path: Path, text: str, options: list[str], code: int, verdict: str
) -> None:
    plan = aircraft(tmp_path / "kite", text)
    shown = rfplan("check", plan, *options)
    assert (shown.code, shown.err) == (code, "")
    assert shown.out.splitlines()[1].split() == ["verdict", verdict]
    answer = json.loads(rfplan("check", plan, "--json", *options).out)
    assert (answer["exit_code"], answer["verdict"]) == (code, verdict)


def test_the_last_line_counts_everything(rfplan: Run, plan: str) -> None:
    last = rfplan("check", plan).out.splitlines()[-1]
    assert last == "paths: 1 PASS; findings: 3 ADVICE; open points: 0 blocking, 2 to confirm"


def test_a_plan_is_named_by_its_folder_or_by_its_file(rfplan: Run, plan: str) -> None:
    assert rfplan("check", plan).out == rfplan("check", f"{plan}/plan.yaml").out


def test_the_answer_for_programs_is_one_object_and_nothing_else(rfplan: Run, plan: str) -> None:
    shown = rfplan("check", plan, "--json")
    assert set(json.loads(shown.out)) >= KEYS
    assert shown.out.endswith("}\n")
    assert shown.err == ""
    assert shown.out.isascii()


# --- options ------------------------------------------------------------------------------------


def test_the_state_that_is_judged_can_be_chosen(rfplan: Run, plan: str) -> None:
    cut_m = {}
    for state in ("found", "design", "built"):
        answer = json.loads(rfplan("check", plan, "--json", "--state", state).out)
        assert answer["state"] == state
        cut_m[state] = answer["paths"][0]["cables"][0]["as_built_m"]
    assert cut_m == {"found": 3.048, "design": 3.3528, "built": 3.3528}


def test_a_serial_number_chooses_the_variant(rfplan: Run, plan: str) -> None:
    answer = json.loads(rfplan("check", plan, "--json", "--serial", "25").out)
    assert (answer["aircraft"]["serial"], answer["aircraft"]["variant"]) == ("25", "late")


def test_units_change_the_lengths_in_the_words_only(rfplan: Run, plan: str) -> None:
    assert "0.0 in of conducting skin" in rfplan("check", plan).out
    assert "0 mm of conducting skin" in rfplan("check", plan, "--units", "mm").out
    first, second = (
        json.loads(rfplan("check", plan, "--json", "--units", unit).out) for unit in ("in", "mm")
    )
    assert first["paths"] == second["paths"]


def test_a_catalogue_folder_is_laid_over_the_shipped_one(
    rfplan: Run, plan: str, tmp_path: Path
) -> None:
    folder = tmp_path / "reels"
    folder.mkdir()
    (folder / "rg_400_u.yaml").write_text(
        """\
rfplan: cable/1
designation: a reel of the shop
impedance: 50 ohm
velocity: 0.7
diameter: 4.95 mm
sources: {sheet: {class: measured, who: A. Person, date: 2026-11-20}}
source: sheet
attenuation: {maximum: {points: {50 MHz: 3 dB/m, 500 MHz: 9 dB/m}}}
"""
    )
    answer = json.loads(rfplan("check", plan, "--json", "--catalog", str(folder)).out)
    assert answer["verdict"] == "FAIL-HIGH"


def test_what_a_catalogue_entry_leaves_open_is_told_with_its_file_and_line(
    rfplan: Run, plan: str
) -> None:
    answer = json.loads(rfplan("check", plan, "--json").out)
    (point,) = (one for one in answer["open_points"] if one["object"] == "bnc")
    lines = (shipped("cable_catalog") / "connectors" / "bnc.yaml").read_text("utf-8").splitlines()
    assert point["file"] == "cable_catalog/connectors/bnc.yaml"
    assert lines[point["line"] - 1].startswith("loss:")


def test_entries_that_answer_nothing_are_told_with_their_places(
    rfplan: Run, tmp_path: Path
) -> None:
    unanswered = "accepted:\n  bnc.los: {who: C. Person, date: 2026-11-20}\n"
    plan = aircraft(tmp_path / "kite", edited(WAIVED, ("of: [com]", "of: [w1]")) + unanswered)
    lines = (tmp_path / "kite" / "plan.yaml").read_text("utf-8").splitlines()
    waiver = next(n for n, line in enumerate(lines, 1) if line == "waivers:") + 1
    shown = " ".join(rfplan("check", plan).out.split())
    assert f"RF701 waiver-without-finding plan.yaml:{waiver}:3: waiver" in shown
    assert f"RF703 acceptance-without-point plan.yaml:{len(lines)}:3: accepted" in shown
    found = json.loads(rfplan("check", plan, "--json").out)["findings"]
    (one,) = [finding for finding in found if finding["rule"] == "RF703"]
    assert (one["file"], one["line"], one["column"]) == ("plan.yaml", len(lines), 3)


def test_an_entry_that_answers_nothing_may_stay_with_a_reason(rfplan: Run, tmp_path: Path) -> None:
    unanswered = "accepted:\n  bnc.los: {who: C. Person, date: 2026-11-20}\n"
    waiver = "  v2: {finding: {rule: RF703, of: [bnc.los]}, reason: for serial 9, who: A. Person}\n"
    plan = aircraft(tmp_path / "kite", WAIVED + waiver + unanswered)
    found = json.loads(rfplan("check", plan, "--json").out)["findings"]
    assert next(one["waiver"]["id"] for one in found if one["rule"] == "RF703") == "v2"


def test_every_number_behind_a_path_or_a_finding_is_shown(rfplan: Run, plan: str) -> None:
    path = rfplan("check", plan, "--why", "com")
    assert path.code == 0
    assert "Why com" in path.out
    assert "Elements at the governing band" in path.out
    finding = rfplan("check", plan, "--why", "RF205/com/design")
    assert "Why RF205/com/design" in finding.out


def test_an_id_that_is_not_there_is_answered_with_near_ones(rfplan: Run, plan: str) -> None:
    answer = rfplan("check", plan, "--why", "rf205")
    assert (answer.code, answer.out) == (2, "")
    assert answer.err == ("rfplan: no path or finding 'rf205'; did you mean RF205/com/design?\n")


def test_the_chains_are_compared_with_an_independent_library(rfplan: Run, plan: str) -> None:
    last = rfplan("check", plan, "--cross-check").out.splitlines()[-1]
    assert last.startswith("cross-check: scikit-rf ")
    answer = json.loads(rfplan("check", plan, "--json", "--cross-check").out)
    plain = json.loads(rfplan("check", plan, "--json").out)
    assert set(answer) - set(plain) == {"cross_check"}
    assert answer["cross_check"]["chains"] >= 1
    assert answer["cross_check"]["largest_db"] < 1e-6


def test_the_answer_is_written_where_asked(rfplan: Run, plan: str, tmp_path: Path) -> None:
    shown = rfplan("check", plan).out
    assert rfplan("check", plan, "-o", str(tmp_path / "check.txt")).code == 0
    assert (tmp_path / "check.txt").read_text("utf-8") == shown


# --- what cannot be judged ----------------------------------------------------------------------


def test_all_problems_are_told_at_once_and_nothing_is_judged(rfplan: Run, tmp_path: Path) -> None:
    faulty = edited(PLAN, ("length: 10 ft", "length: 10 fet"), ("at: 140 0 in", "at: 140"))
    plan = aircraft(tmp_path / "kite", faulty)
    answer = rfplan("check", plan)
    assert (answer.code, answer.out) == (2, "")
    lines = answer.err.splitlines()
    assert lines[-1] == "2 problems; nothing was judged"
    assert all(line.startswith(f"{plan}/plan.yaml:") for line in lines[:-1])


@pytest.mark.parametrize(
    ("arguments", "file", "message"),
    [
        (["nowhere"], "nowhere", "there is no such file"),
        (["."], ".", "the folder holds no plan.yaml"),
        (["kite/airframe.yaml"], "kite/airframe.yaml", "this is a file of kind 'airframe'"),
        (["kite", "--catalog", "reels"], "reels", "there is no such folder"),
        (["kite", "--catalog", "x" * 5000], "x" * 5000, "there is no such folder"),
        (["kite", "--serial", "15"], "kite/airframe.yaml", "serial '15' belongs to no variant"),
        (["kite", "--date", "2026-02-30"], "--date", "the calendar has no day 2026-02-30"),
        (["x" * 5000], "x" * 5000, "the file cannot be read: File name too long"),
        (["a\0b"], "a\0b", "the file cannot be read: the path is not usable"),
    ],
)
def test_a_failed_load_keeps_the_promise_to_programs(
    rfplan: Run,
    tmp_path: Path,
    monkeypatch: pytest.MonkeyPatch,
    arguments: list[str],
    file: str,
    message: str,
) -> None:
    judged = json.loads(rfplan("check", aircraft(tmp_path / "kite"), "--json").out)
    monkeypatch.chdir(tmp_path)
    told = rfplan("check", *arguments)
    assert (told.code, told.out) == (2, "")
    shown = rfplan("check", *arguments, "--json")
    assert (shown.code, shown.err) == (2, "")
    answer = json.loads(shown.out)
    assert set(answer) == set(judged)
    assert (answer["verdict"], answer["exit_code"], answer["paths"]) == (None, 2, [])
    (problem,) = answer["problems"]
    assert problem["file"] == file
    assert message in problem["message"]
