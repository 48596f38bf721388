# SPDX-License-Identifier: Apache-2.0
"""Findings say their numbers in the unit of the sheet, and never a limit like its value."""

from __future__ import annotations

from dataclasses import replace
from typing import Any

import pytest

from rfplan.model.findings import Finding, Verdict, WaiverNote
from rfplan.model.plan import Accepted, State
from rfplan.model.rulebook import Strictness
from rfplan.reports.wording import said, spoken, value_and_limit


def finding(text: str, value: float | None, limit: float | None, unit: str) -> Finding:
    return Finding(
        rule="RF501",
        name="spacing",
        strictness=Strictness.REQUIRED,
        objects=("a", "b"),
        state=State.DESIGN,
        text=text,
        remedy="move it",
        source="sheet",
        source_class="specification",
        verdict=Verdict.FAIL,
        value=value,
        limit=limit,
        unit=unit,
    )


@pytest.mark.parametrize(
    ("value", "limit", "unit", "units", "text"),
    [
        (0.889, 0.9144, "m", "in", "35.0 in of 36.0 in"),
        (0.889, 0.9144, "m", "mm", "889 mm of 914 mm"),
        (6.61, 6.5, "dB", "in", "6.61 dB of 6.50 dB"),
        (3.0, 2.0, "", "in", "3 of 2"),
        (None, 0.9144, "m", "in", "? of 36.0 in"),
        (0.91439, 0.9144, "m", "in", "35.9996 in of 36.0000 in"),
    ],
)
def test_tokens_become_numbers(value, limit, unit, units, text) -> None:
    assert said(finding("{value} of {limit}", value, limit, unit), units) == text


def reopened(**note: Any) -> Finding:
    """Return a finding with a waiver that covers 26 in of 30 in and no longer holds."""
    told = WaiverNote("v1", "A. One", None, "none", True, False, None, Accepted("26 in", "30 in"))
    short = finding("a is {value} from b; needs {limit}", 24 * 0.0254, 30 * 0.0254, "m")
    return replace(short, waiver=replace(told, **note))


def test_a_waiver_that_reopened_tells_what_it_covers() -> None:
    assert said(reopened(), "in") == (
        "a is 24.0 in from b; needs 30.0 in; waiver v1 covers 26 in, needed 30 in"
    )
    assert "waiver v1 was signed for another finding or document" in said(
        reopened(changed=True), "in"
    )
    assert said(reopened(reopened=False), "in") == "a is 24.0 in from b; needs 30.0 in"


def test_anything_else_in_braces_is_left_alone() -> None:
    text = "{value!r} {0} {limit.__class__} {} {{value}}"
    assert said(finding(text, 1.0, 2.0, ""), "in") == text.replace("{value}", "1")


def test_a_number_that_looks_like_a_token_is_not_read_again() -> None:
    shown = said(finding("{value} {limit}", None, None, "{limit}"), "in")
    assert shown == "? ?"


def test_both_numbers_have_the_same_digits() -> None:
    value, limit = value_and_limit(finding("", 0.91439, 0.9144, "m"), "in")
    assert (value.text, limit.text, limit.unit) == ("35.9996 in", "36.0000 in", "in")


def test_a_waived_limit_is_said_to_be_not_met() -> None:
    assert spoken(Verdict.WAIVED) == "WAIVED (limit not met)"
    assert spoken(Verdict.FAIL) == "FAIL"
