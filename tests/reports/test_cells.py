# SPDX-License-Identifier: Apache-2.0
"""The text of a cell is its value printed with the declared digits."""

from __future__ import annotations

import math

import pytest
from hypothesis import given
from hypothesis import strategies as st

from rfplan.model.findings import Verdict
from rfplan.reports.cells import (
    DIGITS,
    decibels,
    frequency,
    in_shown_unit,
    length,
    listed,
    mass,
    nothing,
    number,
    printed,
    quantity,
    telling_digits,
    verdict_cell,
    words,
)


@pytest.mark.parametrize(
    ("cell", "text", "value"),
    [
        (decibels(2.857), "2.86", 2.857),
        (decibels(-0.0001), "0.00", -0.0001),
        (length(0.9144, "in"), "36.0", 36.0),
        (length(0.9144, "mm"), "914", 914.4),
        (number(3.3528, "m"), "3.353", 3.3528),
        (frequency(1575.42e6), "1575.42", 1575.42),
        (frequency(137e6), "137", 137.0),
        (frequency(118_008_333.0), "118.008333", 118.008333),
        (mass(0.45359237, "in"), "1.00", 1.0),
        (mass(0.4536, "mm"), "0.454", 0.4536),
        (number(21.04, "dBW"), "21.0", 21.04),
        (number(4, ""), "4", 4),
        (number(-55.0, "degC"), "-55", -55.0),
    ],
)
def test_a_number_prints_with_the_digits_of_its_unit(cell, text, value) -> None:
    assert cell.text == text
    assert cell.value == pytest.approx(value, rel=1e-12)


@pytest.mark.parametrize("value", [None, math.nan, math.inf, -math.inf])
def test_what_is_not_known_prints_a_question_mark_and_has_no_value(value: float | None) -> None:
    assert decibels(value) == nothing("?")
    assert decibels(value).value is None


def test_a_quantity_names_its_unit_and_an_unknown_one_does_not() -> None:
    assert quantity(35.0, "in").text == "35.0 in"
    assert quantity(3.0, "").text == "3"
    assert quantity(None, "in").text == "?"


@given(st.floats(-1e6, 1e6), st.sampled_from([*DIGITS, "MHz", ""]))
def test_the_text_of_any_number_is_its_value_rounded(value: float, unit: str) -> None:
    text = number(value, unit).text
    decimals = len(text.partition(".")[2])
    assert float(text) == pytest.approx(value, abs=0.5000001 * 10.0**-decimals)
    assert decimals == DIGITS.get(unit, decimals)
    assert text != "-0"


def test_a_loss_that_fails_on_a_tie_shows_one_digit_more() -> None:
    assert printed(6.504, "dB") == printed(6.50, "dB")
    digits = telling_digits(6.504, 6.5, "dB", fails=True)
    assert (printed(6.504, "dB", digits), printed(6.5, "dB", digits)) == ("6.504", "6.500")


def test_a_loss_that_passes_or_has_no_limit_keeps_its_digits() -> None:
    assert telling_digits(6.496, 6.5, "dB", fails=False) == 2
    assert telling_digits(6.6, 6.5, "dB", fails=True) == 2
    assert telling_digits(6.6, None, "dB", fails=True) == 2


def test_only_lengths_are_shown_in_the_unit_of_the_sheet() -> None:
    assert in_shown_unit(0.0254, "m", "in") == (1.0, "in")
    assert in_shown_unit(0.0254, "dB", "in") == (0.0254, "dB")
    assert in_shown_unit(None, "m", "mm") == (None, "mm")


def test_a_verdict_is_coloured_by_its_own_word() -> None:
    cell = verdict_cell(Verdict.FAIL_HIGH)
    assert (cell.text, cell.token) == ("FAIL-HIGH", "FAIL-HIGH")
    assert verdict_cell(None) == nothing()


def test_a_list_of_nothing_is_a_dash() -> None:
    assert listed(["a", "b"]) == words("a, b")
    assert listed([]) == nothing()
