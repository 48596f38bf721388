# SPDX-License-Identifier: Apache-2.0
"""A file is replaced whole, with mode and link kept, or it stays as it was."""

from __future__ import annotations

import errno
import os
from pathlib import Path

import pytest

from rfplan.files.replacing import NotSavedError, is_read_only, replace_file


def put(path: Path, content: bytes) -> None:
    """Replace a file."""
    with replace_file(path, content) as put_in_place:
        put_in_place()


@pytest.fixture
def file(tmp_path: Path) -> Path:
    """Return a file with old content in a folder of its own."""
    folder = tmp_path / "folder"
    folder.mkdir()
    path = folder / "plan.yaml"
    path.write_bytes(b"old")
    return path


def test_the_new_content_takes_the_place_of_the_old_and_nothing_else_is_left(file: Path) -> None:
    with replace_file(file, b"new") as put_in_place:
        assert file.read_bytes() == b"old"
        put_in_place()
    assert file.read_bytes() == b"new"
    assert os.listdir(file.parent) == [file.name]


def test_without_being_put_in_place_it_is_given_up(file: Path) -> None:
    with replace_file(file, b"new"):
        pass
    assert file.read_bytes() == b"old"
    assert os.listdir(file.parent) == [file.name]


@pytest.mark.parametrize("mode", [0o600, 0o640, 0o664])
def test_the_mode_is_kept(file: Path, mode: int) -> None:
    file.chmod(mode)
    put(file, b"new")
    assert file.stat().st_mode & 0o777 == mode


def test_a_link_stays_a_link_to_the_file_that_it_names(file: Path, tmp_path: Path) -> None:
    link = tmp_path / "link.yaml"
    link.symlink_to(file)
    put(link, b"new")
    assert link.is_symlink()
    assert file.read_bytes() == b"new"
    assert sorted(os.listdir(tmp_path)) == ["folder", "link.yaml"]


@pytest.mark.parametrize("code", [errno.ENOSPC, errno.EDQUOT])
def test_on_a_full_disk_the_old_content_stays_and_the_reason_is_told(
    file: Path, monkeypatch: pytest.MonkeyPatch, code: int
) -> None:
    def full(_: int) -> None:
        raise OSError(code, os.strerror(code))

    monkeypatch.setattr(os, "fsync", full)
    with pytest.raises(NotSavedError, match=r"plan\.yaml: the disk is full"):
        put(file, b"new")
    assert file.read_bytes() == b"old"
    assert os.listdir(file.parent) == [file.name]


def test_a_folder_that_is_gone_is_told(tmp_path: Path) -> None:
    with pytest.raises(NotSavedError, match="no such file or directory"):
        put(tmp_path / "gone" / "plan.yaml", b"new")


def test_a_file_marked_read_only_is_so_even_for_root(file: Path) -> None:
    assert not is_read_only(file)
    file.chmod(0o444)
    assert is_read_only(file)


def test_what_a_link_names_decides_whether_it_is_read_only(file: Path, tmp_path: Path) -> None:
    link = tmp_path / "link.yaml"
    link.symlink_to(file)
    file.chmod(0o444)
    assert is_read_only(link)


def test_a_new_file_in_a_folder_that_is_there_is_not_read_only(tmp_path: Path) -> None:
    assert not is_read_only(tmp_path / "new.yaml")
    assert is_read_only(tmp_path / "gone" / "new.yaml")
