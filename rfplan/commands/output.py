# SPDX-License-Identifier: Apache-2.0
"""Where a command's answer goes: the screen, or one file that is whole or not there."""

from __future__ import annotations

import os
import shutil
import sys
from argparse import Namespace
from pathlib import Path
from typing import TextIO

from rfplan.files.whole_file import write_whole
from rfplan.model.record import visible

NOT_WRITTEN = 2
"""The exit code where the answer could not be put where it was asked for."""

NARROWEST, WIDEST, USUAL = 40, 200, 100
"""Columns of text: on a screen within the first two, in a file always the last."""

LONGEST_LINE = 2000
"""Characters of one line of a message; what goes beyond is cut."""

_LONGEST_NAME = 200


def deliver(text: str, options: Namespace, code: int) -> int:
    """Print the text, or write it to -o FILE; return the exit code of the command."""
    if options.output:
        return deliver_file(_ended(text).encode(), options, code)
    try:
        say(text)
    except OSError as error:
        return _not_written("the answer", error)
    return code


def deliver_file(content: bytes, options: Namespace, code: int) -> int:
    """Write what no screen can show to -o FILE; return the exit code of the command."""
    if not options.output:
        complain("rfplan: this is no text for a screen; name a file with -o FILE")
        return NOT_WRITTEN
    try:
        write_whole(Path(options.output), content, replace=options.force)
    except (OSError, ValueError) as error:  # ValueError: a NUL in the path
        return _not_written(visible(options.output, _LONGEST_NAME), error)
    return code


def _not_written(place: str, error: Exception) -> int:
    hint = "; --force replaces it" if isinstance(error, FileExistsError) else ""
    complain(f"rfplan: {place} not written: {getattr(error, 'strerror', None) or error}{hint}")
    return NOT_WRITTEN


def say(text: str) -> None:
    """Print text with one newline at its end; a reader who has gone is no fault."""
    if sys.stdout is not None:  # None where the shell has closed it
        _put(sys.stdout, text)


def complain(text: str) -> None:
    """Print a message where it does not mix with a command's output."""
    shown = "\n".join(visible(line, LONGEST_LINE) for line in text.split("\n"))
    if sys.stderr is not None:
        _put(sys.stderr, shown)


def progress(text: str) -> None:
    """Say how far a long export is, a line each, to whoever waits for it at a terminal."""
    if sys.stderr is not None and sys.stderr.isatty():
        complain(text)


def _put(stream: TextIO, text: str) -> None:
    """Write text; what the stream cannot show is escaped."""
    encoding = stream.encoding or "utf-8"
    try:
        stream.write(_ended(text).encode(encoding, "backslashreplace").decode(encoding))
        stream.flush()
    except BrokenPipeError:
        _abandon(stream)


def settle() -> None:
    """Send on what is still unsent, so that the interpreter need not complain at its end."""
    for stream in (sys.stdout, sys.stderr):
        try:
            if stream is not None:
                stream.flush()
        except OSError:
            _abandon(stream)


def text_width(options: Namespace) -> int:
    """Return the columns of the screen; a file does not depend on it."""
    if options.output:
        return USUAL
    return max(NARROWEST, min(WIDEST, shutil.get_terminal_size((USUAL, 24)).columns))


def _ended(text: str) -> str:
    return text if text.endswith("\n") else f"{text}\n"


def _abandon(stream: TextIO) -> None:
    """Let what is still unsent go nowhere."""
    with open(os.devnull, "wb") as nowhere:
        os.dup2(nowhere.fileno(), stream.fileno())
