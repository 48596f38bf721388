# SPDX-License-Identifier: Apache-2.0
"""rfplan compare: what changed between two plans or two states, verdicts first."""

from __future__ import annotations

from pathlib import Path

import pytest
from command_line import FAILING, Run, aircraft


@pytest.fixture
def plan(tmp_path: Path) -> str:
    return aircraft(tmp_path / "kite")


def test_the_same_plan_twice_shows_no_difference(rfplan: Run, plan: str) -> None:
    answer = rfplan("compare", plan, f"{plan}@design")
    assert (answer.code, answer.err) == (0, "")


def test_two_states_of_a_plan_show_what_the_design_changed(rfplan: Run, plan: str) -> None:
    answer = rfplan("compare", f"{plan}@found", plan)
    assert (answer.code, answer.err) == (1, "")
    assert "cable w1" in answer.out


def test_a_changed_verdict_stands_before_what_changed_it(
    rfplan: Run, plan: str, tmp_path: Path
) -> None:
    answer = rfplan("compare", plan, aircraft(tmp_path / "other", FAILING))
    assert answer.code == 1
    assert 0 < answer.out.index("FAIL-HIGH") < answer.out.index("2.5 dB")


def test_lengths_are_shown_in_the_unit_asked_for(rfplan: Run, plan: str) -> None:
    shown = rfplan("compare", f"{plan}@found", plan, "--units", "mm").out
    assert "3353" in shown


def test_a_folder_may_hold_an_at_sign(rfplan: Run, tmp_path: Path) -> None:
    plan = aircraft(tmp_path / "kite@home")
    assert rfplan("compare", plan, plan).code == 0
    assert rfplan("compare", f"{plan}@found", plan).code == 1


@pytest.mark.parametrize(
    ("name", "said"),
    [
        ("kite@fond", "kite@fond:1:1: no state 'fond'; did you mean found?"),
        ("kite@", "kite@:1:1: no state ''; there are found, design, built"),
        ("nowhere@found", "nowhere:1:1: there is no such file"),
    ],
)
def test_a_side_that_cannot_be_read_is_named(rfplan: Run, plan: str, name: str, said: str) -> None:
    answer = rfplan("compare", plan, name)
    assert (answer.code, answer.out) == (2, "")
    assert answer.err.splitlines()[0] == said


def test_a_difference_can_be_written_for_the_file(rfplan: Run, plan: str, tmp_path: Path) -> None:
    path = tmp_path / "difference.html"
    answer = rfplan("compare", f"{plan}@found", plan, "--format", "html", "-o", str(path))
    assert (answer.code, answer.out) == (1, "")
    assert path.read_text("utf-8").startswith("<!DOCTYPE html>")
