# SPDX-License-Identifier: Apache-2.0
"""A file beside the plan that is whole or not there, and never in the place of another unasked."""

from __future__ import annotations

import os
import shutil
from pathlib import Path


def write_whole(path: Path, content: bytes, *, replace: bool) -> None:
    """Write a file through another one beside it, so that no half file is ever left."""
    _check_place(path, replace=replace)
    part = path.with_name(f".{os.getpid()}.part")
    try:
        with part.open("xb") as file:
            file.write(content)
            file.flush()
            os.fsync(file.fileno())
        if path.exists():
            shutil.copymode(path, part)
        part.replace(path)
    finally:
        part.unlink(missing_ok=True)


def _check_place(path: Path, *, replace: bool) -> None:
    """Raise OSError with words for the user where a file must not or cannot be written."""
    if not path.parent.is_dir():
        raise NotADirectoryError(20, f"there is no folder {path.parent}")
    if path.is_dir():
        raise IsADirectoryError(21, "this is a folder")
    if os.path.lexists(path) and not replace:
        raise FileExistsError(17, "the file is there already")
    if path.exists() and not path.is_file():
        raise PermissionError(13, "this is no ordinary file")
