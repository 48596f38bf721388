# SPDX-License-Identifier: Apache-2.0
"""From the events of PyYAML to nodes: the narrow part of YAML that the files are written in."""

from __future__ import annotations

import math
import re
from collections.abc import Iterator
from dataclasses import replace
from typing import NoReturn

import yaml

from rfplan.files.nodes import Mark, Node, Scalar, Style
from rfplan.files.problems import LINE_BREAK, Problem, ProblemsError, position, visible
from rfplan.files.syntax import BARE_QUESTION_MARK, QUOTED_QUESTION_MARK, syntax_problem

MAX_DEPTH = 40
MAX_NODES = 200_000
MAX_TEXT_LENGTH = 10_000
MAX_PROBLEMS = 200  # nobody reads on after these

LOADER = getattr(yaml, "CSafeLoader", yaml.SafeLoader)

_WORDS: dict[str, Scalar] = {"": None, "~": None, "null": None, "true": True, "false": False}
_INTEGER = re.compile(r"[-+]?[0-9]+")
_NUMBER = re.compile(r"[-+]?(?:(?:0|[1-9][0-9]*)(?:\.[0-9]*)?|\.[0-9]+)(?:[eE][-+]?[0-9]+)?")
_MAX_INTEGER_LENGTH = 18
_CONTROL = re.compile("[\x00-\x08\x0b\x0c\x0e-\x1f\x7f-\x9f\ud800-\udfff]")
_KEY_SIGN = re.compile(r"(?:[^?#]++|#[^\r\n]*+)*+\?")  # '?' before a key, comments passed over
_STYLES: dict[str, Style] = {"'": "single", '"': "double", "|": "literal", ">": "folded"}


def plain_value(text: str) -> Scalar:
    """Return what an unquoted text means: null, true, false, a decimal number, else the text.

    Raises OverflowError for an integer over 18 characters and for a number beyond a float.
    """
    if text in _WORDS:
        return _WORDS[text]
    if not _NUMBER.fullmatch(text):
        return text
    whole = _INTEGER.fullmatch(text) is not None
    if math.isinf(float(text)) or (whole and len(text) > _MAX_INTEGER_LENGTH):
        raise OverflowError(text)
    return int(text) if whole else float(text)


def compose(text: str, file: str) -> Node:
    """Return the root mapping of the one document in `text`, or raise every problem found."""
    composer = _Composer(text, file)
    root = None
    try:
        root = composer.document()
    except yaml.YAMLError as error:
        composer.problems.append(syntax_problem(error, text, file))
    except _GaveUpError:
        pass
    if root is None or composer.problems:
        raise ProblemsError(composer.problems)
    return root


class _GaveUpError(Exception):
    """Reading on makes no sense; the reason is among the problems."""


class _Composer:
    """Walks the events once, with the keys that lead to the present node at hand."""

    def __init__(self, text: str, file: str) -> None:
        self.problems: list[Problem] = []
        self._text = text
        self._file = file
        self._events: Iterator[yaml.Event] = yaml.parse(text, Loader=LOADER)
        self._way: list[str] = []
        self._node_count = 0
        self._content_end = 0

    def document(self) -> Node | None:
        """Return the root, with a problem noted if it is no mapping."""
        self._next()  # start of the stream
        start = self._next()
        root = self._only_document(start) if isinstance(start, yaml.DocumentStartEvent) else None
        if root is None or root.value is None:
            self._report(Mark(1, 1, 0, 0), "the file is empty", "entries 'key: value'")
        elif not isinstance(root.value, dict):
            self._report(root.mark, "the file is not a mapping", "entries 'key: value'")
        return root

    def _only_document(self, start: yaml.DocumentStartEvent) -> Node:
        if start.version or start.tags:
            self._report(_span(start), "lines that begin with '%' are not allowed", "entries only")
        root = self._node(self._next())
        self._next()  # end of the document
        following = self._next()
        if isinstance(following, yaml.DocumentStartEvent):
            self._report(_span(following), "a second document starts here", "one in a file")
        return root

    def _next(self) -> yaml.Event:
        try:
            return next(self._events)
        except (ValueError, OverflowError):  # the Python loader on an escape such as \UFFFFFFFF
            place = Mark(*position(self._text, self._content_end), self._content_end, 0)
            message = "an escape behind this place names no character"
            self._give_up(place, message, "hexadecimal digits as in '\\u00b5'")

    def _node(self, event: yaml.Event) -> Node:
        self._check_node(event)
        if isinstance(event, yaml.AliasEvent):
            return Node(None, _span(event))
        if isinstance(event, yaml.ScalarEvent):
            return self._scalar(event)
        if len(self._way) >= MAX_DEPTH:
            self._give_up(_span(event), "the nesting is too deep", f"at most {MAX_DEPTH} levels")
        if isinstance(event, yaml.SequenceStartEvent):
            return self._sequence(event)
        return self._mapping(event)

    def _check_node(self, event: yaml.Event) -> None:
        self._node_count += 1
        if self._node_count > MAX_NODES:
            self._give_up(_span(event), "too many values", f"at most {MAX_NODES} in a file")
        name = getattr(event, "anchor", None)
        if name is not None:
            sort = "alias '*" if isinstance(event, yaml.AliasEvent) else "anchor '&"
            message = f"the {sort}{visible(name)}' is not allowed"
            self._report(_span(event), message, "the value written out")
        if getattr(event, "tag", None) is not None:
            self._report(_span(event), "tags such as '!name' are not allowed", "the value alone")

    def _scalar(self, event: yaml.ScalarEvent) -> Node:
        mark, style = self._text_mark(event, _span(event)), _style(event)
        if style != "plain":
            return Node(event.value, mark, style=style)
        try:
            return Node(plain_value(event.value), mark)
        except OverflowError:
            message = f"the number {visible(event.value)} is too large"
            self._report(mark, message, "a smaller number, or quotes if it is text")
            return Node(event.value, mark)

    def _text_mark(self, event: yaml.ScalarEvent, mark: Mark) -> Mark:
        """Return the place of a text after a look at its content."""
        if _style(event) in ("literal", "folded"):  # PyYAML adds the blank lines behind it
            content = self._text[mark.start : mark.end]
            line_end = LINE_BREAK.search(content, len(content.rstrip(" \t\r\n")))
            mark = replace(mark, end=mark.start + line_end.start()) if line_end else mark
        self._content_end = mark.end
        if len(event.value) > MAX_TEXT_LENGTH:
            self._report(mark, "the text is too long", f"at most {MAX_TEXT_LENGTH} characters")
        if control := _CONTROL.search(event.value):
            message = f"the text holds the control character {visible(control[0])}"
            self._report(mark, message, "characters that can be seen")
        return mark

    def _sequence(self, start: yaml.SequenceStartEvent) -> Node:
        items: list[Node] = []
        while not isinstance(event := self._next(), yaml.SequenceEndEvent):
            self._way.append(str(len(items)))
            items.append(self._node(event))
            self._way.pop()
        return Node(items, self._container_mark(start, event), style=_layout(start))

    def _mapping(self, start: yaml.Event) -> Node:
        children: dict[str, Node] = {}
        key_marks: dict[str, Mark] = {}
        while not isinstance(event := self._next(), yaml.MappingEndEvent):
            key, key_mark = self._key(event)
            self._way.append(key)
            if key in key_marks:
                lines = f"on line {key_marks[key].line} and again on line {key_mark.line}"
                self._report(key_mark, f"the key '{visible(key)}' stands {lines}", "each key once")
            key_marks.setdefault(key, key_mark)
            children.setdefault(key, self._node(self._next()))
            self._way.pop()
        return Node(children, self._container_mark(start, event), key_marks, _layout(start))

    def _key(self, event: yaml.Event) -> tuple[str, Mark]:
        """Return the text of a key and its place; a refused one goes by its source text."""
        if not isinstance(event, yaml.ScalarEvent):
            self._way.append("?")
            mark = self._node(event).mark
            self._way.pop()
            self._report(mark, "a key must be one text", "'key: value'")
            return self._text[mark.start : mark.end], mark
        self._check_node(event)
        span = _span(event)
        self._check_key_sign(span.start)
        mark = self._text_mark(event, span)
        if event.value == "<<" and _style(event) == "plain":
            self._report(mark, "the merge key '<<' is not allowed", "the entries written out")
        return event.value, mark

    def _check_key_sign(self, key_start: int) -> None:
        """Refuse '? key': a list item of one bare '?' would silently become a mapping."""
        if sign := _KEY_SIGN.match(self._text, self._content_end, key_start):
            line, column = position(self._text, sign.end() - 1)
            mark = Mark(line, column, sign.end() - 1, sign.end())
            self._report(mark, BARE_QUESTION_MARK, QUOTED_QUESTION_MARK)

    def _container_mark(self, start: yaml.Event, end: yaml.Event) -> Mark:
        """Return the place up to the closing bracket, without brackets up to the last content."""
        mark = _span(start)
        if self._text.startswith(("[", "{"), mark.start):
            self._content_end = _span(end).end
        return Mark(mark.line, mark.column, mark.start, self._content_end)

    def _report(self, mark: Mark, message: str, expected: str) -> None:
        key = ".".join(self._way) or None
        problem = Problem(self._file, mark.line, mark.column, message, expected, key)
        self.problems.append(problem)
        if len(self.problems) >= MAX_PROBLEMS:
            raise _GaveUpError

    def _give_up(self, mark: Mark, message: str, expected: str) -> NoReturn:
        self._report(mark, message, expected)
        raise _GaveUpError


def _span(event: yaml.Event) -> Mark:
    start, end = event.start_mark, event.end_mark
    assert start is not None  # PyYAML sets both
    assert end is not None
    return Mark(start.line + 1, start.column + 1, start.index, end.index)


def _style(event: yaml.ScalarEvent) -> Style:
    return _STYLES.get(event.style or "", "plain")


def _layout(event: yaml.Event) -> Style:
    return "flow" if getattr(event, "flow_style", False) else "block"
