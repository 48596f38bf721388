# SPDX-License-Identifier: Apache-2.0
"""Places on an aircraft, ranges of butt lines, and days."""

from __future__ import annotations

import math
from datetime import date
from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st
from unit_faults import fault

from rfplan.units import (
    LENGTH,
    UNKNOWN,
    Place,
    Range,
    parse_butt_range,
    parse_date,
    parse_place,
    show_place,
)


@pytest.mark.parametrize(
    ("text", "inches"),
    [
        ("94 L2 in", (94, -2, None)),
        ("94 l2 in", (94, -2, None)),
        ("94 -2 in", (94, -2, None)),
        ("94 \u22122 in", (94, -2, None)),
        ("94 R2.5 in", (94, 2.5, None)),
        ("94 0 in", (94, 0, None)),
        ("94 L0 in", (94, 0, None)),
        ("-3 L2in", (-3, -2, None)),
        ("60 L10 50 in", (60, -10, 50)),
        ("60 r10 -5.5 in", (60, 10, -5.5)),
    ],
)
def test_a_place_is_station_butt_line_and_water_line(text: str, inches: tuple[Any, ...]) -> None:
    place = parse_place(text)
    expected = tuple(None if part is None else part * 0.0254 for part in inches)
    assert (place.fs_m, place.bl_m) == pytest.approx(expected[:2])
    assert place.wl_m is expected[2] or place.wl_m == pytest.approx(expected[2])
    assert math.copysign(1.0, place.bl_m) == 1.0 or place.bl_m < 0.0


def test_a_place_may_be_typed_without_its_unit_only_where_one_is_set() -> None:
    assert parse_place("118 l6", default_unit="in") == parse_place("118 L6 in")
    assert parse_place("118 l6 cm", default_unit="in") == parse_place("118 L6 cm")
    assert fault(parse_place, "118 l6") == "the unit is missing"


@pytest.mark.parametrize(
    "text", ["94 in", "94 L2 50 60 in", "94 L-2 in", "94 2L in", "94  L2 in", "94,L2 in", "?", ""]
)
def test_other_texts_are_no_place(text: str) -> None:
    assert fault(parse_place, text)


@pytest.mark.parametrize("text", ["7 ft 2 in L2 in", "94 L2 1/2 in", "7'2\" L2 in"])
def test_a_place_with_feet_inches_is_refused_by_name(text: str) -> None:
    assert fault(parse_place, text).endswith("; feet-inches and fractions are not used inside one")


@pytest.mark.parametrize("text", ["94 L2 in", "60 L10 50 in", "94 0 in", "94 R2.5 -50 in"])
def test_a_place_is_shown_as_it_was_written(text: str) -> None:
    assert show_place(parse_place(text)) == text


@given(
    st.floats(-20, 60),
    st.floats(-9, 9),
    st.none() | st.floats(-9, 9),
    st.sampled_from([*LENGTH.units]),
)
def test_a_place_survives_being_shown(fs_m: float, bl_m: float, wl_m: float, unit: str) -> None:
    again = parse_place(show_place(Place(fs_m, bl_m, wl_m), unit))
    reach_m = 0.05 * 0.0254 if unit == "in" else 0.001
    assert (again.wl_m is None) == (wl_m is None)
    pairs = ((again.fs_m, fs_m), (again.bl_m, bl_m), (again.wl_m or 0.0, wl_m or 0.0))
    assert all(abs(one - other) <= reach_m * 1.0001 for one, other in pairs)


@pytest.mark.parametrize(
    ("text", "low_in", "high_in"),
    [
        ("L20 .. R20 in", -20, 20),
        ("L8 in .. R4 in", -8, 4),
        ("-8 .. 4 in", -8, 4),
        ("L24 .. L80 in", -80, -24),
        ("L8 in .. R10.16 cm", -8, 4),
        ("r9 .. 0 in", 0, 9),
    ],
)
def test_butt_lines_run_from_left_to_right(text: str, low_in: float, high_in: float) -> None:
    read = parse_butt_range(text)
    assert (read.low, read.high) == pytest.approx((low_in * 0.0254, high_in * 0.0254))


def test_butt_lines_are_missing_together_or_not_at_all() -> None:
    assert parse_butt_range("?") == Range(UNKNOWN, UNKNOWN)
    assert fault(parse_butt_range, "L20 .. ? in")
    assert fault(parse_butt_range, "L-8 .. 4 in")
    assert fault(parse_butt_range, "L20 .. R20") == "the unit is missing"


def test_a_date_is_a_day_of_the_calendar() -> None:
    assert parse_date("2024-02-29") == date(2024, 2, 29)
    assert fault(parse_date, "2026-02-30") == "the calendar has no day 2026-02-30"
    assert fault(parse_date, "25.11.2026") == "'25.11.2026' is not a date"
    assert fault(parse_date, "2026-11-2") == "'2026-11-2' is not a date"
