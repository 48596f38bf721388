# SPDX-License-Identifier: Apache-2.0
"""A file replaced in one step: whoever reads it sees the old content or the new, never a part."""

from __future__ import annotations

import errno
import os
import stat
from collections.abc import Callable, Iterator
from contextlib import contextmanager, suppress
from pathlib import Path
from secrets import token_hex

_ANY_WRITE = stat.S_IWUSR | stat.S_IWGRP | stat.S_IWOTH
_FULL = (errno.ENOSPC, getattr(errno, "EDQUOT", errno.ENOSPC))


class NotSavedError(Exception):
    """The file is as it was; the text says why, fit for a screen."""


def is_read_only(path: Path) -> bool:
    """Tell whether a file, or its folder, is not to be written, whoever asks.

    The mode is looked at as well as the right: root may write to what is marked read-only.
    """
    try:
        target = path.resolve()
        marked = target.exists() and not target.stat().st_mode & _ANY_WRITE
    except OSError:
        return True
    allowed = os.access(target, os.W_OK) or not target.exists()
    return marked or not allowed or not os.access(target.parent, os.W_OK)


@contextmanager
def replace_file(path: Path, content: bytes) -> Iterator[Callable[[], None]]:
    """Write content beside a file and yield what puts it in its place, mode and link kept.

    Raises NotSavedError; what was written beside the file is gone in any case.
    """
    target = path.resolve()
    beside = target.with_name(f".{target.name}.{token_hex(6)}")
    try:
        _write(beside, content)
        _take_over(target, beside)
        yield lambda: _put(beside, target)
    except OSError as error:
        raise NotSavedError(f"{path.name}: {words_of(error)}") from None
    finally:
        with suppress(OSError):
            beside.unlink(missing_ok=True)


def words_of(error: OSError) -> str:
    """Return why the system refused."""
    if error.errno in _FULL:
        return "the disk is full"
    return (error.strerror or str(error)).lower()


def _write(path: Path, content: bytes) -> None:
    with path.open("xb") as file:
        file.write(content)
        file.flush()
        os.fsync(file.fileno())


def _take_over(old: Path, new: Path) -> None:
    """Give a new file the mode of the old one, and its owner where that is allowed."""
    if not old.exists():
        return
    status = old.stat()
    if hasattr(os, "chown"):
        with suppress(PermissionError):
            os.chown(new, status.st_uid, status.st_gid)
    new.chmod(stat.S_IMODE(status.st_mode))


def _put(new: Path, target: Path) -> None:
    new.replace(target)
    sync_folder(target.parent)


def sync_folder(folder: Path) -> None:
    """Let the names in a folder reach the disk, where the system can do that."""
    with suppress(OSError):
        handle = os.open(folder, os.O_RDONLY)
        try:
            os.fsync(handle)
        finally:
            os.close(handle)
