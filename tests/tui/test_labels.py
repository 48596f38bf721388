# SPDX-License-Identifier: Apache-2.0
from __future__ import annotations

from dataclasses import replace

from hypothesis import given, settings
from hypothesis import strategies as st

from rfplan.tui.labels import Board, Label, Mark, Side, place_labels
from rfplan.tui.layout import Area

AREA = Area(2, 7, 9, 60)

cells = st.tuples(
    st.integers(AREA.row, AREA.row + AREA.rows - 1),
    st.integers(AREA.column, AREA.column + AREA.columns - 1),
)
names = st.text("abcdefgh12", min_size=1, max_size=8)
sides = st.sampled_from(Side)


@st.composite
def antenna_sets(draw: st.DrawFn) -> list[Mark]:
    rows = draw(st.lists(st.tuples(cells, names, sides), max_size=25))
    chosen = draw(st.integers(0, 30))
    return [
        Mark(f"a{index}", *cell, name, index == chosen, side)
        for index, (cell, name, side) in enumerate(rows)
    ]


def placed(marks: list[Mark], words: set[tuple[int, int]] = frozenset()) -> list[Label]:  # type: ignore[assignment]
    return place_labels(Board(AREA, [(mark.row, mark.column) for mark in marks], words), marks)


def letters(label: Label) -> set[tuple[int, int]]:
    return {(label.row, column) for column in label.columns}


def padded(label: Label) -> set[tuple[int, int]]:
    return {(label.row, column) for column in range(label.column - 1, label.columns.stop + 1)}


@settings(max_examples=500, deadline=None)
@given(marks=antenna_sets())
def test_no_name_overlaps_another_or_covers_a_sign(marks: list[Mark]) -> None:
    labels = placed(marks)
    signs = {(mark.row, mark.column) for mark in marks}
    for index, label in enumerate(labels):
        assert not padded(label) & signs
        for other in labels[:index]:
            assert not padded(label) & letters(other)
        assert all(AREA.holds(*cell) for cell in letters(label))


@settings(max_examples=200, deadline=None)
@given(marks=antenna_sets())
def test_only_the_selected_name_stands_two_rows_away(marks: list[Mark]) -> None:
    by_id = {mark.id: mark for mark in marks}
    for label in placed(marks):
        mark = by_id[label.id]
        assert label.name == mark.name
        assert abs(label.row - mark.row) <= (2 if mark.selected else 1)


def test_a_lone_name_stands_right_of_its_sign_with_a_blank_between() -> None:
    assert placed([Mark("a", 5, 20, "com1")]) == [Label("a", 5, 22, "com1")]


def test_a_name_prefers_the_side_where_a_view_has_room() -> None:
    above, below = (placed([Mark("a", 5, 20, "com1", side=side)])[0] for side in list(Side)[1:])
    assert (above.row, above.column) == (4, 18)
    assert (below.row, below.column) == (6, 18)


def test_a_name_at_the_right_edge_goes_left() -> None:
    assert placed([Mark("a", 5, 64, "com1")]) == [Label("a", 5, 59, "com1")]


def test_the_selected_name_is_placed_first() -> None:
    first, other = Mark("a", 5, 20, "gnss1"), Mark("b", 5, 26, "com1", selected=True)
    labels = placed([first, other])
    assert labels[0] == placed([other])[0]
    assert labels[0].id == "b"


def test_a_name_does_not_stand_midway_between_its_sign_and_another() -> None:
    labels = placed([Mark("a", 5, 20, "com1"), Mark("b", 5, 27, "x")])
    assert labels[0] != Label("a", 5, 22, "com1")


def test_a_sign_that_is_hemmed_in_stays_bare() -> None:
    words = {(row, column) for row in range(2, 11) for column in range(7, 67)} - {(5, 20)}
    assert placed([Mark("a", 5, 20, "com1", selected=True)], words) == []


def test_the_selected_name_keeps_a_blank_of_its_own_from_the_next_name() -> None:
    one, other, words = Mark("a", 5, 20, "abcdef"), Mark("b", 5, 34, "com1"), {(5, 36)}
    assert placed([one, other], words)[1] == Label("b", 5, 29, "com1")
    assert placed([replace(one, selected=True), other], words)[1].row == 4
