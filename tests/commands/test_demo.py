# SPDX-License-Identifier: Apache-2.0
"""rfplan demo: a demo aircraft of one's own, judged, and what to try next."""

from __future__ import annotations

import shlex
import shutil
from pathlib import Path

import pytest
from command_line import Run

from rfplan.files.folders import shipped

DEMOS = sorted(path.parent.name for path in shipped("demo_aircraft").glob("*/plan.yaml"))


@pytest.mark.parametrize("name", DEMOS)
def test_a_demo_is_copied_and_judged_as_found_and_as_designed(
    rfplan: Run, tmp_path: Path, name: str
) -> None:
    folder = tmp_path / "mine"
    answer = rfplan("demo", name, "--to", str(folder))
    assert (answer.code, answer.err) == (0, "")
    assert answer.out.count("\nCheck\nverdict ") == 2
    assert answer.out.index("== as found ==") < answer.out.index("== as designed ==")
    original = shipped("demo_aircraft") / name
    copied = {path.name: path.read_bytes() for path in folder.iterdir()}
    assert copied == {path.name: path.read_bytes() for path in original.iterdir()}


def test_the_first_demo_goes_into_the_folder_one_stands_in(
    rfplan: Run, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.chdir(tmp_path)
    assert rfplan("demo").code == 0
    assert [path.name for path in tmp_path.iterdir()] == [f"demo_{DEMOS[0]}"]


def test_what_it_says_to_try_next_works(
    rfplan: Run, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.chdir(tmp_path)
    shown = rfplan("demo", "--to", "my demo").out
    commands = [shlex.split(line) for line in shown.splitlines() if line.startswith("  rfplan ")]
    assert len(commands) == 3
    for _, *arguments in commands:
        answer = rfplan(*arguments)
        assert answer.code in (0, 1)
        assert answer.err == ""


def test_a_folder_that_is_there_is_used_and_left_as_it_is(rfplan: Run, tmp_path: Path) -> None:
    folder = tmp_path / "mine"
    assert rfplan("demo", "--to", str(folder)).code == 0
    plan = folder / "plan.yaml"
    plan.write_text(plan.read_text("utf-8") + "# my note\n", "utf-8")
    again = rfplan("demo", "--to", str(folder))
    assert again.code == 0
    assert "was there already and is as it was" in again.out
    assert plan.read_text("utf-8").endswith("# my note\n")


def test_a_demo_that_there_is_not_is_answered_with_near_ones(rfplan: Run) -> None:
    answer = rfplan("demo", DEMOS[0][:-1])
    assert (answer.code, answer.out) == (2, "")
    assert f"did you mean {DEMOS[0]}?" in answer.err


def test_a_folder_that_cannot_be_made_is_said(rfplan: Run, tmp_path: Path) -> None:
    (tmp_path / "file").write_text("")
    for folder in (tmp_path / "file", tmp_path / "file" / "mine"):
        answer = rfplan("demo", "--to", str(folder))
        assert (answer.code, answer.out) == (2, "")
        assert f"{folder} not made: " in answer.err
    assert [path.name for path in tmp_path.iterdir()] == ["file"]


def test_a_copy_that_fails_leaves_nothing_behind(
    rfplan: Run, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    def fail(*_: object) -> None:
        raise OSError(28, "No space left on device")

    monkeypatch.setattr(shutil, "copyfile", fail)
    assert rfplan("demo", "--to", str(tmp_path / "mine")).code == 2
    assert list(tmp_path.iterdir()) == []
