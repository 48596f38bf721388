# SPDX-License-Identifier: Apache-2.0
"""What differs between two plans, value by value, and how a plan takes such values over."""

from __future__ import annotations

import math
from collections.abc import Iterable, Iterator
from dataclasses import dataclass, fields, is_dataclass, replace
from typing import Any

from rfplan.model.plan import Plan
from rfplan.model.record import ById

_CLOSE = 1e-9


@dataclass(frozen=True, slots=True)
class Value:
    """A value at a way into a plan: ('design', 'antennas', 'gnss1', 'at'); None is no value."""

    way: tuple[str, ...]
    value: Any


def same(one: Any, other: Any) -> bool:
    """Tell whether two values of the model are equal, numbers to one part in 10^9."""
    if one is other:
        return True
    if isinstance(one, float) and isinstance(other, float):
        return math.isclose(one, other, rel_tol=_CLOSE, abs_tol=_CLOSE)
    if type(one) is not type(other):
        return False
    if isinstance(one, tuple):
        return len(one) == len(other) and all(map(same, one, other))
    if isinstance(one, ById):
        return one.keys() == other.keys() and all(same(one[id], other[id]) for id in one)
    if is_dataclass(one):
        return all(same(getattr(one, f.name), getattr(other, f.name)) for f in fields(one))
    return bool(one == other)


def differences(before: Plan, after: Plan) -> tuple[Value, ...]:
    """Return the values in which the second plan differs from the first, found before built.

    The names that a plan and its airframe have from their files are not compared, nor is what
    of a plan is looked at.
    """
    names: dict[str, Any] = {"id": before.id, "state": before.state, "serial": before.serial}
    if before.airframe.id != after.airframe.id:
        names["airframe"] = replace(after.airframe, id=before.airframe.id)
    return tuple(_differences(before, replace(after, **names), ()))


def with_values(plan: Plan, values: Iterable[Value]) -> Plan:
    """Return a plan that takes values over; raises KeyError where a way leads nowhere."""
    for value in values:
        plan = _with_value(plan, value.way, value.value)
    return plan


def _differences(before: Any, after: Any, way: tuple[str, ...]) -> Iterator[Value]:
    if same(before, after):
        return
    if isinstance(before, ById) and isinstance(after, ById):
        for id in dict.fromkeys([*before, *after]):
            yield from _differences(before.get(id), after.get(id), (*way, id))
    elif type(before) is type(after) and _is_record(before):
        for f in fields(before):
            yield from _differences(getattr(before, f.name), getattr(after, f.name), (*way, f.name))
    else:
        yield Value(way, after)


def _is_record(value: Any) -> bool:
    """Tell whether a file names the fields of a value, as it does not for a place or a range."""
    return isinstance(value, Plan) or hasattr(value, "__pydantic_config__")


def _with_value(holder: Any, way: tuple[str, ...], value: Any) -> Any:
    first, rest = way[0], way[1:]
    if isinstance(holder, ById):
        child = _with_value(holder[first], rest, value) if rest else value
        kept = ((id, thing) for id, thing in holder.items() if id != first)
        return ById(kept) if child is None else holder.having(first, child)
    if not hasattr(holder, first):
        raise KeyError(first)
    child = _with_value(getattr(holder, first), rest, value) if rest else value
    return replace(holder, **{first: child})
