# SPDX-License-Identifier: Apache-2.0
"""Quantities written so that they read back, in the unit that an author uses."""

from __future__ import annotations

from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st

from rfplan.files.marks import parse
from rfplan.files.quantity_text import Author, unit_in
from rfplan.units import (
    BUTT_RANGE,
    FREQUENCY,
    LENGTH,
    LOSS,
    NONE,
    PLACE,
    TEMPERATURE,
    UNKNOWN,
    Kind,
    Place,
    Range,
    parse_butt_range,
    parse_place,
    parse_range,
)
from rfplan.units import parse as read

IN = 0.0254


def author(*texts: str) -> Author:
    """Return the author of a file that holds these texts."""
    lines = [f't{number}: "{text}"' for number, text in enumerate(texts)]
    return Author(parse("\n".join(["name: nobody", *lines]), "a.yaml").root)


@pytest.mark.parametrize(
    ("value", "kind", "present", "text"),
    [
        (2.54, LENGTH, "98 in", "100 in"),
        (2.54, LENGTH, "2.5 m", "2.54 m"),
        (2.54, LENGTH, "2500 mm", "2540 mm"),
        (93.5 * IN, LENGTH, "7 ft 2.5 in", "7 ft 9.5 in"),
        (96 * IN, LENGTH, "7 ft 11.5 in", "8 ft 0 in"),
        (93.5 * IN, LENGTH, "7 ft", "7.79166667 ft"),
        (1.09e9, FREQUENCY, "1575.42 MHz", "1090 MHz"),
        (70.0, TEMPERATURE, "50 degF", "158 degF"),
        (Place(94 * IN, -2 * IN, None), PLACE, "90 0 in", "94 L2 in"),
        (Place(94 * IN, 0.0, 1.27), PLACE, "90 0 40 in", "94 0 50 in"),
        (Place(1.0, 0.25, 0.5), PLACE, "0.9 0 0.4 m", "1 R0.25 0.5 m"),
        (Range(NONE, 2.5), LOSS, "1 .. 2 dB", "none .. 2.5 dB"),
        (Range(1.5, UNKNOWN), LOSS, "1 .. 2 dB", "1.5 .. ? dB"),
        (Range(-0.2032, 0.1016), BUTT_RANGE, "L5 .. R5 in", "L8 .. R4 in"),
    ],
)
def test_a_quantity_is_written_in_the_unit_that_stands_there(
    value: Any, kind: Kind, present: str, text: str
) -> None:
    assert author("5 cm", "4 cm").text(value, kind, present) == text


def test_a_new_quantity_is_written_in_the_commonest_unit_of_the_file() -> None:
    assert author("5 cm", "4 cm", "3 in").text(0.3, LENGTH, "") == "30 cm"
    assert author("98 .. 108 in", "94 L2 in", "3 cm").text(0.254, LENGTH, "") == "10 in"
    assert author().text(1.09e9, FREQUENCY, "") == "1090 MHz"
    assert author().text(0.254, LENGTH, "") == "10 in"


def test_a_unit_is_seen_only_behind_a_number_and_whole() -> None:
    assert unit_in("0.12 dB/m", LOSS) == ""
    assert unit_in("a hole in the wing", LENGTH) == ""
    assert unit_in("31 inches", LENGTH) == ""
    assert unit_in("[6 in, 6 in]", LENGTH) == "in"


metres = st.floats(-50.0, 50.0)
close = pytest.approx


@given(metres, metres, st.none() | metres, st.sampled_from(["in", "mm", "m", "ft"]))
def test_every_place_reads_back_to_a_nanometre(
    fs_m: float, bl_m: float, wl_m: float | None, unit: str
) -> None:
    text = author().text(Place(fs_m, bl_m, wl_m), PLACE, f"1 0 {unit}")
    back = parse_place(text)
    assert (back.fs_m, back.bl_m) == close((fs_m, bl_m), rel=1e-9, abs=1e-9)
    assert back.wl_m == (wl_m if wl_m is None else close(wl_m, rel=1e-9, abs=1e-9))


@given(st.floats(0.0, 100.0))
def test_every_length_in_feet_and_inches_reads_back(length_m: float) -> None:
    text = author().text(length_m, LENGTH, "7 ft 2.5 in")
    assert read(text, LENGTH) == close(length_m, rel=1e-9, abs=1e-9)


@given(metres, metres)
def test_every_range_reads_back(one: float, other: float) -> None:
    low, high = sorted((one, other))
    back = parse_range(author().text(Range(low, high), LENGTH, "1 .. 2 in"), LENGTH).known()
    assert back == close((low, high), rel=1e-9, abs=1e-9)
    text = author().text(Range(low, high), BUTT_RANGE, "L1 .. R2 in")
    assert parse_butt_range(text).known() == close((low, high), rel=1e-9, abs=1e-9)
