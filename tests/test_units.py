# SPDX-License-Identifier: Apache-2.0
"""The closed grammar of quantities: what it reads, what it refuses and in which words."""

from __future__ import annotations

import math
import pickle
import random
import re
import subprocess
import sys
from collections.abc import Callable
from dataclasses import dataclass
from datetime import date
from typing import Any, get_args

import numpy as np
import pint
import pytest
from hypothesis import given
from hypothesis import strategies as st
from pydantic import TypeAdapter, ValidationError

from rfplan import units
from rfplan.units import (
    AGE,
    AREA,
    ATTENUATION,
    CAPACITANCE_PER_LENGTH,
    DIAMETERS,
    FREQUENCY,
    GAIN,
    KINDS,
    LENGTH,
    LEVEL,
    LONGEST_TEXT,
    LOSS,
    MASS,
    NONE,
    POWER,
    RATIO,
    RESISTANCE,
    RESISTANCE_PER_LENGTH,
    TEMPERATURE,
    TIME,
    UNKNOWN,
    Kind,
    Place,
    Quantity,
    QuantityError,
    Range,
    Toleranced,
    from_unit,
    in_unit,
    parse,
    parse_butt_range,
    parse_date,
    parse_or_missing,
    parse_place,
    parse_range,
    parse_toleranced,
    show,
    show_length,
    show_place,
)


def fault(read: Callable[..., object], *arguments: Any, **options: Any) -> str:
    """Return the message with which a text is refused."""
    with pytest.raises(QuantityError) as caught:
        read(*arguments, **options)
    return caught.value.message


# --- one quantity --------------------------------------------------------------------------------


@pytest.mark.parametrize(
    ("text", "kind", "value"),
    [
        ("3.2 m", LENGTH, 3.2),
        ("3.2m", LENGTH, 3.2),
        ("126 in", LENGTH, 3.2004),
        (".5 in", LENGTH, 0.0127),
        ("+14 in", LENGTH, 0.3556),
        ("-4.95 mm", LENGTH, -0.00495),
        ("\u22123 m", LENGTH, -3.0),
        ("1.5e-3 km", LENGTH, 1.5),
        ("10 ft 6 in", LENGTH, 3.2004),
        ("10ft 6in", LENGTH, 3.2004),
        ("3/4 in", LENGTH, 0.01905),
        ("10 3/4 in", LENGTH, 0.27305),
        ("7 ft 9 1/2 in", LENGTH, 2.3749),
        ("-7 ft 9.5 in", LENGTH, -2.3749),
        ("+7 ft 9.5 in", LENGTH, 2.3749),
        ("15 1/2 in", LENGTH, 0.3937),
        ("1575.42 MHz", FREQUENCY, 1575.42e6),
        ("16 W", POWER, 16.0),
        ("30 dBm", POWER, 1.0),
        ("-3 dBW", POWER, 0.5011872336272722),
        ("-73 dBm", LEVEL, -73.0),
        ("2 dBW", LEVEL, 32.0),
        ("100 W", LEVEL, 50.0),
        ("0.5 mW", LEVEL, -3.010299956639812),
        ("1.5 dB", LOSS, 1.5),
        ("5 dBic", GAIN, 5.0),
        ("0 dBd", GAIN, 2.15),
        ("12 dB/100 ft", ATTENUATION, 0.3937007874015748),
        ("12 dB/100ft", ATTENUATION, 0.3937007874015748),
        ("10.83 dB/100 m", ATTENUATION, 0.1083),
        ("50 \u03a9", RESISTANCE, 50.0),
        ("50 \u2126", RESISTANCE, 50.0),
        ("2.5 mohm", RESISTANCE, 0.0025),
        ("39 ohm/km", RESISTANCE_PER_LENGTH, 0.039),
        ("66 %", RATIO, 0.66),
        ("0.66", RATIO, 0.66),
        ("158 degF", TEMPERATURE, 70.0),
        ("-55 \u00b0C", TEMPERATURE, -55.0),
        ("30 min", TIME, 1800.0),
        ("6 month", AGE, 0.5),
        ("10 od", DIAMETERS, 10.0),
        ("80 in2", AREA, 0.0516128),
        ("29.4 pF/ft", CAPACITANCE_PER_LENGTH, 96.4566929e-12),
    ],
)
def test_a_number_with_its_unit_reads_as_the_si_value(text: str, kind: Kind, value: float) -> None:
    assert parse(text, kind) == pytest.approx(value, rel=1e-9, abs=1e-15)


@pytest.mark.parametrize(
    ("text", "kind", "message"),
    [
        ("1.4", LENGTH, "the number 1.4 has no unit"),
        ("3,2 m", LENGTH, "decimal comma in '3,2 m'; write 3.2 m"),
        ("1,575.42 MHz", FREQUENCY, "thousands comma in '1,575.42 MHz'; write 1575.42 MHz"),
        ("1,575 MHz", FREQUENCY, "decimal comma in '1,575 MHz'; write 1.575 MHz or 1575 MHz"),
        ("12 Mhz", FREQUENCY, "unit 'Mhz' is not a frequency unit; did you mean MHz?"),
        ("12 inch", LENGTH, "unit 'inch' is not a length unit; did you mean in?"),
        ("3 dB", LEVEL, "unit 'dB' is not a level unit"),
        ("3 DBM", LEVEL, "unit 'DBM' is not a level unit; did you mean dBm?"),
        ("9 dB/km2", ATTENUATION, "unit 'dB/km2' is not an attenuation unit; did you mean dB/km?"),
        ("3  m", LENGTH, "too many spaces in '3  m'; write 3 m"),
        (" 3 m\n", LENGTH, "too many spaces in ' 3 m\\n'; write 3 m"),
        ("10'6\"", LENGTH, "foot or inch mark in '10\\'6\"'; write 10 ft 6 in"),
        ("1e400 m", LENGTH, "'1e400 m' is not a finite number of m"),
        ("0 W", LEVEL, "'0 W' is not a finite number of dBm"),
        ("1e9 dBm", POWER, "'1e9 dBm' is not a finite number of W"),
        ("10 ft 14 in", LENGTH, "'10 ft 14 in' is not a length"),
        ("nan m", LENGTH, "'nan m' is not a length"),
        ("1_000 m", LENGTH, "'1_000 m' is not a length"),
        ("\x1b[31m3 m", LENGTH, "'\\x1b[31m3 m' is not a length"),
        ("", LENGTH, "nothing is written"),
        (f"{'0' * 62}3 m", LENGTH, "the text is longer than 64 characters"),
    ],
)
def test_a_refusal_says_what_is_wrong(text: str, kind: Kind, message: str) -> None:
    assert fault(parse, text, kind) == message


@pytest.mark.parametrize(
    "text",
    [
        *(
            "inf m",
            "\uff13 m",
            "\u0663 m",
            "3. m",
            "3 m m",
            "--3 m",
            "+-3 m",
            "0x10 m",
            "1e1234 m",
            "1e0001 m",
        ),
        *(
            "10.5 ft 6 in",
            "10 ft 12 in",
            "0/0 in",
            "1/0 in",
            "4/4 in",
            "10 4/3 in",
            "3/4 ft",
            "1.5 3/4 in",
        ),
        *("3 2 m", "3;2 m", "9**9 m", "m", "3 m 2", "3\u00a0m", "3 kg", "3 M", "10 ft 6", "?"),
    ],
)
def test_no_text_outside_the_grammar_reads_as_a_length(text: str) -> None:
    assert fault(parse, text, LENGTH)


def test_an_error_carries_the_fault_and_the_expectation_apart() -> None:
    with pytest.raises(QuantityError) as caught:
        parse("1.4", LENGTH)
    error = pickle.loads(pickle.dumps(caught.value))
    assert error.message == "the number 1.4 has no unit"
    assert error.expected == "a length such as 126 in, 10 ft 6 in or 3.2 m"
    assert str(error) == f"{error.message}; expected {error.expected}"
    assert str(QuantityError("did you mean MHz?", "a frequency")) == (
        "did you mean MHz? Expected a frequency"
    )


def test_the_longest_text_allowed_still_reads() -> None:
    text = f"{'0' * (LONGEST_TEXT - 3)}3 m"
    assert len(text) == LONGEST_TEXT
    assert parse(text, LENGTH) == 3.0


# --- the table -----------------------------------------------------------------------------------

NOT_IN_PINT = {"dBm", "dBW", "dB", "dBi", "dBic", "dBd", "dBHz", "dB-Hz", "od"}
NOT_IN_PINT |= {"dBm/Hz", "dBW/Hz"}
# fmt: off
PINT_NAMES = {
    "": "dimensionless", "%": "percent", "kt": "knot", "lb": "pound", "oz": "ounce",
    "yr": "year", "min": "minute", "h": "hour", "dB": "count",
}
# fmt: on
STRAIGHT = [
    (kind, name)
    for kind in KINDS.values()
    for name, unit in kind.units.items()
    if unit.laws is None and name not in NOT_IN_PINT
]


def pint_unit(name: str) -> Any:
    """Return one of our linear units, such as 'lb/100 ft', built from the units of pint."""
    spelled = name.translate({0x3A9: "ohm", 0x2126: "ohm", 0xB0: "deg"})
    top, _, bottom = spelled.partition("/")
    hundreds, per = re.fullmatch(r"(\d*) ?(.*)", bottom).groups()  # type: ignore[union-attr]
    one = pint.Quantity(1.0, PINT_NAMES.get(top, re.sub(r"2$", "**2", top)))
    if not per:
        return one
    return one / pint.Quantity(float(hundreds or 1), PINT_NAMES.get(per, per))


@pytest.mark.parametrize(("kind", "name"), STRAIGHT, ids=lambda part: getattr(part, "name", part))
def test_the_table_agrees_with_pint(kind: Kind, name: str) -> None:
    si_unit = pint_unit(kind.si).units
    if kind is TEMPERATURE:
        expected = pint.Quantity(-40.5, pint_unit(name).units).to(si_unit).magnitude
        assert from_unit(-40.5, kind, name) == pytest.approx(expected, rel=1e-12)
    else:
        expected = pint_unit(name).to(si_unit).magnitude
        assert from_unit(1.0, kind, name) == pytest.approx(expected, rel=1e-12)


def test_every_unit_that_pint_does_not_check_is_named_here() -> None:
    every = {name for kind in KINDS.values() for name in kind.units}
    logarithmic = {(kind.name, name) for kind in (POWER, LEVEL) for name in kind.units}
    assert every - {name for _, name in STRAIGHT} == NOT_IN_PINT
    assert {
        (kind.name, name)
        for kind in KINDS.values()
        for name, unit in kind.units.items()
        if unit.laws is not None
    } < logarithmic


def test_a_half_wave_dipole_has_the_gain_that_dbd_refers_to() -> None:
    theta = (np.arange(200_000) + 0.5) * math.pi / 200_000
    pattern = (np.cos(math.pi / 2 * np.cos(theta)) / np.sin(theta)) ** 2
    mean = np.sum(pattern * np.sin(theta)) * (math.pi / 200_000) / 2
    assert round(float(10 * np.log10(1.0 / mean)), 2) == units.DIPOLE_GAIN_DBI


def test_no_unit_name_can_be_read_as_part_of_a_number() -> None:
    for kind in KINDS.values():
        for name in kind.units:
            assert name == "" or name[0] not in "+-.0123456789 "
            assert name == name.strip()


def test_the_examples_in_messages_can_be_read() -> None:
    for kind in KINDS.values():
        for example in re.split(", | or ", kind.example):
            assert math.isfinite(parse(example, kind))
        assert isinstance(parse_range(kind.range_example, kind), Range)


# --- missing values, ranges, tolerances ----------------------------------------------------------


def test_a_question_mark_and_none_stand_for_missing_values() -> None:
    assert parse_or_missing("?", LENGTH) is UNKNOWN
    assert parse_or_missing("none", LENGTH) is NONE
    assert parse_or_missing("3 m", LENGTH) == 3.0


@pytest.mark.parametrize("text", ["None", "NONE", "??", " ?", "? m", "-", "null", "~", ""])
def test_nothing_else_stands_for_a_missing_value(text: str) -> None:
    with pytest.raises(QuantityError) as caught:
        parse_or_missing(text, LENGTH)
    assert caught.value.expected.endswith(", ? or none")


@pytest.mark.parametrize(
    ("text", "kind", "low", "high"),
    [
        ("1.5 .. 6.5 dB", LOSS, 1.5, 6.5),
        ("1.5 dB .. 6.5 dB", LOSS, 1.5, 6.5),
        ("6.5 .. 6.5 dB", LOSS, 6.5, 6.5),
        ("none .. 2.5 dB", LOSS, NONE, 2.5),
        ("? .. 6.5 dB", LOSS, UNKNOWN, 6.5),
        ("1.5 .. ? dB", LOSS, 1.5, UNKNOWN),
        ("1.5 .. none dB", LOSS, 1.5, NONE),
        ("1.5 dB .. ?", LOSS, 1.5, UNKNOWN),
        ("? .. none", LOSS, UNKNOWN, NONE),
        ("?", LOSS, UNKNOWN, UNKNOWN),
        ("none", LOSS, NONE, NONE),
        ("-55 .. 70 degC", TEMPERATURE, -55.0, 70.0),
        ("30 in .. 4 ft", LENGTH, 0.762, 1.2192),
        ("9 .. 10 3/4 in", LENGTH, 0.2286, 0.27305),
        ("3 in .. 10 ft 6 in", LENGTH, 0.0762, 3.2004),
        ("5 .. 7mm", LENGTH, 0.005, 0.007),
        ("50 .. 60 %", RATIO, 0.5, 0.6),
        ("0.5 .. 0.6", RATIO, 0.5, 0.6),
        ("48 .. 52 mohm", RESISTANCE, 0.048, 0.052),
        ("2 .. 3 m2", AREA, 2.0, 3.0),
        ("2 m2 .. 3 m2", AREA, 2.0, 3.0),
        ("10 .. 12 dB/100 ft", ATTENUATION, 0.32808399, 0.39370079),
    ],
)
def test_a_range_has_two_ends(text: str, kind: Kind, low: Any, high: Any) -> None:
    read = parse_range(text, kind)
    for end, value in ((read.low, low), (read.high, high)):
        assert end is value or end == pytest.approx(value)


@pytest.mark.parametrize(
    ("text", "kind", "message"),
    [
        ("6.5 dB", LOSS, "'6.5 dB' is one value, not a range"),
        ("6.5 .. 1.5 dB", LOSS, "the range '6.5 .. 1.5 dB' runs from high to low"),
        ("1.5 .. 6.5", LOSS, "the number 6.5 has no unit"),
        ("3 .. 10 ft 6 in", LENGTH, "the number 3 has no unit"),
        ("1.5 .. ? DB", LOSS, "unit 'DB' is not a loss unit; did you mean dB?"),
        ("1.5..6.5 dB", LOSS, "'1.5..6.5 dB' is not a loss"),
        ("0 .. 16 W", LEVEL, "'0 W' is not a finite number of dBm"),
        ("1 m2 .. 2 in2", AREA, "the range '1 m2 .. 2 in2' runs from high to low"),
        (f"{'1' * 40} .. {'2' * 40} m", LENGTH, "the text is longer than 64 characters"),
    ],
)
def test_a_range_is_refused_with_an_example(text: str, kind: Kind, message: str) -> None:
    with pytest.raises(QuantityError) as caught:
        parse_range(text, kind)
    assert caught.value.message == message
    assert caught.value.expected == f"a range of {kind.name} such as {kind.range_example}"


def test_one_value_is_a_range_only_where_that_is_allowed() -> None:
    assert parse_range("6.5 dB", LOSS, single=True) == Range(6.5, 6.5)
    assert parse_range("1.5 .. 6.5 dB", LOSS, single=True) == Range(1.5, 6.5)


@pytest.mark.parametrize(
    ("text", "kind", "value", "plus_minus"),
    [
        ("50 ohm +- 2 ohm", RESISTANCE, 50.0, 2.0),
        ("50 +- 2 ohm", RESISTANCE, 50.0, 2.0),
        ("50 ohm +- 4 %", RESISTANCE, 50.0, 2.0),
        ("50 ohm", RESISTANCE, 50.0, 0.0),
        ("1575.42 MHz +- 12 MHz", FREQUENCY, 1575.42e6, 12e6),
        ("-10 in +- 10 %", LENGTH, -0.254, 0.0254),
        ("0.66 +- 2 %", RATIO, 0.66, 0.0132),
        ("20 degC +- 5 degC", TEMPERATURE, 20.0, 5.0),
    ],
)
def test_a_tolerance_lies_on_either_side(
    text: str, kind: Kind, value: float, plus_minus: float
) -> None:
    read = parse_toleranced(text, kind)
    assert (read.value, read.plus_minus) == pytest.approx((value, plus_minus))


@pytest.mark.parametrize(
    ("text", "kind", "message"),
    [
        ("50 +- 4 %", RESISTANCE, "the number 50 has no unit"),
        ("50 ohm +- 2", RESISTANCE, "the number 2 has no unit"),
        ("50 ohm +- -2 ohm", RESISTANCE, "'-2 ohm' is no fixed distance either way"),
        ("1e300 ohm +- 1e300 %", RESISTANCE, "'1e300 %' is no fixed distance either way"),
        ("20 degC +- 50 degF", TEMPERATURE, "'50 degF' is no fixed distance either way"),
        ("16 W +- 3 dBW", POWER, "'3 dBW' is no fixed distance either way"),
        ("? +- 2 ohm", RESISTANCE, "'?' is not a resistance"),
    ],
)
def test_a_tolerance_without_fixed_size_is_refused(text: str, kind: Kind, message: str) -> None:
    assert fault(parse_toleranced, text, kind) == message


# --- places and dates ----------------------------------------------------------------------------


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


# --- display and round trips ---------------------------------------------------------------------


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


# --- hostile texts -------------------------------------------------------------------------------

READERS: list[Callable[[str], object]] = [
    *(lambda text, kind=kind: parse(text, kind) for kind in KINDS.values()),
    *(lambda text, kind=kind: parse_or_missing(text, kind) for kind in (LENGTH, RATIO)),
    *(lambda text, kind=kind: parse_range(text, kind) for kind in (LENGTH, LEVEL, RATIO, AREA)),
    *(lambda text, kind=kind: parse_toleranced(text, kind) for kind in (LENGTH, LEVEL, RATIO)),
    *(parse_place, parse_butt_range, parse_date),
]
GOOD = ["3.2 m", "10 ft 6 1/2 in", "1.5 .. ? dB", "50 ohm +- 4 %", "60 L10 50 in", "2026-11-25"]
PIECES = [
    *("1", "9" * 20, "9" * 5000, "0", ".", "..", " .. ", " +- ", " ", "  ", "-", "+", "e", "E99"),
    *(",", "m", "in", "ft", "ft ", "dB", "dB/100 ft", "dBm", "W", "%", "?", "none", "L", "R", "/"),
    *("'", '"', "\u2212", "\u03a9", "\uff11", "\u0663", "\x00", "\x1b[2J", "\ud800", "\u202e"),
    *("\n", "\U0001f6e9", "(", "**", "__import__('os')", "{0}", "%s", "nan", "inf", "1_0", "0x1"),
    *("\u00b2", "\u00bd"),
]  # fmt: skip


def hostile_text(chance: random.Random) -> str:
    """Return a random text: pieces of the grammar and rubbish, or a good text with one edit."""
    if chance.random() < 0.6:
        return "".join(chance.choices(PIECES, k=chance.randint(0, 12)))
    good = chance.choice(GOOD)
    at = chance.randrange(len(good))
    return good[:at] + chance.choice(PIECES) + good[at + chance.randint(0, 2) :]


def test_a_hostile_text_is_read_or_refused_and_nothing_else() -> None:
    chance = random.Random(20261125)
    for _ in range(5000):
        text = hostile_text(chance)
        for read in chance.sample(READERS, 6):
            try:
                read(text)
            except QuantityError as error:
                assert error.message
                assert error.expected
                assert str(error).isprintable()


@given(st.text(max_size=80), st.sampled_from(READERS))
def test_any_text_is_read_or_refused(text: str, read: Callable[[str], object]) -> None:
    try:
        read(text)
    except QuantityError as error:
        assert len(str(error)) < 300


# --- fields of the model -------------------------------------------------------------------------


@dataclass(frozen=True, slots=True)
class Run:
    """An invented record with one field of every form."""

    length: units.Length
    drop: units.LengthOrMissing
    window: units.LossRange
    power: units.PowerRange
    impedance: units.ResistanceToleranced
    velocity: units.Ratio
    at: units.PlaceText
    across: units.ButtRange
    made: units.Date
    spare: units.Length | None = None


WRITTEN = {
    "length": "10 ft 6 in",
    "drop": "?",
    "window": "none .. 2.5 dB",
    "power": "16 W",
    "impedance": "50 +- 2 ohm",
    "velocity": 0.66,
    "at": "94 L2 in",
    "across": "L24 .. L80 in",
    "made": "2026-11-25",
}


def problems(**changes: object) -> dict[object, QuantityError]:
    """Return the original error of every field that is refused."""
    with pytest.raises(ValidationError) as caught:
        TypeAdapter(Run).validate_python({**WRITTEN, **changes})
    found: dict[object, QuantityError] = {
        problem["loc"][0]: problem["ctx"]["error"] for problem in caught.value.errors()
    }
    assert all(type(error) is QuantityError for error in found.values())
    return found


def test_a_frozen_record_is_read_from_text() -> None:
    run = TypeAdapter(Run).validate_python({**WRITTEN, "spare": "1 m"})
    assert run == Run(
        length=parse("10 ft 6 in", LENGTH),
        drop=UNKNOWN,
        window=Range(NONE, 2.5),
        power=Range(16.0, 16.0),
        impedance=Toleranced(50.0, 2.0),
        velocity=0.66,
        at=parse_place("94 L2 in"),
        across=parse_butt_range("L24 .. L80 in"),
        made=date(2026, 11, 25),
        spare=1.0,
    )
    assert pickle.loads(pickle.dumps(run)) == run


def test_every_problem_of_a_record_is_reported_at_once() -> None:
    found = problems(length=1.4, window="2.5 dB", at="94 in")
    assert found["length"].message == "the number 1.4 has no unit"
    assert found["length"].expected == LENGTH.expected
    assert found["window"].message == "'2.5 dB' is one value, not a range"
    assert found["at"].expected == "a place such as 94 L2 in or 60 L10 50 in"


@pytest.mark.parametrize(
    ("value", "message"),
    [
        (3, "the number 3 has no unit"),
        (-1.5, "the number -1.5 has no unit"),
        (math.nan, "'nan' is not a length"),
        pytest.param(10**5000, "'a int' is not a length", id="more digits than Python prints"),
        (True, "'true' is not a length"),
        (None, "nothing is written"),
        ([3, "m"], "'a list' is not a length"),
        ({"m": 3}, "'a mapping' is not a length"),
        (b"3 m", "'a bytes' is not a length"),
        (UNKNOWN, "'a Missing' is not a length"),
    ],
)
def test_what_is_not_text_is_refused_in_the_same_words(value: object, message: str) -> None:
    assert problems(length=value)["length"].message == message


def test_a_value_that_is_read_already_is_not_read_again() -> None:
    read = {"window": Range(1.0, 2.0), "at": Place(1.0, 0.0, None), "made": date(2026, 11, 25)}
    assert problems(**read, drop=NONE, impedance=Toleranced(50.0, 2.0)).keys() == {
        *read,
        "drop",
        "impedance",
    }


def test_a_ratio_alone_may_be_a_bare_number() -> None:
    assert Quantity(RATIO).read(1e-07) == 1e-07
    for kind in KINDS.values():
        if kind is not RATIO:
            assert fault(Quantity(kind).read, 0.66) == "the number 0.66 has no unit"


def test_every_alias_reads_the_type_that_it_promises() -> None:
    written = {"value": "{0}", "value_or_missing": "{0}", "toleranced": "{0} +- 5 %"}
    whole = {"place": "94 L2 in", "butt_range": "L2 .. R2 in", "date": "2026-11-25"}
    aliases = {name: alias for name, alias in vars(units).items() if hasattr(alias, "__metadata__")}
    assert len(aliases) >= 38
    for alias in aliases.values():
        promised, marker = get_args(alias)
        first = re.split(", | or ", marker.kind.example)[0]
        text = whole.get(marker.form) or written.get(marker.form, marker.kind.range_example)
        assert isinstance(marker.read(text.format(first)), promised)


def test_only_an_alias_for_missing_values_accepts_a_question_mark_alone() -> None:
    for name, alias in vars(units).items():
        if hasattr(alias, "__metadata__") and not name.endswith(("OrMissing", "Range")):
            assert fault(alias.__metadata__[0].read, "?")


def test_reading_units_needs_nothing_outside_the_standard_library() -> None:
    code = "import sys, rfplan.units; print(sorted({'pint', 'pydantic', 'numpy'} & {*sys.modules}))"
    ran = subprocess.run([sys.executable, "-c", code], capture_output=True, text=True, check=True)
    assert ran.stdout == "[]\n"
