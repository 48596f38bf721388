# SPDX-License-Identifier: Apache-2.0
"""Problems print one safe line each, sorted by place."""

from __future__ import annotations

import pickle

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from rfplan.files.problems import Problem, ProblemsError, position, visible


def test_a_problem_prints_place_fault_and_what_was_expected() -> None:
    problem = Problem("plan.yaml", 5, 11, "kind is 'gps'", "'gnss' or 'dme'", "units.nav1.kind")
    assert str(problem) == "plan.yaml:5:11: kind is 'gps'; expected 'gnss' or 'dme'"
    assert problem.text() == str(problem)


def test_a_problem_without_expectation_prints_none() -> None:
    assert str(Problem("plan.yaml", 1, 1, "the file is empty")) == (
        "plan.yaml:1:1: the file is empty"
    )


def test_a_hostile_file_name_or_message_cannot_leave_its_line() -> None:
    problem = Problem("a\x1b[31m\n.yaml", 1, 1, "wrong\r\u202eword", "\u0007bell")
    assert str(problem).isprintable()


def test_problems_sort_by_file_then_line_then_column_with_and_without_key() -> None:
    problems = [
        Problem("b.yaml", 1, 1, "m"),
        Problem("a.yaml", 10, 1, "m"),
        Problem("a.yaml", 9, 4, "m", key="units"),
        Problem("a.yaml", 9, 4, "m"),
        Problem("a.yaml", 9, 3, "z"),
    ]
    places = [(p.file, p.line, p.column) for p in sorted(problems)]
    assert places == sorted(places)
    assert places[0] == ("a.yaml", 9, 3)
    assert places[-1] == ("b.yaml", 1, 1)


def test_the_error_carries_its_problems_sorted_and_each_once() -> None:
    first, second = Problem("a.yaml", 2, 1, "first"), Problem("a.yaml", 11, 1, "second")
    error = ProblemsError([second, first, second])
    assert error.problems == (first, second)
    assert str(error) == "a.yaml:2:1: first\na.yaml:11:1: second"


def test_the_error_survives_pickling_between_processes() -> None:
    error = ProblemsError([Problem("a.yaml", 2, 1, "wrong", "right", "units")])
    copy = pickle.loads(pickle.dumps(error))
    assert copy.problems == error.problems
    assert copy.problems[0].key == "units"


@pytest.mark.parametrize(
    ("text", "shown"),
    [
        ("126 in", "126 in"),
        ("Ω µ é 😀", "Ω µ é 😀"),
        ("a\nb\tc\x1b", r"a\u000ab\u0009c\u001b"),
        ("gnss\u200b1", r"gnss\u200b1"),
        ("\u202eevil\u2066", r"\u202eevil\u2066"),
        ("\ud800", r"\ud800"),
        ("50\u00a0MHz", r"50\u00a0MHz"),
        ("a\ufe0f\u034f\u3164", r"a\ufe0f\u034f\u3164"),
        ("\U000e0041", r"\U000e0041"),
    ],
)
def test_what_cannot_be_seen_is_shown_as_an_escape(text: str, shown: str) -> None:
    assert visible(text) == shown


def test_a_text_of_exactly_the_limit_is_not_cut() -> None:
    assert visible("x" * 60) == "x" * 60
    assert visible("x" * 61) == "x" * 57 + "..."


def test_a_cut_never_leaves_half_an_escape() -> None:
    assert visible("abc\n\n", limit=12) == r"abc\u000a..."


@settings(max_examples=150, deadline=None)
@given(st.text(st.characters(codec=None), max_size=80), st.integers(3, 70))
def test_a_shown_text_is_printable_and_within_its_limit(text: str, limit: int) -> None:
    shown = visible(text, limit)
    assert shown.isprintable()
    assert len(shown) <= limit


@pytest.mark.parametrize(
    ("before", "place"),
    [("", (1, 1)), ("ab", (1, 3)), ("a\nb", (2, 2)), ("a\r\n", (2, 1)), ("a\rb\n😀", (3, 2))],
)
def test_a_position_counts_lines_and_characters_from_one(
    before: str, place: tuple[int, int]
) -> None:
    assert position(before + "x rest", len(before)) == place
