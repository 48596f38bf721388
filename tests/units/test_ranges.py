# SPDX-License-Identifier: Apache-2.0
"""Missing values, ranges and tolerances."""

from __future__ import annotations

from typing import Any

import pytest
from unit_faults import fault

from rfplan.units import (
    AREA,
    ATTENUATION,
    FREQUENCY,
    LENGTH,
    LEVEL,
    LOSS,
    NONE,
    POWER,
    RATIO,
    RESISTANCE,
    TEMPERATURE,
    UNKNOWN,
    Kind,
    QuantityError,
    Range,
    parse_or_missing,
    parse_range,
    parse_toleranced,
)


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
