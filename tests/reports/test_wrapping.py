# SPDX-License-Identifier: Apache-2.0
"""Text is broken at spaces, fits the width, and loses no character."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from rfplan.reports.wrapping import display_width, padded, wrapped


@pytest.mark.parametrize(
    ("text", "width", "lines"),
    [
        ("one two three", 7, ["one two", "three"]),
        ("", 5, [""]),
        ("abcdefgh", 3, ["abc", "def", "gh"]),
        ("ab cdefgh i", 4, ["ab", "cdef", "gh i"]),
    ],
)
def test_lines_break_at_spaces_and_inside_words_only_where_they_must(text, width, lines) -> None:
    assert wrapped(text, width) == lines


@given(st.text("ab \u4e2d\u0301", max_size=60), st.integers(2, 20))
def test_every_line_fits_and_every_character_is_there(text: str, width: int) -> None:
    lines = wrapped(text, width)
    assert all(display_width(line) <= width for line in lines)
    assert "".join(lines).replace(" ", "") == text.replace(" ", "")


def test_wide_characters_count_twice_and_combining_ones_not_at_all() -> None:
    assert display_width("a\u4e2d") == 3
    assert display_width("e\u0301") == 1


def test_padding_goes_to_the_other_side() -> None:
    assert padded("1.5", 5, "right") == "  1.5"
    assert padded("\u4e2d", 4, "left") == "\u4e2d  "
