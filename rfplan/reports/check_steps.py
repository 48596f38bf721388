# SPDX-License-Identifier: Apache-2.0
"""Steps of the ground check: what to do, what to expect, and blanks for what was read."""

from __future__ import annotations

from collections.abc import Callable, Iterable
from dataclasses import dataclass
from itertools import groupby
from typing import TypeVar

from rfplan.reports.cells import nothing, words
from rfplan.reports.heading import signature
from rfplan.reports.sheet import Cell, Field, Table, table, text_field
from rfplan.sources import Citation, citation

T = TypeVar("T")


@dataclass(frozen=True, slots=True)
class Step:
    """One thing to do on one object; `number` tells the kind of check, the same in every plan."""

    number: int
    object: str
    do: str
    expect: Cell
    limit: Cell
    source: str


def step(number: int, object: str, do: str, expect: str, limit: str | None, source: str) -> Step:
    """Return a step that is all words."""
    return Step(number, object, do, words(expect), words(limit) if limit else nothing(), source)


def steps_table(key: str, title: str, steps: Iterable[Step]) -> Table:
    """Return steps as a table, numbered 11.1, 11.2; a source that all share stands in the title."""
    rows = numbered(steps, lambda one: one.number)
    sources = {one.source for _, one in rows}
    fields: list[Field[tuple[str, Step]]] = [
        text_field("step", "step", lambda row: words(row[0])),
        text_field("object", "on", lambda row: words(row[1].object)),
        text_field("do", "what to do", lambda row: words(row[1].do)),
        text_field("expect", "expected", lambda row: row[1].expect),
        text_field("limit", "limit", lambda row: row[1].limit),
        *blanks(),
    ]
    if len(sources) == 1:
        return table(key, f"{title}. Source: {sources.pop()}", fields, rows, stub=2)
    source = text_field("source", "source", _source)
    return table(key, title, [*fields, source], rows, stub=2)


def _source(row: tuple[str, Step]) -> Cell:
    return words(row[1].source)


def numbered(things: Iterable[T], number: Callable[[T], int]) -> list[tuple[str, T]]:
    """Return things of rising numbers with 'number.place' before each."""
    return [
        (f"{kind}.{place}", thing)
        for kind, group in groupby(things, number)
        for place, thing in enumerate(group, start=1)
    ]


def blanks() -> list[Field[T]]:
    """Return what the one who checks fills in."""
    return [
        text_field("reading", "reading", lambda thing: signature()),
        text_field("instrument", "instrument", lambda thing: signature()),
        text_field("outcome", "PASS/FAIL", lambda thing: signature()),
        text_field("initials", "initials", lambda thing: signature()),
    ]


def cited(reference: str) -> str:
    """Return a source of the shipped tables as a sheet prints it, with how well it was read."""
    return spoken(citation(reference))


def spoken(source: Citation) -> str:
    """Return title, place and how a document came to be known."""
    if source.text() == source.document.source_class.words.capitalize():
        return source.text().lower()
    return f"{source.text()} ({source.document.source_class.words})"
