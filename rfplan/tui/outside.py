# SPDX-License-Identifier: Apache-2.0
"""What goes on outside the screen: the editor, files that may have changed, the end by a signal."""

from __future__ import annotations

import asyncio
import os
import shlex
import signal
import subprocess
from collections.abc import Callable
from contextlib import suppress
from pathlib import Path
from typing import TYPE_CHECKING, TypeAlias

if TYPE_CHECKING:
    from textual.app import App

    from rfplan.files.saving import PlanFile


TAKE_A_LINE = frozenset(
    ("ed", "emacs", "emacsclient", "ex", "joe", "mg", "nano", "nvi", "nvim", "vi", "view", "vim")
)
"""Editors that are known to begin at a line given as +12."""


def run_editor(file: Path, line: int) -> str:
    """Run the user's editor until it ends, at a line where it is known to take one.

    The file is named in full: a plan may name one that begins with + or -, which is no option.
    Returns why it could not be run, or which line it should have been at, or ''.
    """
    editor = os.environ.get("VISUAL") or os.environ.get("EDITOR") or "vi"
    try:
        words = shlex.split(editor) or ["vi"]
    except ValueError as error:
        return f"{editor}: {error}. Set EDITOR."
    takes_a_line = Path(words[0]).name in TAKE_A_LINE
    at = [f"+{line}"] if takes_a_line else []
    try:
        subprocess.run([*words, *at, str(file.absolute())], check=False)  # noqa: S603 - no shell
    except OSError as error:
        return f"{words[0]}: {error.strerror}. Set EDITOR."
    return "" if takes_a_line else f"{words[0]} was given no line: it is line {line}."


def edit_outside(app: App[int], file: Path, line: int) -> str:
    """Leave the screen to the editor until it ends; return why it could not be, or ''."""
    from textual.app import SuspendNotSupported

    try:
        with app.suspend():
            return run_editor(file, line)
    except SuspendNotSupported:
        return "This terminal cannot be left and come back to."


def show_cursor(app: App[int]) -> bool:
    """Let the terminal show its cursor; tell whether there is a terminal."""
    driver = app._driver
    if driver is None or app.is_headless:
        return False
    driver.write("\x1b[?25h")
    return True


Stamp: TypeAlias = tuple[int, int]
"""Time and size of a file; zeros for one that is not there."""


def signature(file: PlanFile) -> tuple[Stamp, ...]:
    """Return the stamps of both files."""
    return tuple(stamp(path) for path in (file.path, file.airframe_path))


def stamp(path: Path) -> Stamp:
    """Return what tells a file from one that was saved since."""
    try:
        status = path.stat()
    except OSError:
        return 0, 0
    return status.st_mtime_ns, status.st_size


def keep_copy(text: str) -> str:
    """Write what was copied into a file of this user, and return where that is."""
    from platformdirs import user_state_path

    path = user_state_path("rfplan") / "copied.txt"
    try:
        path.parent.mkdir(mode=0o700, parents=True, exist_ok=True)
        path.write_text(text, encoding="utf-8")
    except OSError as error:
        return f"no file ({error.strerror})"
    home = str(Path.home())
    return str(path).replace(home, "~", 1) if str(path).startswith(home) else str(path)


def heed_ending(do: Callable[[], None]) -> None:
    """Do something when the system asks the program to end, where it can ask."""
    with suppress(NotImplementedError, RuntimeError, ValueError):
        asyncio.get_running_loop().add_signal_handler(signal.SIGTERM, do)
