# SPDX-License-Identifier: Apache-2.0
from __future__ import annotations

from hypothesis import given
from hypothesis import strategies as st

from rfplan.tui.runs import (
    Run,
    changed,
    cropped,
    filled,
    laid,
    merged,
    one_cell_each,
    row_cut,
    spread,
    text_of,
    width,
    words_cut,
)
from rfplan.tui.tokens import Ground, Token

runs = st.builds(
    Run,
    st.text(st.sampled_from("ab 1"), min_size=1, max_size=6),
    st.sampled_from([Token.TEXT, Token.DIM]),
    st.sampled_from([Ground.BG, Ground.SEL]),
)
rows = st.lists(runs, max_size=6)


def test_a_row_is_cut_at_cells() -> None:
    row = [Run("abc"), Run("def", Token.DIM)]
    assert cropped(row, 2, 5) == [Run("c"), Run("de", Token.DIM)]


def test_a_row_laid_over_another_hides_it_and_nothing_gets_longer() -> None:
    assert text_of(laid([Run("abcdefgh")], 2, [Run("XY")])) == "abXYefgh"
    assert text_of(laid([Run("abcd")], 3, [Run("XYZ")])) == "abcX"


@given(rows, st.integers(0, 40))
def test_a_filled_row_has_exactly_the_columns_asked_for(row: list[Run], columns: int) -> None:
    assert width(filled(row, columns)) == columns


@given(rows, rows, st.integers(0, 40))
def test_the_right_end_goes_before_the_left_is_cut(
    left: list[Run], right: list[Run], columns: int
) -> None:
    row = spread(left, right, columns)
    assert width(row) == columns
    assert text_of(row).startswith(text_of(left)[:columns])


@given(rows, rows)
def test_sending_the_changed_cells_alone_gives_the_new_picture(
    before: list[Run], after: list[Run]
) -> None:
    old, new = filled(before, 40), filled(after, 40)
    shown = old
    for span in changed([old], [new]):
        shown = laid(shown, span.start, cropped(new, span.start, span.stop))
    assert merged(shown) == merged(new)


def test_far_changes_in_a_row_are_sent_apart() -> None:
    old, new = [Run("a" * 60)], [Run("b" + "a" * 58 + "b")]
    assert [(span.start, span.stop) for span in changed([old], [new])] == [(0, 1), (59, 60)]


def test_words_are_never_cut_inside() -> None:
    assert words_cut("needs 30.0 in from satcom", 14, "…") == "needs 30.0 in…"
    assert words_cut("needs 30.0 in", 9, "…") == "needs…"
    assert words_cut("short", 9) == "short"


def test_what_takes_no_cell_or_two_shows_as_a_question_mark() -> None:
    assert one_cell_each("a\x1b[31mb\u202e\u4e2d", False) == "a?[31mb??"
    assert one_cell_each("√ 1", True) == "? 1"


def test_the_last_run_of_a_row_is_cut_between_words_and_the_rest_stays() -> None:
    row = [Run("Findings "), Run("12, 4 paths fail, advice 3")]
    assert text_of(row_cut(row, 27, "…")) == "Findings 12, 4 paths fail…"
    assert row_cut(row, 40) == row
