# SPDX-License-Identifier: Apache-2.0
"""What is shown or written of a quantity reads back."""

from __future__ import annotations

import math

import pytest
from hypothesis import given
from hypothesis import strategies as st
from unit_faults import fault

from rfplan.units import (
    ATTENUATION,
    FREQUENCY,
    KINDS,
    LENGTH,
    LEVEL,
    LOSS,
    MASS,
    POWER,
    RATIO,
    Kind,
    Range,
    from_unit,
    in_unit,
    parse,
    parse_range,
    show,
    show_length,
)


@pytest.mark.parametrize(
    ("value", "kind", "unit", "text"),
    [
        (2.3749, LENGTH, "in", "93.5 in"),
        (2.858, LOSS, "dB", "2.86 dB"),
        (1575.42e6, FREQUENCY, "MHz", "1575.42 MHz"),
        (-73.0, LEVEL, "dBm", "-73.0 dBm"),
        (-0.0001, LENGTH, "in", "0.0 in"),
        (50.0, LEVEL, "W", "100.0 W"),
        (0.66, RATIO, "%", "66.0 %"),
        (0.66, RATIO, "", "0.660"),
        (0.12, ATTENUATION, "dB/100 ft", "3.66 dB/100 ft"),
    ],
)
def test_a_value_is_shown_with_the_digits_of_its_unit(
    value: float, kind: Kind, unit: str, text: str
) -> None:
    assert show(value, kind, unit) == text


def test_more_digits_are_shown_on_request() -> None:
    assert show(2.858, LOSS, "dB", 3) == "2.858 dB"
    assert show_length(2.3749, "in") == "93.5 in"
    assert show_length(2.3749, "m", 3) == "2.375 m"


def test_an_unknown_unit_is_refused_for_display_as_well() -> None:
    assert fault(in_unit, 1.0, LENGTH, "inch") == (
        "unit 'inch' is not a length unit; did you mean in?"
    )
    assert fault(from_unit, 1.0, MASS, "stone")


EVERY_UNIT = [(kind, name) for kind in KINDS.values() for name in kind.units]


@given(st.sampled_from(EVERY_UNIT), st.floats(0.001, 9e5))
def test_a_written_number_reads_back_in_every_unit(place: tuple[Kind, str], number: float) -> None:
    kind, name = place
    if kind is POWER and name.startswith("dB"):
        number = math.log10(number) * 10
    value = parse(f"{number!r} {name}".rstrip(), kind)
    assert value == from_unit(number, kind, name)
    assert in_unit(value, kind, name) == pytest.approx(number, rel=1e-9, abs=1e-9)


@given(st.sampled_from(EVERY_UNIT), st.floats(1, 9e5))
def test_a_shown_value_reads_back_within_its_digits(place: tuple[Kind, str], number: float) -> None:
    kind, name = place
    if kind is POWER and name.startswith("dB"):
        number = math.log10(number) * 10
    again = parse(show(from_unit(number, kind, name), kind, name), kind)
    half_digit = 0.5 * 10.0 ** -kind.units[name].digits
    assert abs(in_unit(again, kind, name) - number) <= half_digit * 1.001 + 1e-9 * number


@given(st.integers(0, 99), st.integers(0, 11), st.integers(0, 15))
def test_feet_inches_and_sixteenths_are_the_same_length_as_inches(
    feet: int, inches: int, sixteenths: int
) -> None:
    decimal = feet * 12 + inches + sixteenths / 16
    text = f"{feet} ft {inches} {sixteenths}/16 in"
    assert parse(text, LENGTH) == parse(f"{decimal} in", LENGTH)
    assert parse(f"-{text}", LENGTH) == -parse(text, LENGTH)


@given(st.floats(-1e6, 1e6), st.floats(-1e6, 1e6))
def test_a_range_reads_both_of_its_ends(one: float, other: float) -> None:
    low, high = min(one, other), max(one, other)
    assert parse_range(f"{low!r} .. {high!r} dB", LOSS) == Range(low, high)
