# SPDX-License-Identifier: Apache-2.0
"""Syntax faults are told in plain words at the place where they are mended, with both loaders."""

from __future__ import annotations

import pytest

from rfplan.files.marks import parse
from rfplan.files.problems import ProblemsError

pytestmark = pytest.mark.usefixtures("each_yaml_loader")


def refusal(text: str) -> str:
    with pytest.raises(ProblemsError) as caught:
        parse(text, "plan.yaml")
    (problem,) = caught.value.problems
    return str(problem).removeprefix("plan.yaml:")


@pytest.mark.parametrize(
    ("text", "message"),
    [
        (
            "title: doors: two\n",
            "1:13: a second ':' in this entry; expected quotes around a text that holds ': '",
        ),
        (
            "title:doors\nname: x\n",
            "2:5: no key can end at this ':'; "
            "expected a ':' and a space after the key above, and neighbours in one column",
        ),
        (
            "units: 3\n  nav1: x\n",
            "2:7: no key can end at this ':'; "
            "expected a ':' and a space after the key above, and neighbours in one column",
        ),
        (
            "a: 1\nunits\n",
            "2:1: this line is no 'key: value'; expected a ':' and a space after the key",
        ),
        (
            "a: 1\nb: 'roof\nc: 2\n",
            "2:4: the quote that opens here is never closed; expected a closing quote",
        ),
        (
            'a: "roof" top\n',
            "1:11: text follows a finished value; "
            "expected nothing after a closing quote or bracket",
        ),
        (
            "a:\n    b: 1\n  c: 2\n",
            "3:3: this line does not fit the lines above; "
            "expected the indentation of its neighbours, and no list items among keys",
        ),
        (
            "a: 1\n- b\n",
            "2:1: this line does not fit the lines above; "
            "expected the indentation of its neighbours, and no list items among keys",
        ),
        (
            "a: - 1\n",
            "1:4: a list item '- ' cannot stand here; "
            "expected every '- ' on a line of its own, or [a, b] on one line",
        ),
        (
            "x: 1\na: [1, 2\nb: 3\n",
            "3:2: the bracket opened on line 2 goes on here without ',' or its end; "
            "expected ',' between entries and a closing bracket",
        ),
        (
            "a: {x: 1]\n",
            "1:9: the bracket opened on line 1 goes on here without ',' or its end; "
            "expected ',' between entries and a closing bracket",
        ),
        ("a: [1,", "1:7: the file ends inside an open bracket; expected a closing bracket"),
        (
            "a: }\n",
            "1:4: a value cannot begin with '}'; expected a value, or quotes around the text",
        ),
        (
            "a: @x\n",
            "1:4: an unquoted text cannot begin with '@'; expected quotes around the text",
        ),
        (
            "a: * 2\n",
            "1:4: an unquoted text cannot begin with '&' or '*'; expected quotes around the text",
        ),
        (
            "a: !x!y z\n",
            "1:4: tags such as '!name' are not allowed; "
            "expected quotes around a text that begins with '!'",
        ),
        (
            "a: | roof\n  x\n",
            "1:4: '|' or '>' is not followed by an indented text; "
            "expected the text on the next lines, indented with spaces",
        ),
        (
            '# é 😀\na: "\\xZZ"\n',
            "2:7: the escape in this double-quoted text names no character; "
            r"expected hexadecimal digits as in '\u00b5'",
        ),
        (
            "%YAML 9.0\n---\na: 1\n",
            "1:1: lines that begin with '%' are not allowed; expected entries only",
        ),
        (
            "%YAML 1.1\n---\na: 1\n",
            "1:1: lines that begin with '%' are not allowed; expected entries only",
        ),
    ],
)
def test_a_syntax_fault_is_told_in_plain_words(text: str, message: str) -> None:
    assert refusal(text) == message


def test_an_unknown_escape_is_told() -> None:
    assert r"unknown escape '\' in a double-quoted text" in refusal('a: "C:\\q"\n')


def test_text_behind_the_end_of_the_document_is_refused() -> None:
    assert refusal("a: 1\n...\nb: 2\n").startswith("3:1: ")


@pytest.mark.parametrize(
    ("text", "place"),
    [
        ("a:\n\tb: 1\n", "2:1"),
        ("a: 1\n\tb: 2\n", "2:1"),
        ("a:\n  b: 1\n\tc: 2\n", "3:1"),
        ("a:\n  \tb: 1\n", "2:3"),
        ("a:\r\n  b:\r\n\t  type: x\r\n", "3:1"),
        ("x: 1\ra:\r\tb: 1\r", "3:1"),
        ("a:\n\t- 1\n", "2:1"),
        ("a: |\n\tx\n", "2:1"),
    ],
)
def test_indenting_with_a_tab_is_named_at_the_tab(text: str, place: str) -> None:
    assert refusal(text) == f"{place}: a tab is used to indent this line; expected spaces"


def test_a_tab_inside_a_quoted_text_is_not_blamed_for_a_later_fault() -> None:
    assert refusal("a: 'x\n\ty'\nb: @x\n").startswith("3:4: an unquoted text cannot begin with '@'")


@pytest.mark.parametrize("text", ['a: "\\ud800"\n', 'a: "\\UFFFFFFFF"\n', 'a: "\\U00110000"\n'])
def test_an_escape_that_names_no_character_is_refused(text: str) -> None:
    assert refusal(text).startswith("1:")


@pytest.mark.parametrize(
    "text",
    ["a: " + "[" * 10_000, "a: " + "{" * 10_000, "- " * 10_000, "? " * 10_000, "a: " + "{[" * 5000],
)
def test_ten_thousand_levels_are_refused_as_nesting(text: str) -> None:
    assert "the nesting is too deep" in refusal(text)
