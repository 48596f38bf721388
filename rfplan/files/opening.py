# SPDX-License-Identifier: Apache-2.0
"""Text of a file from an unknown hand: size, kind and encoding are checked before it is used."""

from __future__ import annotations

import codecs
import stat
from pathlib import Path

from rfplan.files.problems import Problem, ProblemsError, position

MAX_BYTES = 2_000_000

_PLAIN_TEXT = "plain UTF-8 text"
_FOREIGN_MARKS = (codecs.BOM_UTF16_LE, codecs.BOM_UTF16_BE, codecs.BOM_UTF32_BE)


def read_text(path: Path, file: str) -> str:
    """Return the text with its line ends as they are; a byte order mark stays in front."""
    content = read_bytes(path, file)
    refuse_binary(content, file)
    try:
        return content.decode("utf-8")
    except UnicodeDecodeError as error:
        message = f"the byte 0x{content[error.start]:02x} is not UTF-8"
        raise _refusal(file, message, _PLAIN_TEXT, content[: error.start]) from None


def read_bytes(path: Path, file: str, most_bytes: int = MAX_BYTES) -> bytes:
    """Return what a regular file holds; one that is too large is refused before it is read."""
    too_large = _refusal(file, "the file is too large", f"at most {most_bytes // 1_000_000} MB")
    try:
        status = path.stat()
        if stat.S_ISDIR(status.st_mode):
            raise _refusal(file, "this is a folder", "a file")
        if not stat.S_ISREG(status.st_mode):  # a pipe or a device could block for ever
            raise _refusal(file, "this is a pipe or a device", "a file")
        if status.st_size > most_bytes:
            raise too_large
        with path.open("rb") as stream:
            content = stream.read(most_bytes + 1)
    except FileNotFoundError:
        raise _refusal(file, "there is no such file") from None
    except PermissionError:
        raise _refusal(file, "the file may not be read", "the right to read it") from None
    except (OSError, ValueError) as error:  # ValueError: a NUL in the path
        reason = getattr(error, "strerror", None) or "the path is not usable"
        raise _refusal(file, f"the file cannot be read: {reason}") from None
    if len(content) > most_bytes:  # it grew meanwhile
        raise too_large
    return content


def refuse_binary(content: bytes, file: str) -> None:
    """Raise ProblemsError for text in a wide encoding and for what is no text at all."""
    if content.startswith(_FOREIGN_MARKS):
        raise _refusal(file, "the file is UTF-16 or UTF-32 text", _PLAIN_TEXT)
    if (offset := content.find(b"\0")) >= 0:
        raise _refusal(file, "the file holds a NUL byte", _PLAIN_TEXT, content[:offset])


def _refusal(file: str, message: str, expected: str = "", before: bytes = b"") -> ProblemsError:
    """Return the error for the place behind the bytes `before`."""
    text = before.decode("utf-8-sig", errors="replace")
    line, column = position(text, len(text))
    return ProblemsError([Problem(file, line, column, message, expected)])
