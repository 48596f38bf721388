# SPDX-License-Identifier: Apache-2.0
from __future__ import annotations

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from rfplan.tui.canvas import Canvas, Ink, Layer, Pen
from rfplan.tui.glyphs import ASCII, FULL, TIERS, Glyphs
from rfplan.tui.layout import Area
from rfplan.tui.raster import circle, stroke
from rfplan.tui.runs import Run
from rfplan.tui.tokens import Ground, Token

OUTLINE = Pen(Token.LINE, Layer.OUTLINE)
THICK = Pen(Token.LINE, Layer.OUTLINE, thick=True)
ROUTE = Pen(Token.ACCENT, Layer.ROUTE)


def canvas(glyphs: Glyphs = FULL) -> Canvas:
    return Canvas(4, 12, glyphs)


def line(*points: tuple[float, float]) -> np.ndarray:
    return np.array(points, dtype=float)


def looks(sheet: Canvas, row: int, column: int) -> tuple[str, Token, Ground]:
    for run in sheet.rows()[row]:
        if column < len(run.text):
            return run.text[column], run.token, run.ground
        column -= len(run.text)
    raise IndexError


def everything(sheet: Canvas) -> Canvas:
    """Draw something of each kind on one spot, the highest first."""
    spot = np.zeros((4, 12), dtype=bool)
    spot[1, 3:6] = True
    sheet.text(1, 4, "n", Ink(Token.BOLD))
    sheet.text(1, 4, "@", Ink(Token.FAIL, Layer.GLYPH))
    sheet.polyline(line((0, 6.5), (24, 6.5)), ROUTE)
    sheet.polyline(line((0, 5.5), (24, 5.5)), OUTLINE)
    sheet.hatch(spot, "X", Token.HATCH)
    sheet.tint(spot, Ground.ROOM_2)
    return sheet


def test_a_name_covers_a_sign_covers_a_line_covers_a_hatch_and_the_tint_lies_under_all() -> None:
    sheet = everything(canvas())
    assert looks(sheet, 1, 4) == ("n", Token.BOLD, Ground.ROOM_2)
    sign, token, ground = looks(sheet, 1, 3)
    assert (sign, token, ground) == ("⠶", Token.ACCENT, Ground.ROOM_2)
    assert looks(sheet, 1, 6)[2] is Ground.BG


def test_a_route_gives_the_ink_of_a_cell_it_shares_with_the_outline_whichever_comes_first() -> None:
    pens = (OUTLINE, ROUTE)
    for order in (pens, pens[::-1]):
        sheet = canvas()
        for pen in order:
            sheet.polyline(line((0, 1.5), (8, 1.5)), pen)
        assert looks(sheet, 0, 1)[1] is Token.ACCENT


def test_a_hatch_shows_only_where_nothing_else_is() -> None:
    sheet = canvas()
    sheet.polyline(line((0, 0.5), (4, 0.5)), OUTLINE)
    sheet.hatch(np.ones((4, 12), dtype=bool), "X", Token.HATCH)
    assert looks(sheet, 0, 1)[1] is Token.LINE
    assert looks(sheet, 2, 1)[:2] == ("X", Token.HATCH)


@pytest.mark.parametrize("glyphs", TIERS.values(), ids=lambda glyphs: glyphs.tier)
@given(text=st.text(max_size=30), row=st.integers(-1, 5), column=st.integers(-20, 20))
def test_every_row_is_exactly_as_wide_as_the_canvas(
    glyphs: Glyphs, text: str, row: int, column: int
) -> None:
    sheet = everything(canvas(glyphs))
    sheet.text(row, column, text, Ink(Token.NEAR, ground=Ground.SEL))
    for runs in sheet.rows():
        assert sum(len(run.text) for run in runs) == 12
        assert all(run.text.isprintable() for run in runs)


@given(text=st.text(max_size=12))
def test_text_of_the_ascii_tier_stays_ascii(text: str) -> None:
    sheet = everything(canvas(ASCII))
    sheet.text(0, 0, text, Ink(Token.TEXT))
    assert sheet.picture().text().isascii()


def test_a_wide_or_invisible_letter_becomes_a_question_mark() -> None:
    sheet = canvas()
    sheet.text(0, 0, "a字\x1b\u0301ö", Ink(Token.TEXT))
    assert sheet.picture().text().splitlines()[0] == "a???ö       "


def test_neighbours_of_one_look_make_one_run() -> None:
    sheet = canvas()
    sheet.text(0, 2, "com1", Ink(Token.NEAR, ground=Ground.SEL))
    assert sheet.rows()[0] == [
        Run("  ", Token.TEXT, Ground.BG),
        Run("com1", Token.NEAR, Ground.SEL),
        Run("      ", Token.TEXT, Ground.BG),
    ]


def test_a_thick_line_is_two_dots_across() -> None:
    across, down = stroke(line((0.5, 3.0), (9.5, 3.0)), thick=True)
    assert set(down.tolist()) == {2, 3}
    across, down = stroke(line((3.0, 0.5), (3.0, 9.5)), thick=True)
    assert set(across.tolist()) == {2, 3}


def test_only_the_full_tier_has_thick_lines() -> None:
    for glyphs, rows in ((FULL, 2), (ASCII, 1)):
        sheet = Canvas(4, 12, glyphs)
        sheet.polyline(line((0, 4.0), (24, 4.0)), THICK)
        drawn = [row for row in sheet.picture().text().splitlines() if row.strip()]
        assert len(drawn) == rows


@given(points=st.lists(st.tuples(st.floats(-50, 50), st.floats(-50, 50)), min_size=2, max_size=6))
def test_a_line_has_no_gap(points: list[tuple[float, float]]) -> None:
    across, down = stroke(line(*points))
    assert np.abs(np.diff(across)).max(initial=0) <= 1
    assert np.abs(np.diff(down)).max(initial=0) <= 1


def test_a_dash_leaves_its_gaps_out() -> None:
    across, _ = stroke(line((0.0, 0.5), (11.9, 0.5)), dash=(2.0, 2.0))
    assert sorted(set(across.tolist())) == [0, 1, 4, 5, 8, 9]


def test_nan_lifts_the_pen() -> None:
    across, _ = stroke(line((0.5, 0.5), (2.5, 0.5), (np.nan, np.nan), (7.5, 0.5), (9.5, 0.5)))
    assert sorted(set(across.tolist())) == [0, 1, 2, 7, 8, 9]


def test_a_line_of_nothing_draws_nothing() -> None:
    sheet = canvas()
    for points in (np.zeros((0, 2)), line((1, 1)), np.full((5, 2), np.nan)):
        sheet.polyline(points, THICK)
    assert sheet.picture().text().strip() == ""


@pytest.mark.parametrize("radius", [3.0, 7.3, 20.0, 41.9])
def test_a_circle_is_as_high_as_wide(radius: float) -> None:
    for axis in stroke(circle((100.0, 100.0), radius)):
        assert axis.max() - axis.min() == pytest.approx(2.0 * radius, abs=1.0)


def test_a_line_stays_inside_its_area() -> None:
    sheet = canvas()
    sheet.polyline(line((-1e9, -1e9), (-1e9, 1e9), (0, 4), (24, 4)), OUTLINE, Area(1, 3, 1, 4))
    cells = [
        (row, column)
        for row, text in enumerate(sheet.picture().text().splitlines())
        for column, sign in enumerate(text)
        if sign != " "
    ]
    assert cells == [(1, column) for column in range(3, 7)]


def test_a_copy_leaves_the_original_as_it_was() -> None:
    sheet = canvas()
    before = sheet.rows()
    everything(sheet.copy())
    assert sheet.rows() == before
