# SPDX-License-Identifier: Apache-2.0
"""Messages begin with the ids concerned, say a thing once, and name what looks like it."""

from __future__ import annotations

import pytest

from rfplan.files.faults import MAX_PROBLEMS, Faults, near_misses, one_of
from rfplan.files.nodes import Location, Mark
from rfplan.files.problems import ProblemsError

MARK = Mark(3, 7, 20, 24)


@pytest.mark.parametrize(
    ("loc", "subject"),
    [
        (("units", "nav1", "ports", "gnss", "loss", "all"), "nav1.gnss.loss"),
        (("cables", "w11", "plugs", 1), "w11.plugs.2"),
        (("route", "segments", "p1-apl", "length"), "p1-apl.length"),
        (("policy", "near"), "policy.near"),
        (("paths",), "paths"),
        ((), "plan"),
        (("cables", "w\n1"), "w\\u000a1"),
    ],
)
def test_a_message_begins_with_the_ids_on_the_way(loc: Location, subject: str) -> None:
    assert Faults("plan.yaml", "plan").subject(loc) == subject


def test_in_a_file_of_one_entry_a_message_begins_with_its_id() -> None:
    faults = Faults("rg_400_u.yaml", "rg_400_u", is_entry=True)
    assert faults.subject(("attenuation", "nominal", "points")) == "rg_400_u.nominal.points"
    assert faults.subject(()) == "rg_400_u"


def test_the_same_is_said_once_of_a_place() -> None:
    faults = Faults("plan.yaml")
    faults.add(MARK, "vhf1: no", "yes", ("units", "vhf1", "at"))
    faults.add(MARK, "vhf2: no", "yes", ("units", "vhf2", "at"))
    faults.add(MARK, "vhf1: neither", "maybe", ("units", "vhf1", "at"))
    assert [problem.message for problem in faults.problems] == ["vhf1: no", "vhf1: neither"]
    assert faults.problems[0].key == "units.vhf1.at"


def test_too_many_problems_are_raised_at_once() -> None:
    faults = Faults("plan.yaml")
    for number in range(1, MAX_PROBLEMS):
        faults.add(MARK, f"fault {number}")
    with pytest.raises(ProblemsError) as caught:
        faults.add(MARK, "one more")
    assert len(caught.value.problems) == MAX_PROBLEMS


def test_the_nearest_choices_are_named_and_none_that_is_far_from_them() -> None:
    assert near_misses("rg_400u", ["rg_400_u", "rg_304_u", "rg_303_u"]) == ["rg_400_u"]
    assert near_misses("split.c", ["split.a", "split.b"]) == ["split.b", "split.a"]
    assert near_misses("x" * 1000, ["x" * 999]) == []
    assert near_misses(17, ["17"]) == []


def test_without_a_near_miss_few_choices_are_listed_and_of_many_some() -> None:
    assert one_of(["b", "a"], "zzz", "a letter") == "'a' or 'b'"
    assert one_of([], "zzz", "a group") == "a group, of which there is none"
    many = [f"item{n:02}" for n in range(20)]
    assert one_of(many, "zzz", "an item") == "an item such as 'item00', 'item01' or 'item02'"
