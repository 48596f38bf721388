# SPDX-License-Identifier: Apache-2.0
"""The problems of one file while it is being read, and the words in which they are told."""

from __future__ import annotations

from collections.abc import Iterable
from difflib import SequenceMatcher, get_close_matches

from rfplan.files.nodes import Location, Mark, Node
from rfplan.files.problems import Problem, ProblemsError, visible

MAX_PROBLEMS = 200

_LONGEST_COMPARED = 64
_MOST_LISTED = 12
_EXAMPLES = 3
_AS_NEAR = 0.05

# Steps of a way that a message leaves out: what it speaks of is the id behind them.
_SECTIONS = frozenset(
    {
        "units",
        "antennas",
        "ground_planes",
        "cables",
        "parts",
        "paths",
        "spacing",
        "groups",
        "masses",
    }
    | {"measurements", "isolation", "waivers", "accepted", "people", "sources", "ports"}
    | {"found", "design", "built"}
    | {"plates", "skin", "zones", "frames", "route", "nodes", "segments", "variants"}
    | {"attenuation", "spacings", "materials", "zone_kinds"}
)
_IMPLIED = "all"  # the key that a lone value for all bands is kept under


class Faults:
    """Collects what is wrong in one file; gives up, by raising all of it, when it is too much."""

    def __init__(self, file: str, name: str = "", *, is_entry: bool = False) -> None:
        """`name` stands for the whole file in messages; an entry's is the id of all in it."""
        self.file = file
        self.problems: list[Problem] = []
        self.name = name
        self._lead = [name] if is_entry else []
        self._said: set[tuple[object, ...]] = set()

    def add(self, mark: Mark, message: str, expected: str = "", loc: Location = ()) -> None:
        """Add a problem, unless the same was said of it in another state or of a copy."""
        said = (mark.line, mark.column, loc[-1:], expected)
        if loc and said in self._said:
            return
        self._said.add(said)
        key = ".".join(map(str, loc)) or None
        self.problems.append(Problem(self.file, mark.line, mark.column, message, expected, key))
        if len(self.problems) >= MAX_PROBLEMS:
            raise ProblemsError(self.problems)

    def say(self, root: Node, loc: Location, words: str, expected: str = "") -> None:
        """Add 'ids on the way: words' at the place of what stands at the way, or nearest to it."""
        self.add(root.mark_at(loc), f"{self.subject(loc)}: {words}", expected, loc)

    def subject(self, loc: Location) -> str:
        """Return what a message about a way begins with: the ids on it, joined by points."""
        steps = [str(step + 1) if isinstance(step, int) else visible(step) for step in loc]
        named = [step for step in steps if step not in _SECTIONS and step != _IMPLIED]
        return ".".join(self._lead + (named or steps[-1:])) or self.name

    def raise_any(self) -> None:
        """Raise ProblemsError if there is any problem."""
        if self.problems:
            raise ProblemsError(self.problems)


def quoted(text: object) -> str:
    """Return a text of a file in quotes, fit for a message."""
    return f"'{visible(str(text))}'"


def listed(texts: Iterable[str], link: str = "or") -> str:
    """Return texts in quotes as 'a', 'b' or 'c'."""
    *front, last = (quoted(text) for text in texts)
    return f"{', '.join(front)} {link} {last}" if front else last


def one_of(choices: Iterable[str], text: object, what: str) -> str:
    """Return what was expected instead of `text`: near misses, else the choices or some of them."""
    known = sorted(choices)
    if near := near_misses(text, known):
        return listed(near)
    if not known:
        return f"{what}, of which there is none"
    if len(known) <= _MOST_LISTED:
        return listed(known)
    return f"{what} such as {listed(known[:_EXAMPLES])}"


def near_misses(text: object, choices: Iterable[str]) -> list[str]:
    """Return the choice that looks most like the text, and others that look as much like it."""
    if not isinstance(text, str) or len(text) > _LONGEST_COMPARED:
        return []
    near = get_close_matches(text, list(choices), n=_EXAMPLES)
    likeness = [SequenceMatcher(a=choice, b=text).ratio() for choice in near]
    return [c for c, ratio in zip(near, likeness, strict=True) if ratio > likeness[0] - _AS_NEAR]
