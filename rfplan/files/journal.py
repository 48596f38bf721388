# SPDX-License-Identifier: Apache-2.0
"""The journal: every accepted change on disk, outside the folder of the plan, before it is shown.

One file for each process and plan, one JSON object a line, each line flushed to the disk.
"""

from __future__ import annotations

import json
import os
from contextlib import suppress
from dataclasses import dataclass
from datetime import datetime
from hashlib import sha256
from itertools import count
from pathlib import Path
from typing import IO, Any, Literal, TypeAlias

from rfplan.edits import Edit
from rfplan.files.locks import hold
from rfplan.files.replacing import sync_folder, words_of
from rfplan.model.plan import State

KIND = "journal/1"
SUFFIX = ".jsonl"

Did: TypeAlias = Literal["do", "undo", "redo", "all"]
Point: TypeAlias = Literal["reading", "saving", "saved"]


@dataclass(frozen=True, slots=True)
class Entry:
    """An accepted change: what was done, when and in which state.

    An undo is an edit that puts values back. "all" is one that puts in place all that is unsaved,
    so that nothing before it is needed any more.
    """

    did: Did
    edit: Edit
    state: State
    at: datetime


def journal_folder() -> Path:
    """Return the folder of all journals of this user."""
    from platformdirs import user_state_path

    return user_state_path("rfplan") / "journal"


def name_of(plan: Path) -> str:
    """Return what the names of all journals of a plan file begin with."""
    return sha256(str(plan.resolve()).encode()).hexdigest()[:16]


class Journal:
    """Writes the journal of one plan file; the file is made with the first change.

    Where it cannot be written, `trouble` says why: work goes on, and the user has to know.
    """

    def __init__(self, plan: Path, sha256: str, folder: Path) -> None:
        self.trouble = ""
        self._plan, self._folder, self._on = plan, folder, sha256
        self._path: Path | None = None
        self._stream: IO[bytes] | None = None

    def write(self, entry: Entry, on: str = "") -> None:
        """Keep an accepted change, made on the content with the hash `on` if that is another."""
        self._on = on or self._on
        told = {"did": entry.did, "edit": entry.edit.to_json(), "state": entry.state.value}
        self._line({**told, "at": entry.at.isoformat(), "on": self._on})

    def mark(self, point: Point, sha256: str) -> None:
        """Note which content the file has from here on, or is about to get."""
        if self._stream is not None:
            self._line({"point": point, "on": sha256})
        if point != "saving":
            self._on = sha256

    def close(self, *, keep: bool) -> None:
        """End the journal; nothing of it is kept where all is saved or given up."""
        if self._stream is not None:
            self._stream.close()
        if self._path is not None and not keep:
            with suppress(OSError):
                self._path.unlink(missing_ok=True)
        self._stream = self._path = None

    def _line(self, told: dict[str, Any]) -> None:
        """Add a line, whole or not at all."""
        try:
            stream = self._stream or self._started()
            end = stream.seek(0, os.SEEK_END)
            try:
                _write(stream, told)
            except OSError:
                stream.truncate(end)
                raise
            self.trouble = ""
        except OSError as error:
            self.trouble = words_of(error)

    def _started(self) -> IO[bytes]:
        """Open a new file that says which plan it is about."""
        self._folder.mkdir(mode=0o700, parents=True, exist_ok=True)
        path, stream = self._new_file()
        hold(stream)
        try:
            _write(stream, {"rfplan": KIND, "plan": str(self._plan.resolve()), "on": self._on})
        except OSError:
            stream.close()
            path.unlink(missing_ok=True)
            raise
        sync_folder(self._folder)
        self._path, self._stream = path, stream
        return stream

    def _new_file(self) -> tuple[Path, IO[bytes]]:
        stem = f"{name_of(self._plan)}-{os.getpid()}"
        for number in count():
            path = self._folder / f"{stem}{f'-{number}' if number else ''}{SUFFIX}"
            with suppress(FileExistsError):
                return path, open(path, "xb", buffering=0, opener=_private)
        raise AssertionError("count() does not end")


def _private(path: str, flags: int) -> int:
    return os.open(path, flags, 0o600)


def _write(stream: IO[bytes], told: dict[str, Any]) -> None:
    rest = (json.dumps(told, ensure_ascii=True, allow_nan=False) + "\n").encode("ascii")
    while rest:
        rest = rest[stream.write(rest) :]
    os.fsync(stream.fileno())
