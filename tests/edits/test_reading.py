# SPDX-License-Identifier: Apache-2.0
"""Edits as JSON and back, and what is refused on the way."""

from __future__ import annotations

import json
from datetime import date
from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st

from rfplan.edits import (
    KINDS,
    AcceptPoint,
    AddWaiver,
    Edit,
    JsonError,
    MoveAntenna,
    RemoveMeasurement,
    RemoveWaiver,
    SetCable,
    SetEnds,
    SetGroundPlane,
    SetLengths,
    SetMeasurement,
    SetRevision,
    SetRoute,
    SetValues,
    Value,
    edit_from_json,
)
from rfplan.model.plan import (
    Accepted,
    AcceptedPoint,
    Antenna,
    FindingRef,
    Measurement,
    Person,
    State,
    Waiver,
)
from rfplan.model.record import ById
from rfplan.units import NONE, UNKNOWN, Missing, Place

names = st.text(max_size=8)
numbers = st.floats(allow_nan=False, allow_infinity=False)
lengths: st.SearchStrategy[float | Missing | None] = st.one_of(
    numbers, st.sampled_from(Missing), st.none()
)
places = st.builds(Place, numbers, numbers, st.none() | numbers)
waivers = st.builds(
    Waiver,
    st.builds(FindingRef, names, st.tuples(names, names)),
    names,
    names,
    st.sampled_from(State),
    st.none() | names,
    st.none() | st.dates(),
    st.none() | st.builds(Accepted, names, names),
    check=st.none() | names,
)
edits: st.SearchStrategy[Edit] = st.one_of(
    st.builds(MoveAntenna, names, names, places),
    st.builds(SetGroundPlane, names, st.none() | names),
    st.builds(SetCable, names, names),
    st.builds(SetEnds, names, st.tuples(names, names)),
    st.builds(SetRoute, names, st.tuples(names), st.tuples()),
    st.builds(SetLengths, names, lengths, st.none() | st.tuples(numbers, st.just(UNKNOWN))),
    st.builds(AddWaiver, names, waivers),
    st.builds(RemoveWaiver, names),
    st.builds(AcceptPoint, names, st.builds(AcceptedPoint, names, st.dates(), st.none() | names)),
    st.builds(RemoveMeasurement, names),
    st.builds(
        SetRevision,
        names,
        st.dictionaries(
            names, st.builds(Person, names, st.none() | names, st.none(), st.none() | st.dates())
        ).map(ById),
    ),
    st.builds(
        SetMeasurement,
        names,
        st.builds(
            Measurement,
            names,
            st.none() | numbers,
            st.sampled_from(State),
            lengths.filter(lambda value: not isinstance(value, Missing)),
            at_hz=numbers,
            vswr=st.none() | numbers,
        ),
    ),
)


@given(edits)
def test_an_edit_comes_back_from_json_as_it_was(edit: Edit) -> None:
    assert edit_from_json(json.loads(json.dumps(edit.to_json()))) == edit


def test_values_come_back_with_the_types_that_their_ways_have() -> None:
    values = SetValues(
        (
            Value(("design", "antennas", "gnss1", "at"), Place(1.0, -0.5, None)),
            Value(("built", "antennas", "gnss2"), Antenna("t", "top", Place(1.0, 0.0, None))),
            Value(("design", "cables", "w1", "length_m"), NONE),
            Value(("design", "cables", "w1", "loops_m"), (0.1, UNKNOWN)),
            Value(("design", "cables", "w1", "age_yr"), None),
            Value(("measurements", "m1", "date"), date(2026, 11, 25)),
            Value(("waivers", "v1", "finding", "of"), ("a", "b")),
            Value(("waivers", "v2"), None),
            Value(("accepted", "w1.drops", "date"), date(2026, 11, 25)),
            Value(("people", "checked"), Person("A. Person", date=date(2026, 11, 25))),
            Value(("people", "prepared", "name"), "B. Person"),
            Value(("revision", "letter"), "C"),
        )
    )
    assert edit_from_json(json.loads(json.dumps(values.to_json()))) == values


def test_the_kinds_are_a_closed_set() -> None:
    assert all(KINDS[name].__name__ == name for name in KINDS)
    assert {kind.__name__ for kind in Edit.__subclasses__()} == set(KINDS)


PLACE = {"fs_m": 1.0, "bl_m": 0.0}


@pytest.mark.parametrize(
    "told",
    [
        None,
        [],
        "MoveAntenna",
        {},
        {"edit": "DropTable"},
        {"edit": ["MoveAntenna"]},
        {"edit": "__class__"},
        {"edit": "RemoveWaiver"},
        {"edit": "RemoveWaiver", "id": 7},
        {"edit": "RemoveWaiver", "id": "v1", "also": 1},
        {"edit": "MoveAntenna", "antenna": "a", "on": "top", "at": "94 L2 in"},
        {"edit": "MoveAntenna", "antenna": "a", "on": "top", "at": {**PLACE, "fs_m": True}},
        {"edit": "MoveAntenna", "antenna": "a", "on": "top", "at": {**PLACE, "fs_m": 1e999}},
        {"edit": "SetEnds", "cable": "w1", "plugs": ["tnc"]},
        {"edit": "SetLengths", "cable": "w1", "length_m": "long"},
        {"edit": "SetMeasurement", "id": "m", "measurement": {"path": "p", "loss_db": 1}},
        {"edit": "SetValues"},
        {"edit": "SetValues", "values": {}},
        {"edit": "SetValues", "values": [{"way": [], "value": 1}]},
        {"edit": "SetValues", "values": [{"way": ["policy", "near_db"], "value": 1.0}]},
        {"edit": "SetValues", "values": [{"way": ["design", "doors", "x"], "value": 1.0}]},
        {"edit": "SetValues", "values": [{"way": ["design", "cables", "w1", "__class__"]}]},
        {"edit": "SetValues", "values": [{"way": ["design", "cables", "w1", "type"], "value": 4}]},
    ],
)
def test_anything_else_is_refused(told: Any) -> None:
    with pytest.raises(JsonError):
        edit_from_json(told)
