# SPDX-License-Identifier: Apache-2.0
"""A file that a command writes is whole or not there, and never another's."""

from __future__ import annotations

import os
import sys
from argparse import Namespace
from pathlib import Path

import pytest
from command_line import Run

from rfplan.commands.output import complain, deliver, deliver_file, say, text_width, write_whole


@pytest.fixture
def full_disk(monkeypatch: pytest.MonkeyPatch) -> None:
    """Let every file be written in part only."""

    def fail(_: int) -> None:
        raise OSError(28, "No space left on device")

    monkeypatch.setattr(os, "fsync", fail)


def refusal(path: Path, *, replace: bool = False) -> str:
    with pytest.raises(OSError, match=r"\w") as caught:
        write_whole(path, b"new", replace=replace)
    return str(caught.value.strerror)


def test_a_new_file_holds_the_text_with_one_newline_at_its_end(tmp_path: Path) -> None:
    for name, text in (("a", "x"), ("b", "x\n"), ("c", "x\r\n")):
        assert deliver(text, Namespace(output=str(tmp_path / name), force=False), 0) == 0
    assert [(tmp_path / name).read_bytes() for name in "abc"] == [b"x\n", b"x\n", b"x\r\n"]
    assert sorted(os.listdir(tmp_path)) == ["a", "b", "c"]


def test_a_file_that_is_there_stays_unless_forced(tmp_path: Path) -> None:
    path = tmp_path / "sheet.txt"
    path.write_text("old")
    assert refusal(path) == "the file is there already; --force replaces it"
    assert path.read_text() == "old"
    write_whole(path, b"new", replace=True)
    assert path.read_bytes() == b"new"


@pytest.mark.skipif(os.name != "posix", reason="file modes of this kind are POSIX")
def test_a_replaced_file_keeps_who_may_read_it(tmp_path: Path) -> None:
    path = tmp_path / "sheet.txt"
    path.write_text("old")
    path.chmod(0o640)
    write_whole(path, b"new", replace=True)
    assert path.stat().st_mode & 0o777 == 0o640


@pytest.mark.usefixtures("full_disk")
@pytest.mark.parametrize("before", [None, "old"])
def test_a_write_that_fails_leaves_everything_as_it_was(tmp_path: Path, before: str | None) -> None:
    path = tmp_path / "sheet.txt"
    if before is not None:
        path.write_text(before)
    assert refusal(path, replace=True) == "No space left on device"
    assert os.listdir(tmp_path) == ([] if before is None else ["sheet.txt"])
    assert before is None or path.read_text() == before


def test_a_missing_folder_and_a_folder_are_named(tmp_path: Path) -> None:
    missing = tmp_path / "no" / "sheet.txt"
    assert refusal(missing) == f"there is no folder {missing.parent}"
    assert refusal(tmp_path, replace=True) == "this is a folder"


@pytest.mark.skipif(not hasattr(os, "mkfifo"), reason="this system has no named pipes")
def test_what_is_no_ordinary_file_is_never_replaced(tmp_path: Path) -> None:
    os.mkfifo(tmp_path / "pipe")
    assert refusal(tmp_path / "pipe", replace=True) == "this is no ordinary file"
    assert (tmp_path / "pipe").is_fifo()


def test_a_link_that_leads_nowhere_is_not_replaced_unasked(tmp_path: Path) -> None:
    link = tmp_path / "link"
    try:
        link.symlink_to(tmp_path / "gone")
    except OSError:
        pytest.skip("this system lets nobody make links")
    assert "there already" in refusal(link)


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
