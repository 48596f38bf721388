# SPDX-License-Identifier: Apache-2.0
"""Markdown: tables keep their columns, and text from files stays text."""

from __future__ import annotations

import re

import pytest

from rfplan.reports.formats import markdown
from rfplan.reports.sheet import Sheet


def test_a_small_sheet_reads_as_markdown(small: Sheet) -> None:
    assert markdown.write(small) == (
        "# Small sheet\n"
        "\n"
        "- state: design\n"
        "\n"
        "## Paths\n"
        "\n"
        "| path | loss \\[dB\\] |\n"
        "| --- | ---: |\n"
        "| gnss1 | 2.86 |\n"
        "| com1 | ? |\n"
        "\n"
        "A note.\n"
        "\n"
    )


@pytest.mark.parametrize(
    ("text", "escaped"),
    [
        ("a|b", r"a\|b"),
        ("back\\slash", r"back\\slash"),
        ("\\|", r"\\\|"),
        ("<b>", r"\<b\>"),
        ("[a](b)", r"\[a\](b)"),
        ("`x` *y* _z_ ~w~", r"\`x\` \*y\* \_z\_ \~w\~"),
        ("&lt;", r"\&lt;"),
    ],
)
def test_markup_is_escaped(text: str, escaped: str) -> None:
    assert markdown.inline(text) == escaped


@pytest.mark.parametrize(
    ("text", "escaped"),
    [
        ("# head", r"\# head"),
        ("- item", r"\- item"),
        ("+ item", r"\+ item"),
        ("=====", r"\====="),
        ("1. item", r"1\. item"),
        ("12) item", r"12\) item"),
        ("1.5 dB", r"1\.5 dB"),
        ("> quote", r"\> quote"),
    ],
)
def test_a_line_cannot_become_a_list_a_rule_or_a_heading(text: str, escaped: str) -> None:
    assert markdown.line(text) == escaped


def test_a_hostile_sheet_keeps_its_one_column_and_its_lines(hostile: Sheet) -> None:
    lines = markdown.write(hostile).splitlines()
    rows = [line for line in lines if line.startswith("|")]
    assert len(rows) == 2 + len(hostile.tables[0].rows)
    for row in rows:
        assert len(re.findall(r"(?<!\\)(?:\\\\)*\|", row)) == 2
    assert all(line.isprintable() for line in lines)
    assert not any("<script>" in line for line in lines)
