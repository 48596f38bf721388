# SPDX-License-Identifier: Apache-2.0
"""A number with its unit: what reads as which SI value, and what is refused in which words."""

from __future__ import annotations

import pickle

import pytest
from unit_faults import fault

from rfplan.units import (
    AGE,
    AREA,
    ATTENUATION,
    CAPACITANCE_PER_LENGTH,
    DIAMETERS,
    FREQUENCY,
    GAIN,
    LENGTH,
    LEVEL,
    LONGEST_TEXT,
    LOSS,
    POWER,
    RATIO,
    RESISTANCE,
    RESISTANCE_PER_LENGTH,
    TEMPERATURE,
    TIME,
    Kind,
    QuantityError,
    parse,
)


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
