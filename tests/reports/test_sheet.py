# SPDX-License-Identifier: Apache-2.0
"""Nothing that cannot be seen gets into a sheet, and rows follow their columns."""

from __future__ import annotations

import pickle

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from rfplan.reports.cells import words
from rfplan.reports.sheet import (
    LONGEST_TEXT,
    Cell,
    Column,
    Sheet,
    Table,
    number_field,
    table,
    text_field,
)

HOSTILE = "a\x1b[31m\n\u202eb\u200bc\ud800"
SHOWN = r"a\u001b[31m\u000a\u202eb\u200bc\ud800"


def test_a_cell_shows_the_unseen_as_escapes_in_text_and_value() -> None:
    assert words(HOSTILE) == Cell(SHOWN, SHOWN)


def test_every_other_text_of_a_sheet_is_made_visible_too() -> None:
    sheet = Sheet("k", HOSTILE, ((HOSTILE, words("x")),), (), (HOSTILE,))
    assert (sheet.title, sheet.header[0][0], sheet.notes) == (SHOWN, SHOWN, (SHOWN,))
    assert Table("k", HOSTILE, (), ()).title == SHOWN
    assert Column("k", HOSTILE).title == SHOWN


@settings(max_examples=100, deadline=None)
@given(st.text(st.characters(codec=None), max_size=60))
def test_no_text_whatever_leaves_a_cell_unprintable(text: str) -> None:
    assert Cell(text).text.isprintable()


def test_a_very_long_text_is_cut() -> None:
    assert len(words("x" * 10 * LONGEST_TEXT).text) == LONGEST_TEXT


def test_a_heading_tells_the_unit_that_its_cells_leave_out() -> None:
    assert Column("loss", "loss", "dB").heading == "loss [dB]"
    assert Column("path", "path").heading == "path"


def test_a_table_has_one_row_a_thing_with_the_cells_under_their_columns() -> None:
    fields = [
        text_field("word", "word", lambda thing: words(str(thing))),
        number_field("double", "double", "m", lambda thing: words(str(2 * thing))),
    ]
    made = table("t", "T", fields, [1, 2])
    assert [column.key for column in made.columns] == ["word", "double"]
    assert [column.align for column in made.columns] == ["left", "right"]
    assert [[cell.text for cell in row] for row in made.rows] == [["1", "2"], ["2", "4"]]


def test_a_cell_never_changes_and_travels_between_processes() -> None:
    cell = words("PASS", "PASS")
    with pytest.raises(AttributeError):
        cell.text = "FAIL"  # type: ignore[misc]
    assert pickle.loads(pickle.dumps(cell)) == cell
