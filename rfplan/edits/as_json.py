# SPDX-License-Identifier: Apache-2.0
"""Records as JSON values and back by their type hints, taking nothing but what was written."""

from __future__ import annotations

import math
from dataclasses import MISSING, Field, fields, is_dataclass
from datetime import date
from enum import Enum
from functools import cache
from types import UnionType
from typing import Any, Literal, Union, get_args, get_origin, get_type_hints

from rfplan.model.record import ById
from rfplan.units import QuantityError, parse_date


class JsonError(ValueError):
    """A JSON value is not the record that was expected."""


def encoded(value: Any) -> Any:
    """Return a value of the model as JSON; fields of a record that hold nothing are left out."""
    if isinstance(value, Enum):
        return value.value
    if isinstance(value, date):
        return value.isoformat()
    if isinstance(value, tuple):
        return [encoded(item) for item in value]
    if isinstance(value, ById):
        return {key: encoded(item) for key, item in value.items()}
    if is_dataclass(value):
        given = {f.name: getattr(value, f.name) for f in fields(value)}
        return {name: encoded(item) for name, item in given.items() if item is not None}
    return value


def decoded(value: Any, hint: Any) -> Any:
    """Return the value of the model that a JSON value stands for; raises JsonError."""
    origin = get_origin(hint)
    if origin in (Union, UnionType):
        return _one_of(value, get_args(hint))
    if origin is tuple:
        return _tuple(value, get_args(hint))
    if origin is ById:
        entries = _of_type(value, dict).items()
        return ById((key, decoded(item, get_args(hint)[0])) for key, item in entries)
    if origin is Literal:
        return _word(value, get_args(hint))
    if isinstance(hint, type) and issubclass(hint, Enum):
        return hint(_word(value, [member.value for member in hint]))
    return _record(value, hint) if is_dataclass(hint) else _scalar(value, hint)


@cache
def hints(record: Any) -> dict[str, Any]:
    """Return the types of the fields of a record."""
    return get_type_hints(record)


def _scalar(value: Any, hint: Any) -> Any:
    if hint is date:
        return _date(value)
    if hint is not float:
        return _of_type(value, hint)
    if type(value) not in (int, float) or not math.isfinite(value):
        raise JsonError(f"not a number: {value!r:.40}")
    return float(value)


def _date(value: Any) -> date:
    try:
        return parse_date(_of_type(value, str))
    except QuantityError as error:
        raise JsonError(str(error)) from None


def _of_type(value: Any, type_: Any) -> Any:
    if type(value) is not type_:
        raise JsonError(f"not of type {getattr(type_, '__name__', type_)}: {value!r:.40}")
    return value


def _word(value: Any, words: Any) -> Any:
    if not isinstance(value, str) or value not in words:
        raise JsonError(f"not one of the words: {value!r:.40}")
    return value


def _one_of(value: Any, choices: tuple[Any, ...]) -> Any:
    for hint in choices:
        try:
            return decoded(value, hint)
        except JsonError:
            pass
    raise JsonError(f"of none of the types that may stand here: {value!r:.40}")


def _tuple(value: Any, types: tuple[Any, ...]) -> tuple[Any, ...]:
    items = _of_type(value, list)
    if types[-1] is Ellipsis:
        types = types[:1] * len(items)
    if len(items) != len(types):
        raise JsonError(f"{len(items)} values where {len(types)} belong")
    return tuple(decoded(item, hint) for item, hint in zip(items, types, strict=True))


def _record(value: Any, record: Any) -> Any:
    given, known = _of_type(value, dict), hints(record)
    if strange := sorted(set(given) - {f.name for f in fields(record)}):
        raise JsonError(f"unknown field {strange[0]!r:.40}")
    absent = [f.name for f in fields(record) if f.name not in given and not _has_default(f)]
    for name in absent:
        if type(None) not in get_args(known[name]):
            raise JsonError(f"the field {name!r} is missing")
    told = {name: decoded(item, known[name]) for name, item in given.items()}
    return record(**dict.fromkeys(absent), **told)


def _has_default(field: Field[Any]) -> bool:
    return field.default is not MISSING or field.default_factory is not MISSING
