# SPDX-License-Identifier: Apache-2.0
"""One text for what a record holds, whatever the layout of its file, and the hash of that text."""

from __future__ import annotations

import json
from collections.abc import Mapping
from dataclasses import fields, is_dataclass, replace
from datetime import date
from enum import Enum
from hashlib import sha256

from rfplan.model.catalog import Catalog
from rfplan.model.plan import Plan, State
from rfplan.model.rulebook import Rulebook
from rfplan.reports.context import Hashes
from rfplan.rules import RULES

IN_ORDER = ("skin", "bands")
"""Things by id whose order counts: the first skin that fits wins, the first band leads."""

_AS_JSON = {str, float, int, bool, type(None)}
"""What json prints as it is; most of a record, so it is looked for first."""


def canonical_sha256(record: object) -> str:
    """Return the hash of a record; the order of things by id does not change it."""
    content = json.dumps(_plain(record), sort_keys=True, separators=(",", ":"))
    return sha256(content.encode("ascii")).hexdigest()


def hashes_of(plan: Plan, catalog: Catalog, rulebook: Rulebook) -> Hashes:
    """Return the hashes of what is judged; neither folder nor chosen state and serial count."""
    airframe = replace(plan.airframe, id="")
    content = replace(plan, id="", airframe=airframe, state=State.DESIGN, serial=None)
    tables = replace(rulebook, sha256="")
    return Hashes(
        plan=canonical_sha256(content),
        catalog=canonical_sha256(catalog),
        rules=canonical_sha256({"tables": tables, "words": RULES}),
    )


def _plain(thing: object) -> object:
    """Return numbers, texts, lists and mappings only; floats are printed in full by json."""
    if type(thing) in _AS_JSON:
        return thing
    if isinstance(thing, Enum):
        return thing.value
    if is_dataclass(thing) and not isinstance(thing, type):
        return {
            field.name: _held(field.name, getattr(thing, field.name)) for field in fields(thing)
        }
    if isinstance(thing, tuple | list):
        return [_plain(value) for value in thing]
    if isinstance(thing, Mapping):
        return {str(key): _plain(value) for key, value in thing.items()}
    return thing.isoformat() if isinstance(thing, date) else thing


def _held(name: str, value: object) -> object:
    if name in IN_ORDER and isinstance(value, Mapping):
        return [[key, _plain(each)] for key, each in value.items()]
    return _plain(value)
