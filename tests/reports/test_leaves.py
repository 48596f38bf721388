# SPDX-License-Identifier: Apache-2.0
"""Records come apart into values with units, and equal values are equal however written."""

from __future__ import annotations

from dataclasses import replace
from datetime import date

import pytest
from hypothesis import given
from hypothesis import strategies as st
from sample import inch, place, sample_airframe, sample_assembly, sample_plan

from rfplan.model.plan import Policy, Revision
from rfplan.reports.leaves import Leaf, leaves, same, told
from rfplan.units import LENGTH, LOSS, NONE, UNKNOWN, Place, Range, Toleranced


def texts(record: object, units: str = "in") -> dict[str, str]:
    return {key: told(leaf, units, 4) for key, leaf in leaves(record).items()}


def test_a_cable_comes_apart_by_the_keys_of_its_file() -> None:
    assert texts(sample_assembly(via=("apl", "rfl"), length_m=UNKNOWN)) == {
        "type": "coax_5mm",
        "plugs": "bnc, bnc",
        "length": "?",
        "via": "apl, rfl",
        "loops": "6 in, 6 in",
        "drops": "6 in, 3 in",
        "retermination": "4 in",
        "tolerance": "0.5 in",
        "source": "sheet",
    }


def test_a_unit_comes_apart_down_to_the_limits_of_its_ports() -> None:
    unit = texts(sample_plan().design.units["nav1"])
    assert unit["at"] == "62 L4 50 in"
    assert unit["ports.gnss.loss.all"] == "0.5 .. 4 dB"
    assert unit["ports.com.loss.all"] == "none .. 2.5 dB"
    assert unit["ports.com.power"] == "16 .. 16 W"
    assert unit["ports.com.unused"] == "no"


def test_lengths_follow_the_unit_of_the_sheet() -> None:
    assert texts(sample_assembly(), "mm")["loops"] == "152.4 mm, 152.4 mm"


def test_values_in_other_units_use_the_unit_of_the_trade() -> None:
    policy = texts(Policy(), "mm")
    assert policy["temperature"] == "-55 .. 70 degC"
    assert policy["bend"] == "10 od"
    assert policy["near"] == "0.5 dB"
    assert texts(sample_airframe().weight)["empty"].endswith(" lb")


def test_a_list_of_records_is_numbered() -> None:
    hull = texts(sample_airframe().sections)
    assert (hull["1.fs"], hull["4.fs"]) == ("20 in", "240 in")


def test_what_is_absent_or_empty_is_left_out() -> None:
    assert texts(Revision("A", None, date(2026, 11, 25))) == {"letter": "A", "date": "2026-11-25"}
    assert leaves(None) == {}


@pytest.mark.parametrize(
    ("leaf", "text"),
    [
        (None, "-"),
        (Leaf(NONE, LOSS), "none"),
        (Leaf(place(60, 0), LENGTH), "60 0 in"),
        (Leaf(place(60, 10, 50), LENGTH), "60 R10 50 in"),
        (Leaf(Toleranced(*inch(10, 1)), LENGTH), "10 +- 1 in"),
        (Leaf(3, None), "3"),
        (Leaf((inch(5), None), LENGTH), "5 in, estimated"),
    ],
)
def test_one_value_prints_as_it_is_written_in_a_file(leaf, text) -> None:
    assert told(leaf, "in", 4) == text


@pytest.mark.parametrize(
    ("one", "other"),
    [
        (0.9144, 36 * 0.0254),
        (0.1 + 0.2, 0.3),
        (Range(0.1 + 0.2, NONE), Range(0.3, NONE)),
        (Place(0.1 + 0.2, 0.0, None), Place(0.3, 0.0, None)),
        ((0.1 + 0.2, "a"), (0.3, "a")),
    ],
)
def test_the_same_quantity_is_the_same_however_written(one: object, other: object) -> None:
    assert same(one, other)


@pytest.mark.parametrize(
    ("one", "other"),
    [
        (1.0, 1.0 + 1e-6),
        (UNKNOWN, NONE),
        (0.0, UNKNOWN),
        (("a", "b"), ("b", "a")),
        (("a",), ("a", "b")),
        (Range(0.0, 1.0), Range(0.0, NONE)),
        (Place(1.0, 0.0, None), Place(1.0, 0.0, 0.0)),
        ("1", 1.0),
    ],
)
def test_different_things_are_different(one: object, other: object) -> None:
    assert not same(one, other)


@given(st.floats(-1e3, 1e3), st.floats(-1e3, 1e3))
def test_sameness_does_not_depend_on_the_side(one: float, other: float) -> None:
    assert same(one, other) is same(other, one)
    assert same(one, one)


def test_every_leaf_of_a_plan_prints() -> None:
    plan = replace(sample_plan(), design=sample_plan().built)
    for leaf in leaves(plan.design).values():
        assert told(leaf, "in", 4)
