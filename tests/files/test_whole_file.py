# SPDX-License-Identifier: Apache-2.0
"""A file is written whole or not at all, and never over another unasked."""

from __future__ import annotations

import os
from pathlib import Path

import pytest

from rfplan.files.whole_file import write_whole


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


def test_a_file_that_is_there_stays_unless_asked(tmp_path: Path) -> None:
    path = tmp_path / "sheet.txt"
    path.write_text("old")
    assert refusal(path) == "the file is there already"
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
