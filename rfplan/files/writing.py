# SPDX-License-Identifier: Apache-2.0
"""Values of the model as a file holds them: mappings, lists and scalars, and those as YAML."""

from __future__ import annotations

import re
from collections.abc import Mapping
from dataclasses import fields
from datetime import date
from enum import Enum
from functools import cache
from types import UnionType
from typing import Any, Union, get_args, get_origin, get_type_hints

from rfplan.files.composing import plain_value
from rfplan.files.quantity_text import Author
from rfplan.model.record import yaml_name
from rfplan.units import Quantity

_PLAIN = re.compile(r"(?:[^\W_]|-[0-9])[\w .+/()%\u00b0-]*(?<! )")
_ESCAPES = {'"': '\\"', "\\": "\\\\", "\n": "\\n", "\t": "\\t"}
_LAST_OF_TWO_DIGITS, _LAST_OF_FOUR_DIGITS = 0xFF, 0xFFFF


def field_tree(record: Any, field: str, value: Any, author: Author, present: str) -> Any:
    """Return the value of a field as a file holds it, `present` being the text there now."""
    return _tree(value, _hints(record)[field], author, present)


def record_tree(record: Any, author: Author) -> dict[str, Any]:
    """Return a record as a mapping of those of its fields that hold something."""
    given = {f.name: getattr(record, f.name) for f in fields(record)}
    return {
        yaml_name(name): field_tree(type(record), name, value, author, "")
        for name, value in given.items()
        if value not in (None, ())
    }


def in_flow(tree: Any) -> str:
    """Return a tree as YAML on one line."""
    if isinstance(tree, Mapping):
        return f"{{{', '.join(f'{key}: {in_flow(child)}' for key, child in tree.items())}}}"
    if isinstance(tree, list):
        return f"[{', '.join(map(in_flow, tree))}]"
    return scalar(tree)


def scalar(value: str | float | bool | None) -> str:
    """Return a scalar as YAML, in quotes where it would be read as something else without."""
    if value is None or isinstance(value, bool):
        return {None: "null", True: "true", False: "false"}[value]
    if not isinstance(value, str):
        return repr(value)
    return value if _PLAIN.fullmatch(value) and _stays_text(value) else quoted(value)


def quoted(text: str) -> str:
    """Return a text in double quotes."""
    return f'"{"".join(map(_escaped, text))}"'


def _stays_text(text: str) -> bool:
    try:
        return isinstance(plain_value(text), str)
    except OverflowError:
        return False


def _escaped(character: str) -> str:
    if character in _ESCAPES or character.isprintable():
        return _ESCAPES.get(character, character)
    code = ord(character)
    if code <= _LAST_OF_TWO_DIGITS:
        return f"\\x{code:02x}"
    return f"\\u{code:04x}" if code <= _LAST_OF_FOUR_DIGITS else f"\\U{code:08x}"


@cache
def _hints(record: Any) -> dict[str, Any]:
    return get_type_hints(record, include_extras=True)


def _tree(value: Any, hint: Any, author: Author, present: str) -> Any:
    if value is None:
        return None
    kind = _bare(hint)
    if isinstance(value, Enum):  # also what is missing: '?' or 'none'
        return value.value
    if isinstance(value, date):
        return value.isoformat()
    if isinstance(value, tuple):
        return [_tree(item, get_args(kind)[0], author, present) for item in value]
    if quantity := _quantity(kind):
        return author.text(value, quantity.kind, present)
    return record_tree(value, author) if hasattr(value, "__pydantic_config__") else value


def _bare(hint: Any) -> Any:
    """Return a type without its 'or None'."""
    if get_origin(hint) in (Union, UnionType):
        return next(choice for choice in get_args(hint) if choice is not type(None))
    return hint


def _quantity(hint: Any) -> Quantity | None:
    marks = getattr(hint, "__metadata__", ())
    return next((mark for mark in marks if isinstance(mark, Quantity)), None)
