# SPDX-License-Identifier: Apache-2.0
"""How wide text is on a terminal, and how it is broken into lines."""

from __future__ import annotations

import unicodedata
from collections.abc import Iterator

from rfplan.reports.sheet import Align


def display_width(text: str) -> int:
    """Return the columns a text takes: two for wide characters, none for combining marks."""
    return len(text) if text.isascii() else sum(map(_character_width, text))


def _character_width(character: str) -> int:
    if unicodedata.combining(character):
        return 0
    return 2 if unicodedata.east_asian_width(character) in "WF" else 1


def padded(text: str, width: int, align: Align) -> str:
    """Return a text filled up with spaces on the side it does not keep to."""
    blanks = " " * (width - display_width(text))
    return blanks + text if align == "right" else text + blanks


def wrapped(text: str, width: int) -> list[str]:
    """Return the lines of a text, broken at spaces, inside a word only where it is too long."""
    lines = [""]
    for piece in _pieces(text, width):
        joined = f"{lines[-1]} {piece}" if lines[-1] else piece
        if display_width(joined) <= width:
            lines[-1] = joined
        else:
            lines.append(piece)
    return lines


def _pieces(text: str, width: int) -> Iterator[str]:
    """Yield words, those wider than a line in parts that fit."""
    for word in text.split():
        if display_width(word) <= width:
            yield word
            continue
        part = ""
        for character in word:
            if part and display_width(part + character) > width:
                yield part
                part = ""
            part += character
        yield part
