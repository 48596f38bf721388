# SPDX-License-Identifier: Apache-2.0
"""rfplan record: a reading written into the plan, bound to the path it is of."""

from __future__ import annotations

import json
import re
from pathlib import Path
from typing import Any

import pytest
from command_line import PLAN, Run, aircraft

READ = ("--at", "127.5 MHz", "--by", "A. Person", "--date", "2026-11-20")


def written(plan: str) -> str:
    return (Path(plan) / "plan.yaml").read_text("utf-8")


def measured(rfplan: Run, plan: str) -> list[dict[str, Any]]:
    answer = json.loads(rfplan("check", plan, "--state", "built", "--json").out)
    told: list[dict[str, Any]] = answer["paths"][0]["measured"]
    return told


@pytest.fixture
def plan(tmp_path: Path) -> str:
    return aircraft(tmp_path / "kite")


def test_a_reading_stands_beside_the_prediction_and_the_file_keeps_all_else(
    rfplan: Run, plan: str
) -> None:
    more = ("--loss", "0.62 dB", "--vswr", "1.4", "--temperature", "17 degC")
    rest = ("--uncertainty", "0.1 dB", "--instrument", "analyser 7 due 2027-03-01")
    answer = rfplan("record", plan, "com", *READ, *more, *rest)
    assert (answer.code, answer.err) == (0, "")
    said, judged, match, saved = answer.out.splitlines()
    assert said == "com measured 0.62 dB, VSWR 1.4 at 127.50 MHz"
    assert re.fullmatch(r"AGREES: predicted 0\.\d\d dB, difference .0\.\d\d dB, .*", judged)
    assert match.startswith("VSWR 1.40 at the unit, about 1.48 at the antenna")
    assert saved == "plan.yaml saved"
    assert written(plan).startswith(PLAN)
    assert "with: analyser 7 due 2027-03-01" in written(plan)
    (one,) = measured(rfplan, plan)
    assert (one["id"], one["state"], one["loss_db"], one["vswr"]) == ("m1", "built", 0.62, 1.4)
    assert (one["stale"], one["agreement"]) == (False, "AGREES")
    # 1/6 of the wave came back over 0.62 dB twice: 0.1923 from the antenna
    assert one["antenna_vswr"] == pytest.approx(1.1922 / 0.8078, abs=1e-3)


def test_a_second_reading_is_another_one_and_goes_stale_when_the_cable_changes(
    rfplan: Run, plan: str
) -> None:
    for vswr in ("1.4", "1.5"):
        assert rfplan("record", plan, "com", *READ, "--vswr", vswr).code == 0
    file = Path(plan) / "plan.yaml"
    file.write_text(written(plan).replace("length: 11 ft", "length: 12 ft"), "utf-8")
    told = measured(rfplan, plan)
    assert [(one["id"], one["stale"]) for one in told] == [("m1", True), ("m2", True)]


@pytest.mark.parametrize(
    ("words", "code", "said"),
    [
        (("con", *READ, "--loss", "1 dB"), 1, "not recorded: no path 'con'; did you mean com?"),
        (("com", *READ), 1, "not recorded: a reading needs a loss or a VSWR"),
        (("com", *READ, "--vswr", "0.5"), 1, "not recorded: a VSWR is never below 1"),
        (("com", *READ, "--loss", "1"), 2, "--loss:1:1: the number 1 has no unit"),
        (("com", "--loss", "1 dB"), 2, "--at"),
    ],
)
def test_what_is_no_reading_is_told_and_nothing_is_written(
    rfplan: Run, plan: str, words: tuple[str, ...], code: int, said: str
) -> None:
    answer = rfplan("record", plan, *words)
    assert (answer.code, answer.out) == (code, "")
    assert said in answer.err
    assert written(plan) == PLAN


def test_a_reading_that_differs_is_told_so_at_once(rfplan: Run, plan: str) -> None:
    answer = rfplan("record", plan, "com", *READ, "--loss", "3.62 dB")
    assert answer.code == 0
    _, judged, lacks, _ = answer.out.splitlines()
    assert judged.startswith("DIFFERS: predicted ")
    assert lacks == "Without temperature and uncertainty the window keeps the prediction."


def test_what_may_be_a_slip_is_told_as_the_workspace_tells_it(rfplan: Run, plan: str) -> None:
    slip = ("--at", "900 MHz", "--loss=-3 dB", "--temperature", "17 degC", "--uncertainty", "0 dB")
    said = rfplan("record", plan, "com", *slip).out
    assert "900 MHz lies in no band of com." in said
    assert "A loss below zero would be a gain" in said


def test_everything_that_is_no_quantity_is_told_at_once(rfplan: Run, plan: str) -> None:
    answer = rfplan("record", plan, "com", "--at", "L1", "--loss", "1", "--vswr", "two")
    assert all(option in answer.err for option in ("--at:", "--loss:", "--vswr:"))
