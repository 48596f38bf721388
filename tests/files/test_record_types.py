# SPDX-License-Identifier: Apache-2.0
"""The types of the records tell the keys of a file, and what can be left out of it."""

from __future__ import annotations

import pytest

from rfplan.files.nodes import Location
from rfplan.files.record_types import (
    removable_part,
    required_keys,
    type_at,
    types_by_key,
    words_of,
)
from rfplan.model.airframe import Airframe, Node
from rfplan.model.plan import Installation, Port, Revision, State


def test_keys_are_the_fields_without_their_units() -> None:
    assert {"loss", "power", "class", "cable_length"} <= set(types_by_key(Port))
    assert required_keys(Port) == ("radio",)
    assert "id" not in types_by_key(Airframe)


def test_the_type_at_a_way_is_found_through_ids_and_lists() -> None:
    assert type_at(Installation, ("units", "nav1", "ports", "gnss")) is Port
    assert type_at(Airframe, ("route", "nodes", "p1")) is Node
    assert type_at(Airframe, ("sections", 3, "roundness")) is float
    assert type_at(Airframe, ("nothing", "here")) is None


def test_the_words_of_a_choice_are_known() -> None:
    assert words_of(State) == ("found", "design", "built")
    assert "draft" in words_of(type_at(Revision, ("status",)))
    assert words_of(float) == ()


@pytest.mark.parametrize(
    ("record", "loc", "part"),
    [
        (Installation, ("units", "nav1", "ports", "gnss", "vswr"), 5),  # an optional key
        (Installation, ("units", "nav1", "ports", "gnss", "radio"), 4),  # a key of an entry
        (Installation, ("units", "nav1", "at"), 3),
        (Installation, ("cables", "w1", "plugs", 1), 2),
        (Airframe, ("sections", 2, "source"), 1),  # nothing is taken out of a list
        (Airframe, ("route", "nodes", "p1", "at"), 3),
    ],
)
def test_the_least_part_is_left_out_without_which_the_rest_is_a_record(
    record: type[object], loc: Location, part: int
) -> None:
    assert removable_part(record, loc) == loc[:part]
