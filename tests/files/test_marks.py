# SPDX-License-Identifier: Apache-2.0
"""A file becomes a document that knows its name, its line ends and its ids."""

from __future__ import annotations

from pathlib import Path

import pytest

from rfplan.files.marks import Mark, is_id, parse, read
from rfplan.files.problems import ProblemsError

pytestmark = pytest.mark.usefixtures("each_yaml_loader")


@pytest.mark.parametrize(
    "character", ["\0", "\x07", "\x1b", "\x7f", "\x85", "\u2028", "\ud800", "\ufeff", "\uffff"]
)
def test_a_character_that_upsets_lines_or_screens_is_refused_at_its_place(character: str) -> None:
    with pytest.raises(ProblemsError) as caught:
        parse(f"a: 1\nb: x{character}y\n", "plan.yaml")
    escape = f"\\u{ord(character):04x}"
    assert str(caught.value) == (
        f"plan.yaml:2:5: the character {escape} is not allowed in a file; "
        "expected characters that can be seen"
    )


def test_a_file_is_read_with_its_name_line_ends_and_byte_order_mark(tmp_path: Path) -> None:
    path = tmp_path / "plan.yaml"
    path.write_bytes("\ufeffa: é\r\nb: 2\r\n".encode())
    read_document = read(path, "plan.yaml")
    assert read_document.file == "plan.yaml"
    assert read_document.text == "a: é\r\nb: 2\r\n"
    assert read_document.newline == "\r\n"
    assert read_document.bom
    assert read_document.root.mark == Mark(1, 1, 0, 10)


def test_a_file_without_display_name_is_named_by_its_path(tmp_path: Path) -> None:
    with pytest.raises(ProblemsError, match="there is no such file") as caught:
        read(tmp_path / "plan.yaml")
    assert caught.value.problems[0].file == str(tmp_path / "plan.yaml")


@pytest.mark.parametrize(
    ("text", "newline"), [("a: 1", "\n"), ("a: 1\r\n", "\r\n"), ("a: 1\n", "\n")]
)
def test_the_line_end_is_the_first_one_in_the_file(text: str, newline: str) -> None:
    assert parse(text, "x").newline == newline
    assert not parse(text, "x").bom


@pytest.mark.parametrize("text", ["a", "nav1", "rg_58c_u", "a" * 40])
def test_snake_case_is_an_id(text: str) -> None:
    assert is_id(text)


@pytest.mark.parametrize("text", ["", "1a", "_a", "Nav", "a-b", "a b", "a\n", "é", "a" * 41])
def test_anything_else_is_no_id(text: str) -> None:
    assert not is_id(text)
