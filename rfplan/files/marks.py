# SPDX-License-Identifier: Apache-2.0
"""Read a YAML file into nodes that know where they stand, or refuse it with every problem."""

from __future__ import annotations

import re
from dataclasses import dataclass
from pathlib import Path

from rfplan.files.composing import compose
from rfplan.files.nodes import Mark, Node
from rfplan.files.opening import read_text
from rfplan.files.problems import LINE_BREAK, Problem, ProblemsError, position, visible

__all__ = ["ID_PATTERN", "Document", "Mark", "Node", "is_id", "parse", "read"]

ID_PATTERN = re.compile(r"\A[a-z][a-z0-9_]{0,39}\Z")

_BYTE_ORDER_MARK = "\ufeff"

# YAML takes U+0085, U+2028 and U+2029 for line ends, editors do not: lines would be miscounted.
_UNPRINTABLE = re.compile(
    "[\x00-\x08\x0b\x0c\x0e-\x1f\x7f-\x9f\u2028\u2029\ud800-\udfff\ufeff\ufffe\uffff]"
)


@dataclass(frozen=True, slots=True)
class Document:
    """One file: its text without byte order mark, which all offsets count in, and its nodes."""

    file: str
    text: str
    root: Node
    newline: str
    bom: bool

    def source(self, mark: Mark) -> str:
        """Return the text at a place as it was written, quotes included."""
        return self.text[mark.start : mark.end]

    def content(self) -> bytes:
        """Return the bytes of the file."""
        return (_BYTE_ORDER_MARK * self.bom + self.text).encode()


def is_id(text: str) -> bool:
    """Tell whether a text is an id: snake_case of at most 40 characters."""
    return ID_PATTERN.match(text) is not None


def read(path: Path, display_name: str | None = None) -> Document:
    """Read a file of at most 2 MB; its problems name it by `display_name`, else by its path."""
    file = str(path) if display_name is None else display_name
    return parse(read_text(path, file), file)


def parse(text: str, file: str) -> Document:
    """Read the text of a file; raises ProblemsError with all that is wrong."""
    body = text.removeprefix(_BYTE_ORDER_MARK)
    if unprintable := _UNPRINTABLE.search(body):
        line, column = position(body, unprintable.start())
        message = f"the character {visible(unprintable[0])} is not allowed in a file"
        raise ProblemsError([Problem(file, line, column, message, "characters that can be seen")])
    first_break = LINE_BREAK.search(body)
    newline = first_break[0] if first_break else "\n"
    return Document(file, body, compose(body, file), newline, bom=body != text)
