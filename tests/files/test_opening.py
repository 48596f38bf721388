# SPDX-License-Identifier: Apache-2.0
"""A file that cannot be read is refused with one problem that says why."""

from __future__ import annotations

import codecs
import os
from pathlib import Path

import pytest

from rfplan.files.opening import MAX_BYTES, read_text
from rfplan.files.problems import ProblemsError


def refusal(path: Path) -> str:
    with pytest.raises(ProblemsError) as caught:
        read_text(path, "plan.yaml")
    (problem,) = caught.value.problems
    return str(problem)


def written(folder: Path, content: bytes) -> Path:
    path = folder / "plan.yaml"
    path.write_bytes(content)
    return path


def test_line_ends_and_byte_order_mark_come_through_unchanged(tmp_path: Path) -> None:
    path = written(tmp_path, "\ufeffa: é\r\nb: 😀\n".encode())
    assert read_text(path, "plan.yaml") == "\ufeffa: é\r\nb: 😀\n"


def test_a_missing_file_is_named(tmp_path: Path) -> None:
    assert refusal(tmp_path / "plan.yaml") == "plan.yaml:1:1: there is no such file"


def test_a_folder_is_refused(tmp_path: Path) -> None:
    assert refusal(tmp_path) == "plan.yaml:1:1: this is a folder; expected a file"


@pytest.mark.skipif(not hasattr(os, "mkfifo"), reason="this system has no named pipes")
def test_a_pipe_is_refused_without_waiting_for_it(tmp_path: Path) -> None:
    os.mkfifo(tmp_path / "pipe")
    assert (
        refusal(tmp_path / "pipe") == "plan.yaml:1:1: this is a pipe or a device; expected a file"
    )


def test_a_file_without_the_right_to_read_is_refused(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    path = written(tmp_path, b"a: 1")

    def refuse(*_: object, **__: object) -> None:
        raise PermissionError(13, "Permission denied")

    monkeypatch.setattr(Path, "open", refuse)
    assert "plan.yaml:1:1: the file may not be read" in refusal(path)


def test_a_path_that_no_system_accepts_is_refused(tmp_path: Path) -> None:
    assert "cannot be read: the path is not usable" in refusal(tmp_path / "a\0b")
    assert "cannot be read: " in refusal(tmp_path / ("x" * 5000))


def test_a_file_over_two_megabytes_is_refused_and_one_of_two_is_read(tmp_path: Path) -> None:
    assert len(read_text(written(tmp_path, b"#" * MAX_BYTES), "plan.yaml")) == MAX_BYTES
    message = refusal(written(tmp_path, b"#" * (MAX_BYTES + 1)))
    assert message == "plan.yaml:1:1: the file is too large; expected at most 2 MB"


@pytest.mark.parametrize(
    "content",
    [
        codecs.BOM_UTF16_LE + "a: 1".encode("utf-16-le"),
        codecs.BOM_UTF16_BE + "a: 1".encode("utf-16-be"),
        codecs.BOM_UTF32_LE + "a: 1".encode("utf-32-le"),
        codecs.BOM_UTF32_BE + "a: 1".encode("utf-32-be"),
    ],
)
def test_wide_encodings_are_named(tmp_path: Path, content: bytes) -> None:
    assert refusal(written(tmp_path, content)) == (
        "plan.yaml:1:1: the file is UTF-16 or UTF-32 text; expected plain UTF-8 text"
    )


def test_a_nul_byte_is_refused_at_its_place(tmp_path: Path) -> None:
    message = refusal(written(tmp_path, b"a: 1\r\nb: \0\n"))
    assert message == "plan.yaml:2:4: the file holds a NUL byte; expected plain UTF-8 text"


@pytest.mark.parametrize("mark", [b"", codecs.BOM_UTF8])
@pytest.mark.parametrize(("before", "place"), [("bé: ", "1:5"), ("a: é\nb: ", "2:4")])
def test_a_byte_that_is_not_utf8_is_refused_at_its_place(
    tmp_path: Path, mark: bytes, before: str, place: str
) -> None:
    message = refusal(written(tmp_path, mark + before.encode() + b"\xb5\n"))
    assert message == f"plan.yaml:{place}: the byte 0xb5 is not UTF-8; expected plain UTF-8 text"
