# SPDX-License-Identifier: Apache-2.0
"""What a package says of itself: how it was judged, by which version, and each member's hash."""

from __future__ import annotations

import re
from collections.abc import Mapping
from dataclasses import asdict, dataclass, fields
from hashlib import sha256
from typing import Literal

from pydantic import TypeAdapter, ValidationError

from rfplan.model.plan import State
from rfplan.records.container import DamagedError
from rfplan.records.settings import Settings, Status
from rfplan.reports.cells import LengthUnit
from rfplan.reports.json_text import json_text

Format = Literal["rfplan-package/1"]
FORMAT: Format = "rfplan-package/1"
MANIFEST = "manifest.json"

_VERSIONED = re.compile(rb'\s*\{\s*"format"\s*:\s*"rfplan-package/([0-9]{1,9})"')


@dataclass(frozen=True, slots=True)
class Tool:
    """The program that packed."""

    name: str
    version: str


@dataclass(frozen=True, slots=True)
class Member:
    """What a member must hold."""

    sha256: str
    size: int


@dataclass(frozen=True, slots=True)
class Manifest:
    """The first thing to read in a package."""

    format: Format
    tool: Tool
    plan: str
    state: State
    serial: str | None
    units: LengthUnit
    date: str | None
    status: Status | None
    members: dict[str, Member]

    @property
    def settings(self) -> Settings:
        """How the plan was judged and shown."""
        return Settings(**{one.name: getattr(self, one.name) for one in fields(Settings)})

    def content(self) -> bytes:
        """Return the manifest as the bytes of its member."""
        return json_text(asdict(self)).encode()


_READER = TypeAdapter(Manifest)


def manifest_of(members: Mapping[str, bytes], settings: Settings, version: str) -> Manifest:
    """Return the manifest of all other members of a package."""
    listed = {name: _member(members[name]) for name in sorted(members)}
    return Manifest(FORMAT, Tool("rfplan", version), **asdict(settings), members=listed)


def checked_manifest(members: Mapping[str, bytes]) -> Manifest:
    """Return the manifest of a package; DamagedError where a member is not as it says."""
    manifest = _read(members.get(MANIFEST))
    found = {name: content for name, content in members.items() if name != MANIFEST}
    for name in sorted({*found, *manifest.members}):
        if name not in found:
            raise DamagedError(f"the member {name!r} is missing")
        if name not in manifest.members:
            raise DamagedError(f"the member {name!r} is not listed")
        if _member(found[name]) != manifest.members[name]:
            raise DamagedError(f"the member {name!r} is not what was packed")
    return manifest


def _read(content: bytes | None) -> Manifest:
    if content is None:
        raise DamagedError(f"it has no {MANIFEST}")
    version = _VERSIONED.match(content)
    if version and int(version[1]) > 1:
        raise DamagedError(f"rfplan-package/{int(version[1])} is newer than this version reads")
    try:
        manifest = _READER.validate_json(content, strict=True)
        if manifest.content() != content:
            raise DamagedError(f"{MANIFEST} is not as it was written")
    except (ValidationError, ValueError):  # ValueError: a lone surrogate
        raise DamagedError(f"{MANIFEST} is not that of a package") from None
    return manifest


def _member(content: bytes) -> Member:
    return Member(sha256(content).hexdigest(), len(content))
