# SPDX-License-Identifier: Apache-2.0
"""Whether another process still works with a file; the one place that asks the system for it."""

from __future__ import annotations

from contextlib import suppress
from pathlib import Path
from typing import IO

try:
    import fcntl
except ImportError:  # no such locks here: a file in use cannot be renamed there
    fcntl = None  # type: ignore[assignment]


def hold(stream: IO[bytes]) -> None:
    """Mark an open file as in use until it is closed or the process ends, however it ends."""
    if fcntl is not None:
        with suppress(OSError):  # a file system without locks
            fcntl.flock(stream, fcntl.LOCK_EX | fcntl.LOCK_NB)


def is_held(path: Path) -> bool:
    """Tell whether a process has marked a file as in use."""
    if fcntl is None:
        return False
    with path.open("rb") as stream:
        try:
            fcntl.flock(stream, fcntl.LOCK_EX | fcntl.LOCK_NB)
        except OSError:
            return True
    return False
