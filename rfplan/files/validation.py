# SPDX-License-Identifier: Apache-2.0
"""From nodes to the records of the model; what does not fit is told in our own words."""

from __future__ import annotations

from collections.abc import Collection, Mapping, Sized
from functools import cache
from typing import TYPE_CHECKING, Any, TypeVar, cast, get_args

from rfplan.files.faults import Faults, listed, near_misses, one_of, quoted
from rfplan.files.nodes import Location, Node
from rfplan.files.record_types import (
    is_record,
    removable_part,
    required_keys,
    type_at,
    types_by_key,
    words_of,
)
from rfplan.units import QuantityError

if TYPE_CHECKING:
    from pydantic import TypeAdapter
    from pydantic_core import ErrorDetails

R = TypeVar("R")

_ATTEMPTS = 3
_EXPECTED = {
    "bool_type": "true or false",
    "int_type": "a whole number",
    "float_type": "a number",
    "tuple_type": "a list in brackets",
    "dict_type": "entries by id",
}


def read_record(
    record: type[R], node: Node, faults: Faults, stand_ins: Mapping[str, object] | None = None
) -> R | None:
    """Return the record that a node tells; what is wrong goes to `faults` and is left out.

    `stand_ins` fill in for required keys that are missing or faulty, so that the rest can be
    looked at in the same run. None if too little is left.
    """
    from pydantic import ValidationError

    plain: Any = node.plain()
    for attempt in range(_ATTEMPTS):
        try:
            result: R = _adapter(cast("Any", record)).validate_python(plain)
        except ValidationError as error:
            details = error.errors()
            if attempt == 0:
                _tell_all(details, record, node, faults)
            faulty = {removable_part(record, _way(detail)) for detail in details}
            plain = {**(stand_ins or {}), **_without(plain, faulty)}
        else:
            return result
    return None


@cache
def _adapter(record: type[Any]) -> TypeAdapter[Any]:
    from pydantic import TypeAdapter

    return TypeAdapter(record)


def _without(plain: dict[str, Any], ways: set[Location]) -> dict[str, Any]:
    """Return a copy in which nothing stands at the ways."""
    kept = {key: child for key, child in plain.items() if (key,) not in ways}
    deeper: dict[str | int, set[Location]] = {}
    for way in ways:
        if len(way) > 1:
            deeper.setdefault(way[0], set()).add(way[1:])
    return {
        key: _without(child, deeper[key]) if key in deeper and isinstance(child, dict) else child
        for key, child in kept.items()
    }


def _way(detail: ErrorDetails) -> Location:
    """Return the way to what is at fault: to the holder of a key or item that is missing."""
    return detail["loc"][:-1] if detail["type"] == "missing" else detail["loc"]


def _tell_all(
    details: Collection[ErrorDetails], record: type[Any], root: Node, faults: Faults
) -> None:
    meant = _misspelt(details, record)
    for detail in details:
        if detail["loc"] not in meant:
            _tell(detail, record, root, faults)


def _tell(detail: ErrorDetails, record: type[Any], root: Node, faults: Faults) -> None:
    """Add one error of pydantic as a problem."""
    kind, loc, way = detail["type"], detail["loc"], _way(detail)
    if kind == "unexpected_keyword_argument":
        _tell_unknown_key(loc, record, root, faults)
    elif kind == "missing" and isinstance(loc[-1], str):
        message = f"{faults.subject(way)}: the key {quoted(loc[-1])} is missing"
        faults.add(root.mark_at(way), message, loc=loc)
    elif kind in ("missing", "too_long"):
        message = f"{faults.subject(way)} has {_count(detail['input'])}"
        faults.add(root.mark_at(way), message, str(len(get_args(type_at(record, way)))), way)
    else:
        message, expected = _words(detail, record, faults.subject(loc))
        faults.add(root.mark_at(loc), message, expected, loc)


def _misspelt(details: Collection[ErrorDetails], record: type[Any]) -> set[Location]:
    """Return the ways of missing keys that an unknown key beside them was meant for."""
    meant: set[Location] = set()
    for detail in details:
        *way, key = detail["loc"]
        if detail["type"] == "unexpected_keyword_argument":
            holder = type_at(record, tuple(way))
            near = near_misses(key, required_keys(holder) if is_record(holder) else ())
            meant |= {(*way, choice) for choice in near[:1]}
    return meant


def _tell_unknown_key(loc: Location, record: type[Any], root: Node, faults: Faults) -> None:
    holder = type_at(record, loc[:-1])
    choices = types_by_key(holder) if is_record(holder) else ()
    message = f"{faults.subject(loc[:-1])}: unknown key {quoted(loc[-1])}"
    expected = one_of(choices, loc[-1], "a key")
    if str(loc[-1])[:1].isdigit() and root.at(loc).value is None:
        message = f"{faults.subject(loc[:-1])}: {quoted(loc[-1])} follows a comma"
        expected = "a point in a decimal number, a key after a comma"
    faults.add(root.mark_at(loc, key=True), message, expected, loc)


def _words(detail: ErrorDetails, record: type[Any], subject: str) -> tuple[str, str]:
    """Return message and expected for a value that does not fit."""
    value, kind = detail["input"], type_at(record, detail["loc"])
    error = detail.get("ctx", {}).get("error")
    if isinstance(error, QuantityError):
        return f"{subject}: {error.message}", error.expected
    message = f"{subject} is {shown(value)}"
    if isinstance(error, ValueError):
        return message, str(error).removeprefix("expected ")
    if words := words_of(kind):
        return message, one_of(words, value, "one of the words")
    if is_record(kind):
        return message, f"a mapping with {listed(required_keys(kind) or types_by_key(kind), 'and')}"
    return message, _EXPECTED.get(detail["type"], "another value")


def shown(value: object) -> str:
    """Return a value of a file as a message names it."""
    if value is None:
        return "empty"
    if isinstance(value, bool):
        return str(value).lower()
    if isinstance(value, dict | list):
        return "a mapping" if isinstance(value, dict) else "a list"
    return quoted(value)


def _count(value: object) -> str:
    number = len(value) if isinstance(value, Sized) else 0
    return "1 value" if number == 1 else f"{number} values"
