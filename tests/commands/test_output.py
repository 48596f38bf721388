# SPDX-License-Identifier: Apache-2.0
"""A file that a command writes is whole or not there, and never another's."""

from __future__ import annotations

import os
import sys
from argparse import Namespace
from pathlib import Path

import pytest
from command_line import Run

from rfplan.commands.output import complain, deliver, deliver_file, say, text_width


def test_a_new_file_holds_the_text_with_one_newline_at_its_end(tmp_path: Path) -> None:
    for name, text in (("a", "x"), ("b", "x\n"), ("c", "x\r\n")):
        assert deliver(text, Namespace(output=str(tmp_path / name), force=False), 0) == 0
    assert [(tmp_path / name).read_bytes() for name in "abc"] == [b"x\n", b"x\n", b"x\r\n"]
    assert sorted(os.listdir(tmp_path)) == ["a", "b", "c"]


@pytest.mark.parametrize("name", ["a\0b", "x" * 5000])
def test_a_name_that_no_system_takes_is_said(
    name: str, tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    options = Namespace(output=str(tmp_path / name), force=False)
    assert deliver("text", options, 0) == 2
    assert "not written: " in capsys.readouterr().err


def test_what_no_screen_can_show_asks_for_a_file(
    tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    assert deliver_file(b"\xff\x00", Namespace(output=None, force=False), 0) == 2
    assert capsys.readouterr() == (
        "",
        "rfplan: this is no text for a screen; name a file with -o FILE\n",
    )
    path = tmp_path / "sheet.pdf"
    assert deliver_file(b"\xff\x00", Namespace(output=str(path), force=False), 1) == 1
    assert path.read_bytes() == b"\xff\x00"


def test_a_written_answer_keeps_the_exit_code_and_prints_nothing(
    rfplan: Run, tmp_path: Path
) -> None:
    path = tmp_path / "rules.txt"
    answer = rfplan("rules", "-o", str(path))
    assert (answer.code, answer.out, answer.err) == (0, "", "")
    assert path.read_text("utf-8").startswith("Rules\n")
    again = rfplan("rules", "-o", str(path))
    assert (again.code, again.out) == (2, "")
    assert (
        again.err == f"rfplan: {path} not written: the file is there already; --force replaces it\n"
    )
    assert rfplan("rules", "-o", str(path), "--force").code == 0


def test_a_file_does_not_depend_on_the_screen(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setenv("COLUMNS", "60")
    assert text_width(Namespace(output=None)) == 60
    assert text_width(Namespace(output="sheet.txt")) == 100


def test_a_screen_that_the_shell_has_closed_is_no_fault(
    monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    monkeypatch.setattr(sys, "stdout", None)
    say("text")
    assert capsys.readouterr().err == ""


def test_a_message_keeps_its_lines_and_nothing_that_a_terminal_acts_on(
    capsys: pytest.CaptureFixture[str],
) -> None:
    complain("first\nsecond \x1b[31m\u202e")
    assert capsys.readouterr().err == "first\nsecond \\u001b[31m\\u202e\n"
