# SPDX-License-Identifier: Apache-2.0
"""Quantities as text that reads back as the same value, in the unit that an author uses."""

from __future__ import annotations

import math
import re
from collections import Counter
from collections.abc import Iterator
from dataclasses import dataclass
from functools import cache
from typing import Any

from rfplan.files.nodes import Node
from rfplan.units import BUTT_RANGE, LENGTH, Kind, Missing, Place, Range, from_unit, in_unit

_CLOSE = 1e-9
_MOST_DIGITS = 9
_FEET_INCHES = re.compile(r"[0-9] ?ft [0-9]")
_INCHES_IN_A_FOOT = 12.0


@dataclass(frozen=True, slots=True)
class Author:
    """Knows the units in which a file is written."""

    root: Node

    def text(self, value: Any, kind: Kind, present: str) -> str:
        """Return a quantity in the unit of the present text, else in the commonest of the file."""
        if kind is LENGTH and isinstance(value, float) and _FEET_INCHES.search(present):
            return _feet_inches(value)
        unit = unit_in(present, kind) or self._usual_unit(kind)
        write = _FORMS.get(type(value), _number)
        return f"{write(value, kind, unit)} {unit}".rstrip()

    def _usual_unit(self, kind: Kind) -> str:
        used = Counter(unit for text in _texts(self.root) if (unit := unit_in(text, kind)))
        return used.most_common(1)[0][0] if used else unit_in(kind.example, kind)


def unit_in(text: str, kind: Kind) -> str:
    """Return the first unit of a kind that stands behind a number in a text, '' without one."""
    found = _behind_a_number(kind).search(text)
    return found[1] if found else ""


@cache
def _behind_a_number(kind: Kind) -> re.Pattern[str]:
    units = "|".join(re.escape(unit) for unit in sorted(kind.units, key=len, reverse=True) if unit)
    return re.compile(rf"[0-9] ?({units})(?![\w/])")


def _texts(node: Node) -> Iterator[str]:
    """Yield every text in a tree."""
    if isinstance(node.value, str):
        yield node.value
    elif isinstance(node.value, dict | list):
        for child in node.value.values() if isinstance(node.value, dict) else node.value:
            yield from _texts(child)


def _number(value: float, kind: Kind, unit: str) -> str:
    """Return the shortest number that reads back as the value."""
    number = in_unit(value, kind, unit)
    texts = (f"{number:z.{digits}f}" for digits in range(_MOST_DIGITS))
    exact = (text for text in texts if _close(from_unit(float(text), kind, unit), value))
    return next(exact, f"{number:z.{_MOST_DIGITS}f}")


def _close(one: float, other: float) -> bool:
    return math.isclose(one, other, rel_tol=_CLOSE, abs_tol=_CLOSE)


def _feet_inches(value_m: float) -> str:
    inches = in_unit(value_m, LENGTH, "in")
    feet = int((inches + _CLOSE) // _INCHES_IN_A_FOOT)
    rest_m = from_unit(inches - feet * _INCHES_IN_A_FOOT, LENGTH, "in")
    return f"{feet} ft {_number(rest_m, LENGTH, 'in')} in"


def _butt_line(value_m: float, kind: Kind, unit: str) -> str:
    number = _number(abs(value_m), kind, unit)
    return number if number == "0" else f"{'L' if value_m < 0.0 else 'R'}{number}"


def _place(place: Place, kind: Kind, unit: str) -> str:
    station, butt_line = _number(place.fs_m, kind, unit), _butt_line(place.bl_m, kind, unit)
    water_line = "" if place.wl_m is None else f" {_number(place.wl_m, kind, unit)}"
    return f"{station} {butt_line}{water_line}"


def _range(span: Range, kind: Kind, unit: str) -> str:
    write = _butt_line if kind is BUTT_RANGE else _number
    ends = (span.low, span.high)
    texts = [str(e.value) if isinstance(e, Missing) else write(e, kind, unit) for e in ends]
    return " .. ".join(texts)


_FORMS: dict[type, Any] = {Place: _place, Range: _range}
