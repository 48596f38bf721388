# SPDX-License-Identifier: Apache-2.0
"""Journals that a process left behind when it ended, with changes that nobody has saved.

A broken one must not stop the start. Each is taken, which renames it, before anything in it is
replayed: what ends one process cannot end the next one too.
"""

from __future__ import annotations

import json
from contextlib import suppress
from dataclasses import dataclass, field
from datetime import datetime
from pathlib import Path
from typing import Any, get_args

from rfplan.edits import JsonError, edit_from_json
from rfplan.files.journal import KIND, SUFFIX, Did, Entry, Point, name_of
from rfplan.files.locks import is_held
from rfplan.model.plan import State

MAX_BYTES = 50_000_000

_TAKEN = ".taken"


@dataclass(frozen=True, slots=True)
class LeftJournal:
    """What a journal tells beyond the content of the file, and why it breaks off if it does.

    Where the file has other content by now, `same_file` is false.
    """

    path: Path
    changes: tuple[Entry, ...]
    broken: str
    same_file: bool

    def take(self) -> Path | None:
        """Rename the journal, so that it is not offered again; None if somebody else has it."""
        taken = self.path.with_suffix(_TAKEN)
        try:
            self.path.rename(taken)
        except OSError:
            return None
        return taken


def left_journals(plan: Path, sha256: str, folder: Path) -> tuple[LeftJournal, ...]:
    """Return the journals of a plan file that no process writes any more, oldest first.

    `sha256` is the hash of its content. Journals with nothing unsaved in them are removed.
    """
    found = [_read(path, sha256) for path in _in_order(plan, folder) if _is_left(path)]
    for journal in found:
        if not (journal.changes or journal.broken):
            with suppress(OSError):
                journal.path.unlink()
    return tuple(journal for journal in found if journal.changes or journal.broken)


def _in_order(plan: Path, folder: Path) -> list[Path]:
    with suppress(OSError):
        paths = folder.glob(f"{name_of(plan)}-*{SUFFIX}")
        return sorted(paths, key=lambda path: (path.stat().st_mtime_ns, path.name))
    return []


def _is_left(path: Path) -> bool:
    """Tell whether a journal is nobody's; an empty one is just being made."""
    try:
        return path.stat().st_size > 0 and not is_held(path)
    except OSError:
        return False


def _read(path: Path, sha256: str) -> LeftJournal:
    reader, broken = _Reader(), ""
    try:
        if path.stat().st_size > MAX_BYTES:
            raise JsonError("it is too large")
        for line in path.read_bytes().splitlines(keepends=True):
            reader.read(line)
    except (OSError, ValueError, RecursionError) as error:
        reason = str(error) if isinstance(error, JsonError) else "it cannot be read"
        broken = f"journal line {reader.lines + 1}: {reason}"
    start, same_file = reader.start(sha256)
    return LeftJournal(path, _in_effect(reader.changes[start:]), broken, same_file)


@dataclass(slots=True)
class _Reader:
    """Reads line after line; raises ValueError at the first that is no line of a journal."""

    lines: int = 0
    changes: list[Entry] = field(default_factory=list)
    _points: list[tuple[str, bool, int]] = field(default_factory=list)

    def read(self, line: bytes) -> None:
        if not line.endswith(b"\n"):
            raise JsonError("it is not complete")
        told = json.loads(line)
        if not isinstance(told, dict) or not isinstance(told.get("on"), str):
            raise JsonError("it is no line of a journal")
        if not self.lines:
            self._header(told)
        elif told.get("point") in get_args(Point):
            self._points.append((told["on"], told["point"] != "saving", len(self.changes)))
        else:
            self._change(_entry(told), told["on"])
        self.lines += 1

    def _change(self, change: Entry, on: str) -> None:
        if change.did == "all":
            self._points.append((on, True, len(self.changes)))
        self.changes.append(change)

    def start(self, sha256: str) -> tuple[int, bool]:
        """Return how many changes the content of the file has, and whether that is certain."""
        here = [start for on, _, start in self._points if on == sha256]
        known = [start for _, is_on_disk, start in self._points if is_on_disk]
        return (here or known or [0])[-1], bool(here)

    def _header(self, told: dict[str, Any]) -> None:
        if told.get("rfplan") != KIND:
            raise JsonError(f"it does not begin with {KIND}")
        self._points.append((told["on"], True, 0))


def _entry(told: dict[str, Any]) -> Entry:
    state, at = told.get("state"), told.get("at")
    did: Any = told.get("did")
    if did not in get_args(Did) or state not in list(State) or not isinstance(at, str):
        raise JsonError("it is no change")
    return Entry(did, edit_from_json(told.get("edit")), State(state), datetime.fromisoformat(at))


def _in_effect(changes: list[Entry]) -> tuple[Entry, ...]:
    """Return the changes without those that were undone.

    An undo of what was saved before stands for itself: it is an edit that puts values back.
    """
    left: list[Entry] = []
    for change in changes:
        if change.did == "undo" and left and left[-1].did in ("do", "redo"):
            left.pop()
        else:
            left.append(change)
    return tuple(left)
