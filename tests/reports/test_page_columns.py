# SPDX-License-Identifier: Apache-2.0
"""Columns on a page: under shared words, folded where too many, and every one is there."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from rfplan.reports.cells import nothing, words
from rfplan.reports.heading import signature
from rfplan.reports.page_columns import (
    LONGEST_WHOLE,
    Group,
    folds,
    groups,
    pieces_of,
    without_empty,
)
from rfplan.reports.sheet import Column, Table


def numbers(*titles: str, unit: str = "dB") -> list[Column]:
    return [Column(title, title, unit, "right") for title in titles]


def texts(*titles: str) -> list[Column]:
    return [Column(title, title) for title in titles]


def of_width(width: int, columns: int, stub: int = 1) -> Table:
    """Return a table of one row whose cells are one word of some width each."""
    named = tuple(Column(f"c{number}", "") for number in range(columns))
    return Table("t", "T", named, (tuple(words("x" * width) for _ in named),), stub)


# --- groups -------------------------------------------------------------------------------------


def test_columns_that_begin_with_the_same_words_share_a_heading_and_a_unit() -> None:
    (group,) = groups(numbers("margin to min", "margin to max"))
    assert group == Group("margin to", "dB", (0, 1), ("min", "max"))


def test_a_shared_heading_ends_where_the_words_do() -> None:
    told = groups(numbers("judged least", "judged most", "margin to min", "margin to max", "loss"))
    assert [(group.title, group.titles) for group in told] == [
        ("judged", ("least", "most")),
        ("margin to", ("min", "max")),
        ("loss", ()),
    ]


def test_a_comma_behind_the_shared_words_goes() -> None:
    (group,) = groups(texts("label, from end", "label, to end"))
    assert (group.title, group.titles) == ("label", ("from end", "to end"))


def test_different_units_stand_over_their_own_columns() -> None:
    (group,) = groups([*numbers("least power"), *numbers("least level", unit="dBm")])
    assert (group.title, group.unit) == ("least", "")


def test_equal_titles_have_nothing_to_add_and_stay_apart() -> None:
    assert [group.columns for group in groups(texts("antenna", "antenna"))] == [(0,), (1,)]


def test_where_a_number_holds_stands_under_the_heading_of_the_number() -> None:
    columns = [*numbers("min corner"), *numbers("at", unit="degC"), *numbers("at", unit="MHz")]
    assert groups(columns) == [Group("min corner", "", (0, 1, 2), ("", "at", "at"))]
    assert [group.columns for group in groups([*texts("state"), *numbers("at")])] == [(0,), (1,)]


# --- folds --------------------------------------------------------------------------------------


def test_a_table_that_fits_is_not_folded() -> None:
    assert [len(fold) for fold in folds(of_width(8, 5), page=50)] == [5]
    assert [len(fold) for fold in folds(of_width(8, 6), page=50)] == [5, 2]


def test_every_fold_begins_with_the_columns_that_name_a_row() -> None:
    told = folds(of_width(8, 9, stub=2), page=50)
    assert [[group.columns[0] for group in fold] for fold in told] == [
        [0, 1, 2, 3, 4],
        [0, 1, 5, 6, 7],
        [0, 1, 8],
    ]


def test_a_column_wider_than_the_page_stands_alone_beside_the_stub() -> None:
    assert [len(fold) for fold in folds(of_width(24, 3), page=30)] == [2, 2]


def test_prose_gives_way_only_where_that_saves_a_fold() -> None:
    prose = words("a sentence that can be broken at any of its words")
    table = Table("t", "T", tuple(texts("a", "b", "c")), ((prose,) * 3,))
    assert [len(folds(table, page)) for page in (60, 50, 40)] == [1, 1, 2]


def test_a_place_to_write_in_takes_its_room() -> None:
    table = Table("t", "T", tuple(texts("a", "b", "c")), ((words("x"), signature(), signature()),))
    assert [len(folds(table, page)) for page in (37, 36)] == [1, 2]


@pytest.mark.parametrize(("page", "folded"), [(60, [4]), (34, [3, 2]), (20, [3, 2, 2, 2])])
def test_columns_under_one_heading_are_parted_only_if_no_page_holds_them(
    page: int, folded: list[int]
) -> None:
    titles = ("nominal low", "nominal middle", "nominal high")
    columns = (*texts("path", "radio", "band"), *numbers(*titles))
    table = Table("t", "T", columns, (tuple(words("1.25") for _ in columns),))
    assert [len(fold) for fold in folds(table, page)] == folded


@given(
    st.lists(st.integers(1, 40), min_size=1, max_size=30), st.integers(1, 3), st.integers(1, 200)
)
def test_every_column_stands_in_exactly_one_fold(widths: list[int], stub: int, page: int) -> None:
    stub = min(stub, len(widths))
    columns = tuple(Column(f"c{number}", "") for number in range(len(widths)))
    table = Table("t", "T", columns, (tuple(words("x" * width) for width in widths),), stub)
    told = [[column for group in fold for column in group.columns] for fold in folds(table, page)]
    assert all(fold[:stub] == list(range(stub)) for fold in told)
    assert [column for fold in told for column in fold[stub:]] == list(range(stub, len(widths)))


# --- pieces -------------------------------------------------------------------------------------


@pytest.mark.parametrize(
    ("word", "pieces"),
    [
        ("-1575.42", ["-1575.42"]),
        ("MIL-PRF-39012", ["MIL-PRF-39012"]),
        ("RF501/gnss1+satcom/design", ["RF501/", "gnss1+", "satcom/", "design"]),
        ("x" * 60, ["x" * 24, "x" * 24, "x" * 12]),
    ],
)
def test_a_word_breaks_behind_its_joints_and_only_if_it_is_long(
    word: str, pieces: list[str]
) -> None:
    assert pieces_of(word) == pieces


@given(st.text(alphabet="ab-_/+.,\u4e2d", max_size=120))
def test_pieces_make_up_the_word_and_none_is_too_long(word: str) -> None:
    pieces = pieces_of(word)
    assert "".join(pieces) == word
    assert all(0 < len(piece) <= 2 * LONGEST_WHOLE for piece in pieces if word)


def test_columns_that_are_empty_in_every_row_are_left_out_and_named() -> None:
    columns = tuple(Column(title, title) for title in ("id", "bend", "at", "route"))
    rows = tuple((words(id), nothing(), nothing(), words("a")) for id in ("w1", "w2"))
    smaller, told = without_empty(Table("t", "T", columns, rows))
    assert [column.title for column in smaller.columns] == ["id", "route"]
    assert [[cell.text for cell in row] for row in smaller.rows] == [["w1", "a"], ["w2", "a"]]
    assert told == "Empty in every row: bend."


def test_what_is_unknown_or_names_a_row_is_never_left_out() -> None:
    columns = tuple(Column(title, title) for title in ("id", "loss"))
    for rows in ((), ((nothing(), nothing("?")),)):
        table = Table("t", "T", columns, rows)
        assert without_empty(table) == (table, "")
