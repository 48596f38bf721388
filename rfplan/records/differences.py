# SPDX-License-Identifier: Apache-2.0
"""Where two packages of the same inputs differ: member, place in it, before and after."""

from __future__ import annotations

import csv
import io
import json
from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from itertools import zip_longest
from pathlib import PurePosixPath

ABSENT = "-"
THERE = "there"


@dataclass(frozen=True, slots=True)
class Difference:
    """One thing that is not as it was."""

    member: str
    place: str
    before: str
    after: str


def differences(before: Mapping[str, bytes], after: Mapping[str, bytes]) -> Iterator[Difference]:
    """Yield what differs: by key in JSON, by cell in tables, else by line."""
    for name in sorted({*before, *after}):
        was, now = before.get(name), after.get(name)
        if was is None or now is None:
            yield Difference(name, "member", _presence(was), _presence(now))
        elif was != now:
            yield from _in_member(name, was, now)


def _presence(content: bytes | None) -> str:
    return ABSENT if content is None else THERE


def _in_member(name: str, was: bytes, now: bytes) -> Iterator[Difference]:
    """Yield the differences of one member, at least one."""
    find = _WAYS.get(PurePosixPath(name).suffix, _in_lines)
    try:
        found = list(find(was.decode(), now.decode()))
    except (ValueError, RecursionError, csv.Error):  # not what its name says
        found = []
    for place, before, after in found or [("content", "as packed", "other")]:
        yield Difference(name, place, before, after)


_Found = Iterator[tuple[str, str, str]]


def _in_json(was: str, now: str) -> _Found:
    return _in_values("", json.loads(was), json.loads(now))


def _in_values(place: str, was: object, now: object) -> _Found:
    if isinstance(was, dict) and isinstance(now, dict):
        for key in {**was, **now}:
            yield from _in_values(f"{place}.{key}".strip("."), *_at(key, was, now))
    elif isinstance(was, list) and isinstance(now, list):
        one, other = _by_name(was), _by_name(now)
        for key in {**one, **other}:
            yield from _in_values(f"{place}[{key}]", *_at(key, one, other))
    elif was != now or type(was) is not type(now):
        yield place, _told(was), _told(now)


_NOTHING = object()


def _at(key: object, was: Mapping[object, object], now: Mapping[object, object]) -> list[object]:
    return [was.get(key, _NOTHING), now.get(key, _NOTHING)]


def _by_name(things: list[object]) -> dict[object, object]:
    """Return things by their id or key where all have one of their own, else by number from 0."""
    for word in ("id", "key"):
        names = [thing.get(word) if isinstance(thing, dict) else None for thing in things]
        if all(isinstance(name, str) for name in names) and len({*names}) == len(names):
            return dict(zip(names, things, strict=True))
    return dict(enumerate(things))


def _told(value: object) -> str:
    return ABSENT if value is _NOTHING else json.dumps(value)


def _in_cells(was: str, now: str) -> _Found:
    before, after = (list(csv.reader(io.StringIO(text, newline=""))) for text in (was, now))
    none: list[str] = []
    for row, (one, other) in enumerate(zip_longest(before, after, fillvalue=none), start=1):
        for column, (cell, new) in enumerate(zip_longest(one, other, fillvalue=ABSENT), start=1):
            if cell != new:
                yield f"row {row} column {column}", cell, new


def _in_lines(was: str, now: str) -> _Found:
    """Yield the first line that differs; how many others there are says the same sheet's JSON."""
    lines = zip_longest(was.splitlines(), now.splitlines(), fillvalue=ABSENT)
    for number, (line, new) in enumerate(lines, start=1):
        if line != new:
            yield f"line {number}, the first", line.strip(), new.strip()
            return


_WAYS = {".json": _in_json, ".csv": _in_cells}
