# SPDX-License-Identifier: Apache-2.0
"""Lines and numbers of a Touchstone file, and where they stand."""

from __future__ import annotations

import math
import re
from collections.abc import Iterator
from dataclasses import dataclass

from rfplan.files.faults import quoted
from rfplan.files.nodes import Mark
from rfplan.files.problems import LINE_BREAK

COMMENT = "!"

_WORD = re.compile(r"\S+")
_NUMBER = re.compile(r"[+-]?(?:[0-9]+\.?[0-9]*|\.[0-9]+)(?:[eE][+-]?[0-9]+)?")
_WITHOUT_END = re.compile(r"[+-]?(?:nan|inf|infinity)", re.IGNORECASE)


@dataclass(frozen=True, slots=True)
class Line:
    """One line without its comment: its number from 1, and where it starts in the text."""

    number: int
    start: int
    text: str

    def words(self) -> list[str]:
        """Return what stands on it between blanks."""
        return self.text.split()

    def mark(self, index: int) -> Mark:
        """Return the place of a word; of the end of the line where there are not so many."""
        spans = [found.span() for found in _WORD.finditer(self.text)]
        end = len(self.text.rstrip())
        first, last = spans[index] if index < len(spans) else (end, end)
        return Mark(self.number, first + 1, self.start + first, self.start + last)


def lines_of(text: str) -> Iterator[Line]:
    """Yield the lines that hold more than a comment."""
    start = 0
    number = 1
    for found in LINE_BREAK.finditer(text):
        yield from _line(number, start, text[start : found.start()])
        number, start = number + 1, found.end()
    yield from _line(number, start, text[start:])


def _line(number: int, start: int, text: str) -> Iterator[Line]:
    told = text.partition(COMMENT)[0]
    if told.strip():
        yield Line(number, start, told)


def number_of(word: str) -> float | None:
    """Return a finite decimal number, or None for anything else."""
    if _NUMBER.fullmatch(word) is None:
        return None
    value = float(word)
    return value if math.isfinite(value) else None


def number_fault(word: str) -> str:
    """Return why a word is not a number."""
    if _NUMBER.fullmatch(word) or _WITHOUT_END.fullmatch(word):
        return f"{quoted(word)} is not a finite number"
    if "," in word and number_of(word.replace(",", ".", 1)) is not None:
        return f"decimal comma in {quoted(word)}"
    return f"{quoted(word)} is not a number"
