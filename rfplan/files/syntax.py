# SPDX-License-Identifier: Apache-2.0
"""Syntax faults that PyYAML finds, told in our own words with a hint at the usual cause."""

from __future__ import annotations

import re
from typing import NamedTuple

import yaml

from rfplan.files.problems import Problem, position, visible

BARE_QUESTION_MARK = "a '?' without quotes cannot stand here"
QUOTED_QUESTION_MARK = '"?" with the quotes'

_INDENT = re.compile(r"[ \t]*")


class _Fault(NamedTuple):
    """What PyYAML says (C and Python loader differ), and what we say; {char} is what stands there.

    `at_opening` puts the problem where the unfinished thing began, not where it was noticed.
    """

    pattern: str
    message: str
    expected: str
    at_opening: bool = False


_FAULTS = (
    _Fault(
        r"scanning an? (anchor|alias)",
        "an unquoted text cannot begin with '&' or '*'",
        "quotes around the text",
        at_opening=True,
    ),
    _Fault(
        r"scanning a tag|undefined tag handle",
        "tags such as '!name' are not allowed",
        "quotes around a text that begins with '!'",
        at_opening=True,
    ),
    _Fault(
        r"directive|incompatible YAML document",
        "lines that begin with '%' are not allowed",
        "entries only",
    ),
    _Fault(
        r"scanning a block scalar",
        "'|' or '>' is not followed by an indented text",
        "the text on the next lines, indented with spaces",
        at_opening=True,
    ),
    _Fault(
        r"unexpected end of stream|unexpected document indicator",
        "the quote that opens here is never closed",
        "a closing quote",
        at_opening=True,
    ),
    _Fault(
        r"could not find expected ':'",
        "this line is no 'key: value'",
        "a ':' and a space after the key",
        at_opening=True,
    ),
    _Fault(
        r"unknown escape character",
        r"unknown escape '\' in a double-quoted text",
        r"'\\' for a backslash, or single quotes around the text",
    ),
    _Fault(
        r"hexa?decimal number|Unicode character escape",
        "the escape in this double-quoted text names no character",
        r"hexadecimal digits as in '\u00b5'",
    ),
    _Fault(
        r"cannot start any token",
        "an unquoted text cannot begin with '{char}'",
        "quotes around the text",
    ),
    _Fault(
        r"sequence entries are not allowed",
        "a list item '- ' cannot stand here",
        "every '- ' on a line of its own, or [a, b] on one line",
    ),
    _Fault(
        r"expected ',' or '([\]}])'",
        "the bracket opened on line {opening} goes on here without ',' or its end",
        "',' between entries and a closing bracket",
    ),
    _Fault(
        r"expected <?document start",
        "text follows the end of the document",
        "no '...' or '---' before this line",
    ),
    _Fault(
        r"maximum nesting depth",
        "the nesting is too deep",
        "fewer levels",
    ),
)


def syntax_problem(error: yaml.YAMLError, text: str, file: str) -> Problem:
    """Return the fault as one problem at the line and column where it is best mended."""
    words = f"{getattr(error, 'context', None)} {getattr(error, 'problem', None)}"
    noticed = _offset(error, "problem_mark")
    opening = _offset(error, "context_mark", noticed)
    line_start = max(text.rfind("\n", 0, noticed), text.rfind("\r", 0, noticed)) + 1
    offset, message, expected = (
        _character_fault(words, text, line_start, noticed)
        or _listed_fault(words, text, noticed, opening)
        or _layout_fault(words, text, noticed, text[line_start:noticed])
    )
    line, column = position(text, offset)
    return Problem(file, line, column, message, expected)


def _offset(error: yaml.YAMLError, name: str, default: int = 0) -> int:
    mark = getattr(error, name, None)
    return default if mark is None else int(mark.index)


def _character_fault(
    words: str, text: str, line_start: int, noticed: int
) -> tuple[int, str, str] | None:
    """Return the fault of a tab or a '?', which YAML gives a meaning that nobody expects."""
    indent = _INDENT.match(text, line_start)
    if indent and noticed < indent.end() and "\t" in indent[0]:
        tab = line_start + indent[0].index("\t")
        return tab, "a tab is used to indent this line", "spaces"
    if "a tab character" in words or text.startswith("\t", noticed):
        return noticed, "a tab stands where a space is needed", "spaces"
    if text.startswith("?", noticed):
        return noticed, BARE_QUESTION_MARK, QUOTED_QUESTION_MARK
    return None


def _listed_fault(words: str, text: str, noticed: int, opening: int) -> tuple[int, str, str] | None:
    for fault in _FAULTS:
        if re.search(fault.pattern, words):
            message = fault.message.format(
                char=visible(text[noticed : noticed + 1]), opening=position(text, opening)[0]
            )
            return opening if fault.at_opening else noticed, message, fault.expected
    return None


def _layout_fault(words: str, text: str, noticed: int, before: str) -> tuple[int, str, str]:
    """Return the fault of a token in the wrong place, told by what stands before it on its line."""
    if "mapping values are not allowed" in words:
        if ":" in before:
            return noticed, "a second ':' in this entry", "quotes around a text that holds ': '"
        hint = "a ':' and a space after the key above, and neighbours in one column"
        return noticed, "no key can end at this ':'", hint
    if "node content" in words:
        if not text[noticed:].strip():
            return noticed, "the file ends inside an open bracket", "a closing bracket"
        char = visible(text[noticed])
        return noticed, f"a value cannot begin with '{char}'", "a value, or quotes around the text"
    if before.strip():
        return noticed, "text follows a finished value", "nothing after a closing quote or bracket"
    hint = "the indentation of its neighbours, and no list items among keys"
    return noticed, "this line does not fit the lines above", hint
