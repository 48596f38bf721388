# SPDX-License-Identifier: Apache-2.0
"""Columns fill the page at most, and no text is lost where it is broken into lines."""

from __future__ import annotations

from hypothesis import given
from hypothesis import strategies as st

from rfplan.reports.cells import words
from rfplan.reports.page_columns import folds
from rfplan.reports.page_setting import lines_of, setting
from rfplan.reports.sheet import Column, Table

TEXTS = st.text(st.characters(codec="ascii", exclude_categories=["C"]), max_size=60)


def by_letters(text: str, bold: bool = False) -> float:
    """Measure a text in letters, a fifth wider in bold."""
    return len(text) * (1.2 if bold else 1.0)


def a_table(*rows: tuple[str, ...], stub: int = 1) -> Table:
    columns = tuple(Column(f"c{n}", f"title {n}") for n in range(len(rows[0])))
    cells = tuple(tuple(words(text) for text in row) for row in rows)
    return Table("t", "Table", columns, cells, stub)


@given(TEXTS, st.integers(1, 40))
def test_breaking_a_text_loses_nothing_and_no_line_is_too_wide(text: str, room: int) -> None:
    lines = lines_of(text, room, by_letters)
    assert "".join("".join(lines).split()) == "".join(text.split())
    assert max(map(len, lines)) <= room


def test_a_text_is_broken_at_blanks_then_behind_joints() -> None:
    assert lines_of("one two three", 8, by_letters) == ["one two", "three"]
    assert lines_of("catalog/cables/rg_400_u.yaml", 16, by_letters)[0] == "catalog/cables/"


def test_columns_are_as_wide_as_their_texts_where_there_is_room() -> None:
    table = a_table(("a", "a longer text"), ("bb", "c"))
    (fold,) = folds(table)
    found = setting(table, fold, 100.0, 1.0, by_letters)
    assert found.columns == (0, 1)
    assert found.widths == (6.0, 14.0)
    assert found.width_of([1]) == 14.0


@given(st.text("abcdefgh", min_size=1, max_size=12), st.floats(0.1, 3.0), st.floats(0.1, 9.0))
def test_a_text_is_whole_in_a_column_made_as_wide_as_it(text: str, one: float, gap: float) -> None:
    def measure(text: str, bold: bool = False) -> float:
        return len(text) * one

    width = measure(text) + gap
    assert lines_of(text, width - gap, measure) == [text]


@given(st.lists(st.tuples(TEXTS, TEXTS, TEXTS), min_size=1, max_size=4), st.integers(20, 120))
def test_columns_never_take_more_than_the_page(rows: list[tuple[str, ...]], room: int) -> None:
    table = a_table(*rows)
    for fold in folds(table):
        widths = setting(table, fold, room, 1.0, by_letters).widths
        assert sum(widths) <= room + 0.1
        assert min(widths) > 0.0


def test_what_gives_way_is_the_widest_text() -> None:
    table = a_table(("key", "word " * 40, "short"))
    (fold,) = folds(table)
    first, prose, last = setting(table, fold, 60.0, 1.0, by_letters).widths
    assert (first, last) == (6.0, 6.0)
    assert prose == 48.0


def test_a_blank_to_fill_in_gets_room_for_a_hand() -> None:
    table = a_table(("key", "____"))
    (fold,) = folds(table)
    assert setting(table, fold, 100.0, 1.0, by_letters).widths[1] > 12.0
