# SPDX-License-Identifier: Apache-2.0
"""Edits from JSON: a closed set of kinds, and nothing taken that does not fit one of them."""

from __future__ import annotations

from dataclasses import is_dataclass
from typing import Any, get_args

from rfplan.edits.antennas import MoveAntenna, SetGroundPlane
from rfplan.edits.as_json import JsonError, decoded, hints
from rfplan.edits.cables import SetCable, SetEnds, SetLengths, SetRoute
from rfplan.edits.claims import (
    AcceptPoint,
    AddWaiver,
    RemoveMeasurement,
    RemoveWaiver,
    SetMeasurement,
    SetRevision,
)
from rfplan.edits.edit import Edit, SetValues
from rfplan.edits.values import Value
from rfplan.model.plan import Plan, State
from rfplan.model.record import ById

KINDS: dict[str, type[Edit]] = {
    kind.__name__: kind
    for kind in (
        MoveAntenna,
        SetGroundPlane,
        SetCable,
        SetEnds,
        SetRoute,
        SetLengths,
        AddWaiver,
        RemoveWaiver,
        AcceptPoint,
        SetMeasurement,
        RemoveMeasurement,
        SetRevision,
        SetValues,
    )
}
"""Every kind of edit by its name in JSON."""

_CLAIMS = ("measurements", "waivers", "accepted", "people", "revision")
EDITED = (*(state.value for state in State), *_CLAIMS)
"""The parts of a plan that edits change; the rest is changed in its file."""


def edit_from_json(value: Any) -> Edit:
    """Return the edit that JSON tells; raises JsonError for anything else."""
    if not isinstance(value, dict):
        raise JsonError("an edit is a mapping")
    name = value.get("edit")
    if not isinstance(name, str) or name not in KINDS:
        raise JsonError(f"no kind of edit {name!r:.40}")
    told = {key: item for key, item in value.items() if key != "edit"}
    if name == SetValues.__name__:
        return _set_values(told)
    edit: Edit = decoded(told, KINDS[name])
    return edit


def _set_values(told: dict[str, Any]) -> SetValues:
    values = told.get("values")
    if set(told) != {"values"} or not isinstance(values, list):
        raise JsonError("'values' is not a list that stands alone")
    return SetValues(tuple(map(_value, values)))


def _value(told: Any) -> Value:
    if not isinstance(told, dict) or not {"way"} <= set(told) <= {"way", "value"}:
        raise JsonError("a value has a 'way' and a 'value'")
    way = decoded(told["way"], tuple[str, ...])
    hint = _type_at(way)
    return Value(way, None if told.get("value") is None else decoded(told["value"], hint))


def _type_at(way: tuple[str, ...]) -> Any:
    """Return the type of what stands at a way into a plan."""
    current: Any = Plan
    if not way or way[0] not in EDITED:
        raise JsonError(f"no edit changes {' '.join(way)!r:.40}")
    for step in way:
        current = _inside(current, step)
    return current


def _inside(holder: Any, step: str) -> Any:
    choices = [choice for choice in get_args(holder) if choice is not type(None)]
    if getattr(holder, "__origin__", None) is ById:
        return choices[0]
    record = choices[0] if choices else holder
    if not isinstance(record, type) or not is_dataclass(record) or step not in hints(record):
        raise JsonError(f"nothing is called {step!r:.40} there")
    return hints(record)[step]
