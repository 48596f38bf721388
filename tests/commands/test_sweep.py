# SPDX-License-Identifier: Apache-2.0
"""rfplan sweep: a plan, a path, what was swept, and the sheet that says what it means."""

from __future__ import annotations

import json
from pathlib import Path

import numpy as np
import pytest
from command_line import PLAN, Run, aircraft
from swept_lines import OPEN_OHM, SHORT_OHM, one_port, touchstone, two_port

from rfplan.physics.two_port import LineSection, LumpedLoss, chain_abcd

SWEPT_HZ = np.linspace(50e6, 1050e6, 401)
LENGTH_M = 11 * 0.3048


def line(extra_db: float = 0.0) -> np.ndarray:
    parts = [LumpedLoss(0.1 + extra_db), LineSection(0.15, 0.695, 50.0, LENGTH_M), LumpedLoss(0.1)]
    return chain_abcd(SWEPT_HZ, parts)


@pytest.fixture
def plan(tmp_path: Path) -> str:
    return aircraft(tmp_path / "kite", PLAN)


@pytest.fixture
def antenna(tmp_path: Path) -> str:
    return touchstone(one_port(line(), 100.0, "antenna.s1p", SWEPT_HZ), tmp_path)


@pytest.fixture
def ends(tmp_path: Path) -> tuple[str, ...]:
    files = (
        touchstone(one_port(line(), load_ohm, f"{name}.s1p", SWEPT_HZ), tmp_path)
        for name, load_ohm in (("open", OPEN_OHM), ("short", SHORT_OHM))
    )
    return "--open", next(files), "--short", next(files)


def test_a_one_port_sweep_is_told_with_match_and_reflections(
    rfplan: Run, plan: str, antenna: str
) -> None:
    answer = rfplan("sweep", plan, "com", antenna)
    assert (answer.code, answer.err) == (0, "")
    assert answer.out.splitlines()[1].startswith("first")
    assert "Disconnect the DC feed" in answer.out
    assert "at w1/com" in answer.out
    assert "Loss\n" not in answer.out


def test_open_and_short_add_the_loss(
    rfplan: Run, plan: str, antenna: str, ends: tuple[str, ...]
) -> None:
    answer = rfplan("sweep", plan, "com", antenna, *ends, "--format", "json")
    tables = {table["key"]: table for table in json.loads(answer.out)["tables"]}
    assert set(tables) == {"sweeps", "loss", "match", "reflections"}
    assert len(tables["sweeps"]["rows"]) == 3


def test_one_far_end_alone_is_refused(
    rfplan: Run, plan: str, antenna: str, ends: tuple[str, ...]
) -> None:
    answer = rfplan("sweep", plan, "com", antenna, *ends[:2])
    assert (answer.code, answer.out) == (2, "")
    assert "--short:1:1: missing beside --open; expected both sweeps" in answer.err


def test_a_path_that_there_is_not_is_named(rfplan: Run, plan: str, antenna: str) -> None:
    answer = rfplan("sweep", plan, "con", antenna)
    assert (answer.code, answer.out) == (2, "")
    assert answer.err == "rfplan: no path 'con'; did you mean com?\n"
    answer = rfplan("sweep", plan, "com", antenna, "--swap-with", "nav", antenna)
    assert answer.err == "rfplan: no path 'nav'; there is com\n"


def test_the_faults_of_all_sweeps_are_told_at_once(rfplan: Run, plan: str, tmp_path: Path) -> None:
    bad, worse = tmp_path / "bad.s1p", tmp_path / "worse.s1p"
    bad.write_text("# Hz S RI\n1 x 0\n", "utf-8")
    worse.write_text("# Hz Z RI\n1 0 0\n", "utf-8")
    answer = rfplan("sweep", plan, "com", str(bad), "--open", str(worse), "--short", "none.s1p")
    assert (answer.code, answer.out) == (2, "")
    assert [name in answer.err for name in ("bad.s1p:2:3", "worse.s1p:1:6", "none.s1p:1:1")] == [
        True,
        True,
        True,
    ]
    assert answer.err.endswith("3 problems; nothing was judged\n")


@pytest.mark.parametrize(("policy", "code"), [("", 0), ("policy: {agreement: required}\n", 1)])
def test_a_loss_that_differs_fails_only_where_the_plan_requires_agreement(
    rfplan: Run, tmp_path: Path, policy: str, code: int
) -> None:
    plan = aircraft(tmp_path / "kite", PLAN + policy)
    through = touchstone(two_port(line(3.0), "through.s2p", SWEPT_HZ), tmp_path)
    answer = rfplan("sweep", plan, "com", through)
    assert "DIFFERS" in answer.out
    assert answer.code == code


def test_the_state_and_the_temperature_are_those_asked_for(
    rfplan: Run, plan: str, antenna: str
) -> None:
    found = rfplan("sweep", plan, "com", antenna, "--state", "found", "--temperature", "63 degF")
    assert "state              found" in found.out
    assert "17 degC" in found.out
    wrong = rfplan("sweep", plan, "com", antenna, "--temperature", "17")
    assert (wrong.code, wrong.out) == (2, "")
    assert "--temperature:1:1: the number 17 has no unit" in wrong.err


def test_another_path_tells_of_its_label(rfplan: Run, plan: str, antenna: str) -> None:
    answer = rfplan("sweep", plan, "com", antenna, "--swap-with", "com", antenna)
    assert "cannot be told" in answer.out


def test_help_says_to_disconnect_dc_first(rfplan: Run) -> None:
    assert "disconnect DC first" in " ".join(rfplan("--help").out.split())
