# SPDX-License-Identifier: Apache-2.0
"""What does a reading, a waiver or an acceptance hold for? Eight hex digits of it."""

from __future__ import annotations

import hashlib
from dataclasses import fields, is_dataclass
from enum import Enum

from rfplan.model.record import ById

_REMARKS = ("source", "remark")
"""Fields that say where a value is from; whoever binds to that names the document in words."""


def binding(*things: object) -> str:
    """Return eight hex digits of values of the model, the same wherever they are the same.

    Numbers count to six digits and fields that hold nothing not at all, so that neither the unit
    a file is written in nor a field that a later version adds changes them.
    """
    return hashlib.sha256("\n".join(map(_told, things)).encode()).hexdigest()[:8]


def _told(thing: object) -> str:
    if isinstance(thing, float):
        return f"{thing:.6g}"
    if isinstance(thing, Enum):
        return str(thing.value)
    if isinstance(thing, ById):
        return f"{{{', '.join(f'{id}: {_told(thing[id])}' for id in sorted(thing))}}}"
    if isinstance(thing, tuple):
        return f"[{', '.join(map(_told, thing))}]"
    if is_dataclass(thing):
        given = {f.name: getattr(thing, f.name) for f in fields(thing) if f.name not in _REMARKS}
        told = {name: _told(value) for name, value in given.items() if _holds_something(value)}
        return f"{{{', '.join(f'{name}: {value}' for name, value in told.items())}}}"
    return str(thing)


def _holds_something(value: object) -> bool:
    return value not in (None, False, ()) and value != ById()
