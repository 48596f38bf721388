# SPDX-License-Identifier: Apache-2.0
"""What is wrong in a file, and where: every loader reports in this one form."""

from __future__ import annotations

import re
from collections.abc import Iterable
from dataclasses import dataclass, field

from rfplan.model.record import visible as visible

LINE_BREAK = re.compile(r"\r\n|\r|\n")

_MAX_LINE = 2000


@dataclass(frozen=True, slots=True, order=True)
class Problem:
    """One fault at one place; line and column count from 1, `key` is the dotted way to it."""

    file: str
    line: int
    column: int
    message: str
    expected: str = ""
    key: str | None = field(default=None, compare=False)

    def text(self) -> str:
        """Return 'file:line:column: message; expected ...', safe to print on a terminal."""
        line = f"{self.file}:{self.line}:{self.column}: {self.message}"
        if self.expected:
            line += f"; expected {self.expected}"
        return visible(line, _MAX_LINE)

    def __str__(self) -> str:
        return self.text()


class ProblemsError(Exception):
    """A file cannot be used; carries all its problems, sorted and each one once."""

    def __init__(self, problems: Iterable[Problem]) -> None:
        self.problems: tuple[Problem, ...] = tuple(sorted(set(problems)))
        super().__init__(self.problems)

    def __str__(self) -> str:
        return "\n".join(problem.text() for problem in self.problems)


def position(text: str, offset: int) -> tuple[int, int]:
    """Return line and column, both from 1, of a character offset."""
    lines = LINE_BREAK.split(text[:offset])
    return len(lines), len(lines[-1]) + 1
