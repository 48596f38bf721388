# SPDX-License-Identifier: Apache-2.0
"""What the types of the records say about a way into a file: its keys, and where ids begin."""

from __future__ import annotations

from dataclasses import MISSING, fields, is_dataclass
from enum import Enum
from functools import cache
from typing import Any, Literal, get_args, get_origin, get_type_hints

from rfplan.files.nodes import Location, Node
from rfplan.files.shape import entries
from rfplan.model.record import ById, yaml_name

_OWN = "id"  # told by the name of the file or by the key, never by a key of its own


@cache
def types_by_key(record: type[Any]) -> dict[str, Any]:
    """Return the type of each key that a record may have in a file."""
    hints = get_type_hints(record)
    return {yaml_name(f.name): _bare(hints[f.name]) for f in fields(record) if f.name != _OWN}


@cache
def required_keys(record: type[Any]) -> tuple[str, ...]:
    """Return the keys that a record must have in a file."""
    return tuple(
        yaml_name(f.name)
        for f in fields(record)
        if f.default is MISSING and f.default_factory is MISSING
    )


def type_at(record: type[Any], loc: Location) -> Any:
    """Return the type of what stands at a way into `record`, None where nothing can stand."""
    current: Any = record
    for step in loc:
        current = _inside(current, step)
    return current


def is_record(kind: Any) -> bool:
    """Tell whether a type is one of the records."""
    return isinstance(kind, type) and is_dataclass(kind)


def words_of(kind: Any) -> tuple[str, ...]:
    """Return the words that a type admits, if it is a choice of words."""
    if isinstance(kind, type) and issubclass(kind, Enum):
        return tuple(str(member.value) for member in kind)
    return get_args(kind) if get_origin(kind) is Literal else ()


def removable_part(record: type[Any], loc: Location) -> Location:
    """Return the way to the least part round `loc` without which the rest is still a record."""
    removable = loc[:1]
    holder: Any = record
    for depth, step in enumerate(loc, start=1):
        if get_origin(holder) is tuple:
            break
        if get_origin(holder) is ById or (is_record(holder) and step not in required_keys(holder)):
            removable = loc[:depth]
        holder = _inside(holder, step)
    return removable


def as_written(tree: Node, loc: Location) -> Location:
    """Return a way in which names of fields have become the keys that files have for them."""
    way: Location = ()
    for step in loc:
        known = entries(tree.at(way))
        way += (step if isinstance(step, int) or step in known else yaml_name(step),)
    return way


def _inside(holder: Any, step: str | int) -> Any:
    if is_record(holder):
        return types_by_key(holder).get(str(step))
    inner = get_args(holder)
    if get_origin(holder) is ById:
        return inner[0]
    if get_origin(holder) is tuple and isinstance(step, int):
        return inner[0] if inner[-1] is Ellipsis else inner[min(step, len(inner) - 1)]
    return None


def _bare(hint: Any) -> Any:
    """Return a type without its 'or None'."""
    choices = [choice for choice in get_args(hint) if choice is not type(None)]
    return choices[0] if type(None) in get_args(hint) else hint
