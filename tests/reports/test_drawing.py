# SPDX-License-Identifier: Apache-2.0
"""A page being drawn: what is cut off where, which texts are kept, and how wide they stand."""

from __future__ import annotations

from hypothesis import given
from hypothesis import strategies as st
from sheet_tables import HOSTILE

from rfplan.reports.drawing import Drawing, box, fitted, text_width

INSIDE = box((10.0, 10.0), (20.0, 20.0))


@given(st.text(max_size=60), st.floats(1.0, 100.0))
def test_a_fitted_text_is_no_wider_than_its_room(text: str, room: float) -> None:
    assert text_width(fitted(text, 2.5, room), 2.5) <= max(room, text_width("...", 2.5)) + 1e-9


def test_what_is_cut_off_ends_with_the_line_it_is_cut_off_at() -> None:
    drawing = Drawing(100.0, 50.0)
    drawing.line((0.0, 0.0), (1.0, 1.0))
    with drawing.within(INSIDE):
        drawing.circle((2.0, 2.0), 1.0)
        with drawing.within(INSIDE[:3]):
            drawing.rect((1.0, 1.0), (1.0, 1.0))
    drawing.line((1.0, 1.0), (0.0, 0.0))
    inside = [shape.inside for shape in drawing.picture().shapes]
    assert inside == [(), (INSIDE,), (INSIDE, INSIDE[:3]), ()]


def test_a_text_is_made_fit_to_show_and_nothing_is_no_text() -> None:
    drawing = Drawing(100.0, 50.0)
    drawing.text((1.0, 2.0), HOSTILE, 2.5)
    drawing.text((1.0, 2.0), " ", 2.5)
    (text,) = drawing.picture().texts
    assert text.text.isprintable() and r"\u202e" in text.text


def test_lines_without_points_leave_no_trace() -> None:
    drawing = Drawing(100.0, 50.0)
    drawing.outline([])
    drawing.runs([])
    assert drawing.picture().shapes == ()
