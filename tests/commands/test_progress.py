# SPDX-License-Identifier: Apache-2.0
"""A long export tells a terminal how far it is, a plain line a sheet, and a pipe nothing."""

from __future__ import annotations

import sys
from pathlib import Path

import pytest
from command_line import NAMES, PLAN, Run, aircraft

from rfplan.reports.sheets import FILED

COUNTED = [f"sheet {number} of {len(FILED)}: {key}" for number, key in enumerate(FILED, start=1)]


@pytest.fixture
def plan(tmp_path: Path) -> str:
    return aircraft(tmp_path / "kite", PLAN + NAMES)


@pytest.fixture
def terminal(rfplan: Run, monkeypatch: pytest.MonkeyPatch) -> None:
    """Let the stderr of commands be a terminal."""
    monkeypatch.setattr(type(sys.stderr), "isatty", lambda stream: stream is sys.stderr)


@pytest.mark.usefixtures("terminal")
def test_an_export_of_all_sheets_names_each_and_the_file(
    rfplan: Run, plan: str, tmp_path: Path
) -> None:
    out = tmp_path / "all.pdf"
    answer = rfplan("sheet", plan, "--format", "pdf", "-o", str(out))
    assert (answer.code, answer.out) == (0, "")
    assert answer.err.splitlines() == [*COUNTED, f"writing {out}"]


@pytest.mark.usefixtures("terminal")
@pytest.mark.parametrize("command", [("package", "-o"), ("release",)])
def test_a_package_names_each_sheet(
    rfplan: Run, plan: str, tmp_path: Path, command: tuple[str, ...]
) -> None:
    name, *output = command
    answer = rfplan(name, plan, *output, *([str(tmp_path / "a.zip")] if output else []))
    assert (answer.code, answer.err.splitlines()) == (0, COUNTED)


@pytest.mark.usefixtures("terminal")
def test_what_goes_to_the_screen_or_is_short_tells_nothing(
    rfplan: Run, plan: str, tmp_path: Path
) -> None:
    assert rfplan("sheet", plan, "all").err == ""
    assert rfplan("sheet", plan, "spacing", "-o", str(tmp_path / "one.txt")).err == ""


def test_a_pipe_is_told_nothing(rfplan: Run, plan: str, tmp_path: Path) -> None:
    assert rfplan("sheet", plan, "-o", str(tmp_path / "all.txt")).err == ""
    assert rfplan("package", plan, "-o", str(tmp_path / "a.zip")).err == ""
