# SPDX-License-Identifier: Apache-2.0
"""The container of a package: a zip of which there is exactly one for the same members."""

from __future__ import annotations

import io
import re
import stat
import struct
import zipfile
from collections.abc import Iterable, Mapping

MOST_BYTES = 200_000_000
MOST_MEMBERS = 2_000

_EPOCH = (1980, 1, 1, 0, 0, 0)
_UNIX = 3
_ORDINARY_FILE = (stat.S_IFREG | 0o644) << 16

_STEP = r"[A-Za-z0-9_](?:[A-Za-z0-9_. -]{0,78}[A-Za-z0-9_-])?"
_NAME = re.compile(rf"{_STEP}(?:/{_STEP}){{0,3}}")
_ENCRYPTED = 0x1
_UNREADABLE = (
    zipfile.BadZipFile,
    NotImplementedError,
    RuntimeError,
    ValueError,
    OverflowError,
    OSError,
    EOFError,
    struct.error,
)
"""What the zip reader raises for bytes that are no zip, or none that it understands."""


class DamagedError(Exception):
    """A container or what it says of itself does not hold together; the text says where."""


def is_member_name(name: str) -> bool:
    """Tell whether a member may have this name: it leads down only, on every system."""
    return _NAME.fullmatch(name) is not None


def pack(members: Mapping[str, bytes]) -> bytes:
    """Return the one container of some members: stored, sorted by name, without time or owner."""
    stream = io.BytesIO()
    with zipfile.ZipFile(stream, "w", zipfile.ZIP_STORED) as container:
        for name in sorted(members):
            container.writestr(_entry(name), members[name])
    return stream.getvalue()


def unpack(content: bytes) -> dict[str, bytes]:
    """Return the members of a container; DamagedError unless packing them gives it again."""
    if len(content) > MOST_BYTES:
        raise DamagedError(f"it is larger than {MOST_BYTES // 1_000_000} MB")
    try:
        with zipfile.ZipFile(io.BytesIO(content)) as container:
            _refuse_odd(container.infolist(), len(content))
            members = {entry.filename: container.read(entry) for entry in container.infolist()}
    except _UNREADABLE as error:
        raise DamagedError(f"it cannot be read as a package: {error}") from None
    if pack(members) != content:
        raise DamagedError("something stands between, before or behind its members")
    return members


def _entry(name: str) -> zipfile.ZipInfo:
    entry = zipfile.ZipInfo(name, _EPOCH)
    entry.create_system = _UNIX
    entry.external_attr = _ORDINARY_FILE
    return entry


def _refuse_odd(entries: list[zipfile.ZipInfo], size: int) -> None:
    """Raise DamagedError for an entry that no package has, before any of them is read."""
    if len(entries) > MOST_MEMBERS:
        raise DamagedError(f"it has more than {MOST_MEMBERS} members")
    for entry in entries:
        if oddity := _oddity(entry):
            raise DamagedError(f"the member {entry.filename!r} {oddity}")
    if twice := _twice(entry.filename.casefold() for entry in entries):
        raise DamagedError(f"the member {twice!r} is there twice")
    if sum(entry.file_size for entry in entries) > size:
        raise DamagedError("its members are larger than itself")


def _oddity(entry: zipfile.ZipInfo) -> str:
    if entry.is_dir():
        return "is a folder"
    if not is_member_name(entry.filename):
        return "has a name that may lead elsewhere"
    if entry.flag_bits & _ENCRYPTED:
        return "is encrypted"
    if entry.compress_type != zipfile.ZIP_STORED:
        return "is compressed"
    if entry.external_attr != _ORDINARY_FILE:
        return "is no ordinary file"
    return ""


def _twice(names: Iterable[str]) -> str:
    seen: set[str] = set()
    for name in names:
        if name in seen:
            return name
        seen.add(name)
    return ""
