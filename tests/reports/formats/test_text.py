# SPDX-License-Identifier: Apache-2.0
"""Plain text: columns, never wider than asked, nothing a terminal could obey."""

from __future__ import annotations

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from rfplan.model.assessment import Assessment
from rfplan.reports.cells import words
from rfplan.reports.context import Context
from rfplan.reports.formats import FORMATS, text
from rfplan.reports.sheet import Column, Sheet, Table
from rfplan.reports.sheets import SHEETS
from rfplan.reports.wrapping import display_width


def test_a_small_sheet_reads_as_columns(small: Sheet) -> None:
    assert text.write(small) == (
        "Small sheet\n"
        "state  design\n"
        "\n"
        "Paths\n"
        "path   loss [dB]\n"
        "-----  ---------\n"
        "gnss1       2.86\n"
        "com1           ?\n"
        "\n"
        "A note.\n"
    )


def test_a_table_without_rows_says_none() -> None:
    empty = Sheet("k", "Title", (), (Table("t", "Table", (Column("a", "a"),), ()),), ())
    assert "Table\n  none\n" in text.write(empty)


def wide_table(columns: int) -> Sheet:
    heads = tuple(Column(f"c{number}", f"column {number}") for number in range(columns))
    row = tuple(words(f"cell{number}") for number in range(columns))
    return Sheet("k", "Title", (), (Table("t", "Table", heads, (row,)),), ())


def test_a_wide_table_is_folded_and_repeats_its_first_column() -> None:
    lines = text.write(wide_table(20), width=60).splitlines()
    assert max(map(len, lines)) <= 60
    assert sum(line.startswith("cell0 ") for line in lines) > 1
    shown = " ".join(lines)
    assert all(f"cell{number}" in shown for number in range(20))


def test_long_words_are_cut_rather_than_the_width_exceeded() -> None:
    row = (words("x" * 300),)
    sheet = Sheet("k", "y" * 200, (("z" * 90, words("w" * 200)),), (), ("n" * 200,))
    tabled = Sheet("k", "T", (), (Table("t", "T", (Column("a", "a"),), (row,)),), ())
    for one in (sheet, tabled):
        assert max(map(len, text.write(one, width=50).splitlines())) <= 50


@pytest.mark.parametrize("key", SHEETS)
@pytest.mark.parametrize("width", [40, 79, 100, 240])
def test_no_line_of_any_sheet_is_wider_than_asked(
    key: str, width: int, busy: Assessment, context: Context
) -> None:
    lines = text.write(SHEETS[key].build(busy, context), width=width).splitlines()
    assert max(map(display_width, lines)) <= width
    assert not any(line != line.rstrip() for line in lines)


def test_nothing_hostile_is_left_for_a_terminal(hostile: Sheet) -> None:
    for line in text.write(hostile).splitlines():
        assert line.isprintable()


@settings(max_examples=60, deadline=None)
@given(st.lists(st.text(max_size=80), min_size=1, max_size=6), st.integers(40, 120))
def test_no_text_whatever_breaks_the_width_or_the_terminal(texts: list[str], width: int) -> None:
    heads = tuple(Column(str(number), one) for number, one in enumerate(texts))
    table = Table("t", texts[0], heads, (tuple(words(one) for one in texts),))
    sheet = Sheet("k", texts[0], (), (table,), tuple(texts))
    for line in text.write(sheet, width=width).split("\n"):
        assert line.isprintable()
        assert display_width(line) <= width


def test_every_format_writes_every_sheet(busy: Assessment, context: Context) -> None:
    assert {"text", "markdown", "csv", "json"} <= set(FORMATS)
    for key, file in SHEETS.items():
        for name, writer in FORMATS.items():
            written = writer.write(file.build(busy, context))
            assert written.endswith("\n"), (key, name)
