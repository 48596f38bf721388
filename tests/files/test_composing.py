# SPDX-License-Identifier: Apache-2.0
"""Only a narrow part of YAML is read, and every step outside it is refused at its place."""

from __future__ import annotations

import pytest

from rfplan.files import composing
from rfplan.files.marks import parse
from rfplan.files.problems import ProblemsError

pytestmark = pytest.mark.usefixtures("each_yaml_loader")


def problems(text: str) -> list[str]:
    with pytest.raises(ProblemsError) as caught:
        parse(text, "plan.yaml")
    return [str(problem).removeprefix("plan.yaml:") for problem in caught.value.problems]


def plain(value: str) -> object:
    """Return what `value` means where a file gives it to a key."""
    tree = parse(f"key: {value}\n", "plan.yaml").root.plain()
    assert isinstance(tree, dict)
    return tree["key"]


@pytest.mark.parametrize("text", ["", "~", "null"])
def test_three_spellings_are_null(text: str) -> None:
    assert plain(text) is None


def test_only_true_and_false_are_booleans() -> None:
    assert plain("true") is True
    assert plain("false") is False


@pytest.mark.parametrize(("text", "number"), [("0", 0), ("14", 14), ("-3", -3), ("+7", 7)])
def test_decimal_integers_are_integers(text: str, number: int) -> None:
    value = plain(text)
    assert type(value) is int
    assert value == number


@pytest.mark.parametrize(
    ("text", "number"),
    [("1.5", 1.5), ("-0.25", -0.25), ("1e3", 1e3), ("1.2E-3", 1.2e-3), (".5", 0.5), ("2.", 2.0)],
)
def test_decimal_fractions_and_powers_are_floats(text: str, number: float) -> None:
    value = plain(text)
    assert type(value) is float
    assert value == number


@pytest.mark.parametrize(
    "text",
    [
        *(
            "NO",
            "yes",
            "on",
            "Off",
            "y",
            "True",
            "NULL",
            "Null",
            "=",
            "126 in",
            "12:30",
            "2026-10-02",
        ),
        *("017", "1_000", "0x1F", "0o17", "00", "01.5", ".inf", "-.inf", ".nan", "1e", "e3", "١٢"),
    ],
)
def test_everything_else_stays_text(text: str) -> None:
    assert plain(text) == text


@pytest.mark.parametrize("text", ["'14'", '"true"', "'~'", '""', "'017'"])
def test_a_quoted_value_is_text(text: str) -> None:
    assert plain(text) == text[1:-1]


@pytest.mark.parametrize("text", ["1e999", "-1e400", "9" * 19, "9" * 5000, "9" * 400 + ".0"])
def test_a_number_beyond_reach_is_refused_unless_quoted(text: str) -> None:
    (problem,) = problems(f"key: {text}\n")
    assert problem.startswith("1:6: the number ")
    assert problem.endswith(" is too large; expected a smaller number, or quotes if it is text")
    assert plain(f"'{text}'") == text


def test_keys_stay_text_whatever_they_look_like() -> None:
    tree = parse("1: a\n50 MHz: b\ntrue: c\n017: d\n~: e\n99999999999999999999: f\n", "x").root
    assert tree.plain() == {
        "1": "a",
        "50 MHz": "b",
        "true": "c",
        "017": "d",
        "~": "e",
        "99999999999999999999": "f",
    }


def test_blanks_quotes_and_line_ends_in_a_key_are_kept() -> None:
    assert parse('" a\\n\\"b\\" ": 1\n', "x").root.plain() == {' a\n"b" ': 1}


def test_every_repeated_key_is_refused_naming_both_lines() -> None:
    text = "a: 1\nb: {c: 1, c: 2}\na: 2\n'a': 3\n"
    assert problems(text) == [
        "2:11: the key 'c' stands on line 2 and again on line 2; expected each key once",
        "3:1: the key 'a' stands on line 1 and again on line 3; expected each key once",
        "4:1: the key 'a' stands on line 1 and again on line 4; expected each key once",
    ]


def test_keys_that_differ_only_as_numbers_are_different() -> None:
    assert parse("1: a\n01: b\n1.0: c\n", "x").root.plain() == {"1": "a", "01": "b", "1.0": "c"}


@pytest.mark.parametrize("key", ["[a, b]", "{a: b}", "[]"])
def test_a_key_that_is_no_text_is_refused(key: str) -> None:
    assert problems(f"{key}: 1\n") == ["1:1: a key must be one text; expected 'key: value'"]


@pytest.mark.parametrize(
    ("text", "place"),
    [
        ("a: ?\n", "1:4"),
        ("a: ? .. 5 dB\n", "1:4"),
        ("a: {b: ?, c: 1}\n", "1:8"),
        ("a:\n  - ?\n", "2:5"),
        ("a: 1 # what?\n# really?\n? b\n: 2\n", "3:1"),
    ],
)
def test_a_bare_question_mark_is_never_taken_for_the_sign_of_a_key(text: str, place: str) -> None:
    assert problems(text) == [
        f"{place}: a '?' without quotes cannot stand here; expected \"?\" with the quotes"
    ]


def test_a_question_mark_in_a_comment_a_text_or_quotes_is_harmless() -> None:
    text = "a: '?' # what?\n# why?\n'b?': 1 .. ?\n"
    assert parse(text, "x").root.plain() == {"a": "?", "b?": "1 .. ?"}


def test_anchors_aliases_tags_and_merge_keys_are_refused_all_at_once() -> None:
    text = "a: &x 1\nb: *x\nc: !!str 5\n<<: {d: 1}\ne: !own [1]\n"
    assert problems(text) == [
        "1:4: the anchor '&x' is not allowed; expected the value written out",
        "2:4: the alias '*x' is not allowed; expected the value written out",
        "3:4: tags such as '!name' are not allowed; expected the value alone",
        "4:1: the merge key '<<' is not allowed; expected the entries written out",
        "5:4: tags such as '!name' are not allowed; expected the value alone",
    ]


def test_a_tag_that_would_run_code_is_refused() -> None:
    assert problems("a: !!python/object/apply:os.getcwd []\n") == [
        "1:4: tags such as '!name' are not allowed; expected the value alone"
    ]


def test_a_quoted_merge_sign_is_an_ordinary_key() -> None:
    assert parse("'<<': 1\n", "x").root.plain() == {"<<": 1}


def test_a_problem_knows_the_key_it_is_about() -> None:
    with pytest.raises(ProblemsError) as caught:
        parse("units:\n  nav1: {at: 1, at: 2}\nparts:\n  - {a: *x}\n", "plan.yaml")
    assert [problem.key for problem in caught.value.problems] == ["units.nav1.at", "parts.0.a"]


def test_problems_before_a_syntax_fault_are_reported_with_it() -> None:
    first, second = problems("a: 1\na: 2\nb: @x\n")
    assert first.startswith("2:1: the key 'a'")
    assert second.startswith("3:4: an unquoted text")


@pytest.mark.parametrize("text", ["", "\n\n", "# only a comment\n", "\ufeff", "---"])
def test_an_empty_file_is_refused(text: str) -> None:
    assert problems(text) == ["1:1: the file is empty; expected entries 'key: value'"]


@pytest.mark.parametrize(("text", "place"), [("roof\n", "1:1"), ("# c\n- a\n", "2:1")])
def test_a_file_that_is_no_mapping_is_refused(text: str, place: str) -> None:
    assert problems(text) == [f"{place}: the file is not a mapping; expected entries 'key: value'"]


def test_a_second_document_is_refused_and_a_first_marker_is_not() -> None:
    assert parse("---\na: 1\n", "x").root.plain() == {"a": 1}
    assert problems("a: 1\n---\nb: 2\n") == [
        "2:1: a second document starts here; expected one in a file"
    ]


@pytest.mark.parametrize("escape", ["\\0", "\\e[31m", "\\x9b"])
def test_a_control_character_written_as_an_escape_is_refused(escape: str) -> None:
    (problem,) = problems(f'a: 1\nb: "{escape}"\n')
    assert problem.startswith("2:4: the text holds the control character ")


def test_forty_levels_are_read_and_one_more_is_refused() -> None:
    inner = "[" * 39 + "]" * 39
    assert parse(f"a: {inner}\n", "x").root.plain() is not None
    assert problems(f"a: [{inner}]\n") == [
        "1:43: the nesting is too deep; expected at most 40 levels"
    ]


def test_levels_inside_keys_count_too() -> None:
    assert "the nesting is too deep" in problems("? " * 500 + "a\n")[-1]


def test_a_text_of_ten_thousand_characters_is_read_and_a_longer_one_refused() -> None:
    assert plain("x" * 10_000) == "x" * 10_000
    assert problems(f"a: {'x' * 100_000}\n") == [
        "1:4: the text is too long; expected at most 10000 characters"
    ]


def test_too_many_values_are_refused(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(composing, "MAX_NODES", 5)
    assert parse("a: [1, 2]\n", "x").root.plain() == {"a": [1, 2]}
    assert problems("a: [1, 2, 3]\n") == ["1:11: too many values; expected at most 5 in a file"]


def test_a_flood_of_problems_stops_at_two_hundred() -> None:
    assert len(problems("a: 1\n" * 1000)) == composing.MAX_PROBLEMS
