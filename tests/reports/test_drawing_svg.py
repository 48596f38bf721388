# SPDX-License-Identifier: Apache-2.0
"""The strokes of a drawing: numbers, escapes, widths, and labels that keep apart."""

from __future__ import annotations

import itertools
from xml.etree import ElementTree

import pytest
from hypothesis import given
from hypothesis import strategies as st
from sheet_tables import HOSTILE

from rfplan.reports.drawing_svg import Drawing, fitted, number, spread, text_width


def test_a_hostile_text_stays_text() -> None:
    drawing = Drawing(100.0, 50.0)
    drawing.text((1.0, 2.0), HOSTILE, 2.5)
    drawing.upright((1.0, 2.0), HOSTILE, 2.5)
    svg = drawing.svg(HOSTILE)
    root = ElementTree.fromstring(svg)
    assert svg.isascii()
    assert not [one for one in root.iter() if "script" in one.tag]
    texts = [one.text for one in root.iter() if one.tag.endswith("text")]
    assert all(one and "<script>alert(1)</script>" in one and one.isprintable() for one in texts)


@pytest.mark.parametrize(
    ("value", "text"), [(1.0, "1"), (-0.0001, "0"), (0.1 + 0.2, "0.3"), (12.3456, "12.346")]
)
def test_numbers_are_written_short_and_never_as_minus_zero(value: float, text: str) -> None:
    assert number(value) == text


@given(st.text(max_size=60), st.floats(1.0, 100.0))
def test_a_fitted_text_is_no_wider_than_its_room(text: str, room: float) -> None:
    assert text_width(fitted(text, 2.5, room), 2.5) <= max(room, text_width("...", 2.5)) + 1e-9


@given(st.lists(st.floats(0.0, 200.0), max_size=20).map(sorted), st.floats(1.0, 9.0))
def test_spread_labels_keep_their_gap_and_their_order(targets: list[float], gap: float) -> None:
    places = spread(targets, gap, 0.0, 200.0)
    assert len(places) == len(targets)
    for one, other in itertools.pairwise(places):
        assert other - one >= gap - 1e-9
    assert all(place >= -1e-9 for place in places)


def test_labels_with_room_enough_stay_where_they_belong() -> None:
    assert spread([10.0, 30.0, 50.0], 5.0, 0.0, 100.0) == [10.0, 30.0, 50.0]


def test_labels_of_one_place_stand_round_it() -> None:
    assert spread([50.0, 50.0, 50.0], 4.0, 0.0, 100.0) == [46.0, 50.0, 54.0]
