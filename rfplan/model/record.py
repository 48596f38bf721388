# SPDX-License-Identifier: Apache-2.0
"""What every record shares: YAML names, exact scalars, things kept by id, text fit to show."""

from __future__ import annotations

import re
from collections.abc import Callable, ItemsView, Iterable, Iterator, Mapping, ValuesView
from dataclasses import dataclass
from typing import Annotated, Any, TypeVar, overload

T = TypeVar("T")
D = TypeVar("D")

_UNIT_SUFFIX = re.compile(
    r"_(hz|m|m2|m_per_s|kg|kg_per_m|ohm|ohm_per_m|f_per_m|db|db_per_m|dbm|dbm_per_hz|dbi|dbhz|w|v|a|c|k|s|yr|od|rad|ratio)$"
)


def yaml_name(field: str) -> str:
    """Return the key a field has in a file: no unit suffix, no trailing underscore."""
    return _UNIT_SUFFIX.sub("", field).rstrip("_")


def is_name(text: str) -> bool:
    """Return whether a text names somebody: neither a blank nor the `?` of a name not yet known."""
    return text.strip() not in ("", "?")


RECORD = {"extra": "forbid", "alias_generator": yaml_name}
"""Configuration that each record hands to its reader: unknown keys are refused."""


class ById(Mapping[str, T]):
    """Things by id, in the order of the file; never changed in place."""

    __slots__ = ("_things",)

    def __init__(self, things: Mapping[str, T] | Iterable[tuple[str, T]] = ()) -> None:
        self._things: dict[str, T] = dict(things)

    def __getitem__(self, key: str) -> T:
        return self._things[key]

    def __iter__(self) -> Iterator[str]:
        return iter(self._things)

    def __len__(self) -> int:
        return len(self._things)

    def __contains__(self, key: object) -> bool:
        return key in self._things

    @overload
    def get(self, key: str, default: None = None, /) -> T | None: ...
    @overload
    def get(self, key: str, default: T | D, /) -> T | D: ...
    def get(self, key: str, default: T | D | None = None, /) -> T | D | None:
        """Return a thing or the default; the dict's own way, since rules ask often."""
        return self._things.get(key, default)

    def items(self) -> ItemsView[str, T]:
        """Return ids with their things; the dict's own view, since loops over these are hot."""
        return self._things.items()

    def values(self) -> ValuesView[T]:
        """Return the things."""
        return self._things.values()

    def __repr__(self) -> str:
        return f"ById({self._things!r})"

    def __eq__(self, other: object) -> bool:
        if isinstance(other, ById):
            return self._things == other._things
        return super().__eq__(other)

    def __hash__(self) -> int:
        return hash(frozenset(self._things))

    def having(self, key: str, thing: T) -> ById[T]:
        """Return a copy in which `key` names `thing`."""
        return ById({**self._things, key: thing})

    @classmethod
    def __get_pydantic_core_schema__(cls, source: Any, handler: Callable[[Any], Any]) -> Any:
        inner = handler(dict[str, source.__args__[0]])
        return {
            "type": "function-after",
            "function": {"type": "no-info", "function": cls},
            "schema": inner,
        }


@dataclass(frozen=True, slots=True)
class _Exact:
    """Mark of a scalar that is taken as written: no 'yes' for true, no 1.0 for 1."""

    schema: str

    def __get_pydantic_core_schema__(self, source: Any, handler: Any) -> Any:
        return {"type": self.schema, "strict": True}


def _text(value: object) -> str:
    if isinstance(value, str):
        return value
    if isinstance(value, int) and not isinstance(value, bool):
        return str(value)
    raise ValueError(
        "expected text; put quotes round a number or a true/false that is meant as text"
    )


@dataclass(frozen=True, slots=True)
class _Text:
    def __get_pydantic_core_schema__(self, source: Any, handler: Any) -> Any:
        return {"type": "function-plain", "function": {"type": "no-info", "function": _text}}


Flag = Annotated[bool, _Exact("bool")]
Count = Annotated[int, _Exact("int")]
Number = Annotated[float, _Exact("float")]
Text = Annotated[str, _Text()]

_ELLIPSIS = "..."

# Zero-width or blank on screen although str.isprintable() calls them printable: grapheme joiner,
# Hangul and Braille fillers, Khmer and Mongolian inherent marks, variation selectors.
_UNSEEN = re.compile(
    "[\u034f\u115f\u1160\u17b4\u17b5\u180b-\u180f\u2800\u3164\ufe00-\ufe0f\uffa0"
    "\U000e0100-\U000e01ef]"
)


def visible(text: str, limit: int = 60) -> str:
    r"""Return text from a file fit to show: the unseen as \uXXXX, cut with '...'."""
    if len(text) <= limit and text.isprintable() and not _UNSEEN.search(text):
        return text
    pieces = [_shown(character) for character in text[: limit + 1]]
    if sum(map(len, pieces)) <= limit:
        return "".join(pieces)
    room = limit - len(_ELLIPSIS)
    while pieces and sum(map(len, pieces)) > room:
        pieces.pop()
    return "".join(pieces) + _ELLIPSIS


def _shown(character: str) -> str:
    if character.isprintable() and not _UNSEEN.match(character):
        return character
    code = ord(character)
    return f"\\u{code:04x}" if code <= 0xFFFF else f"\\U{code:08x}"
