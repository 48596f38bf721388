# SPDX-License-Identifier: Apache-2.0
"""Records taken apart into single values by the keys that files give them, and printed."""

from __future__ import annotations

import math
from collections.abc import Callable, Iterator, Mapping
from dataclasses import dataclass, fields, is_dataclass
from datetime import date
from enum import Enum
from functools import cache
from typing import Any, get_args, get_type_hints

from rfplan.model.record import yaml_name
from rfplan.reports.cells import MASS_UNITS, LengthUnit
from rfplan.units import Kind, Place, Quantity, Range, Toleranced, in_unit

_SHOWN_IN = {
    "frequency": "MHz",
    "attenuation": "dB/100 m",
    "resistance per length": "ohm/km",
    "mass per length": "g/m",
    "capacitance per length": "pF/m",
    "ratio": "%",
}

_DECIMALS = (4, 9)
"""Digits of changed values; the second where the first shows no difference."""

_CLOSE = 1.0e-9
"""Two texts of one quantity, '36 in' and '914.4 mm', may differ by this part of it."""


@dataclass(frozen=True, slots=True)
class Leaf:
    """One value of a record and what it measures, if it has a unit."""

    value: object
    kind: Kind | None


def leaves(record: object) -> dict[str, Leaf]:
    """Return the values of a record by dotted key; what is absent or empty is left out."""
    return dict(_walk(record, None, ""))


def same(one: object, other: object) -> bool:
    """Whether two values mean the same, however they were written."""
    if isinstance(one, tuple) and isinstance(other, tuple):
        return len(one) == len(other) and all(map(same, one, other))
    if isinstance(one, Range | Place | Toleranced) and type(one) is type(other):
        return all(same(getattr(one, f.name), getattr(other, f.name)) for f in fields(one))
    if isinstance(one, float) and isinstance(other, float):
        return math.isclose(one, other, rel_tol=_CLOSE, abs_tol=_CLOSE)
    return one == other


def told(leaf: Leaf | None, units: LengthUnit, decimals: int) -> str:
    """Return a value as text, '-' where there is none."""
    return "-" if leaf is None else _text(leaf.value, leaf.kind, units, decimals)


def told_apart(one: Leaf | None, other: Leaf | None, units: LengthUnit) -> tuple[str, str]:
    """Return two values that differ as texts that differ, where nine decimals show it."""
    for decimals in _DECIMALS:
        both = told(one, units, decimals), told(other, units, decimals)
        if both[0] != both[1]:
            break
    return both


def _walk(value: object, kind: Kind | None, key: str) -> Iterator[tuple[str, Leaf]]:
    if value is None or value == () or (isinstance(value, Mapping) and not value):
        return
    if isinstance(value, Mapping):
        for id, thing in value.items():
            yield from _walk(thing, kind, _joined(key, id))
    elif is_dataclass(value) and not isinstance(value, Range | Place | Toleranced | type):
        kinds = _kinds(type(value))
        for field in fields(value):
            part = getattr(value, field.name)
            yield from _walk(part, kinds[field.name], _joined(key, yaml_name(field.name)))
    elif isinstance(value, tuple) and any(is_dataclass(part) for part in value):
        for number, part in enumerate(value, start=1):
            yield from _walk(part, kind, _joined(key, str(number)))
    else:
        yield key, Leaf(value, kind)


def _joined(key: str, part: str) -> str:
    return f"{key}.{part}" if key else part


@cache
def _kinds(record: type[Any]) -> dict[str, Kind | None]:
    """What each field of a record measures, as its type says."""
    return {name: _kind(hint) for name, hint in get_type_hints(record, include_extras=True).items()}


def _kind(hint: Any) -> Kind | None:
    for mark in getattr(hint, "__metadata__", ()):
        if isinstance(mark, Quantity):
            return mark.kind
    return next((kind for part in get_args(hint) if (kind := _kind(part))), None)


def _text(value: object, kind: Kind | None, units: LengthUnit, decimals: int) -> str:
    """Return a value with its unit behind it, once."""
    unit = _unit(kind, units) if kind else ""

    def bare(one: object) -> str:
        return _number(one, kind, unit, decimals) if isinstance(one, float | int) else _word(one)

    if value is None:  # only a drop can be left open in a list
        return "estimated"
    if isinstance(value, bool):
        return "yes" if value else "no"
    if isinstance(value, float | int):
        return _with_unit(bare(value), unit)
    if isinstance(value, Range):
        return _with_unit(f"{bare(value.low)} .. {bare(value.high)}", unit)
    if isinstance(value, Toleranced):
        return _with_unit(f"{bare(value.value)} +- {bare(value.plus_minus)}", unit)
    if isinstance(value, Place):
        return _with_unit(_place(value, bare), unit)
    if isinstance(value, tuple):
        return ", ".join(_text(one, kind, units, decimals) for one in value)
    return _word(value)


def _word(value: object) -> str:
    if isinstance(value, Enum):
        return str(value.value)
    return value.isoformat() if isinstance(value, date) else str(value)


def _place(place: Place, bare: Callable[[object], str]) -> str:
    """Return a place as files write it: station, side and butt line, water line."""
    butt_line = bare(abs(place.bl_m))
    side = "" if butt_line == "0" else "L" if place.bl_m < 0.0 else "R"
    water_line = [] if place.wl_m is None else [bare(place.wl_m)]
    return " ".join([bare(place.fs_m), side + butt_line, *water_line])


def _number(value: float, kind: Kind | None, unit: str, decimals: int) -> str:
    shown = in_unit(value, kind, unit) if kind else value
    text = f"{shown:z.{decimals}f}"
    return text.rstrip("0").rstrip(".")


def _with_unit(text: str, unit: str) -> str:
    return f"{text} {unit}".rstrip()


def _unit(kind: Kind, units: LengthUnit) -> str:
    if kind.si == "m":
        return units
    if kind.name == "mass":
        return MASS_UNITS[units]
    return _SHOWN_IN.get(kind.name) or next(iter(kind.units), "")
