# SPDX-License-Identifier: Apache-2.0
"""What differs between plans, and that a plan with the differences is the other plan."""

from __future__ import annotations

from dataclasses import replace

import pytest
from sample import place, refitted, sample_airframe, sample_plan

from rfplan.edits import (
    EditError,
    MoveAntenna,
    SetCable,
    SetRevision,
    SetValues,
    Value,
    differences,
    named,
    same,
    things,
    with_values,
)
from rfplan.model.plan import Person, Plan, Policy, State


def other_plan() -> Plan:
    """Return the sample with an antenna moved, another cable and another policy."""
    plan = SetCable("w21", "coax_3mm").apply(sample_plan())
    plan = MoveAntenna("gnss1", "top", place(94, -2)).apply(plan)
    return replace(plan, policy=replace(plan.policy, near_db=0.3))


def test_differences_lead_from_one_plan_to_the_other_and_back() -> None:
    one, other = sample_plan(), other_plan()
    assert with_values(one, differences(one, other)) == other
    assert with_values(other, differences(other, one)) == one


def test_differences_name_the_least_that_differs() -> None:
    ways = [value.way for value in differences(sample_plan(), other_plan())]
    assert ways == [
        ("design", "antennas", "gnss1", "at"),
        ("design", "cables", "w11", "drops_m"),
        ("design", "cables", "w21", "type"),
        ("built", "antennas", "gnss1", "at"),
        ("built", "cables", "w11", "drops_m"),
        ("built", "cables", "w21", "type"),
        ("policy", "near_db"),
    ]


def test_what_is_looked_at_and_names_from_files_are_no_difference() -> None:
    plan = sample_plan()
    elsewhere = replace(plan, id="copy", state=State.BUILT, serial="3")
    elsewhere = replace(elsewhere, airframe=sample_airframe(id="copy"))
    assert differences(plan, elsewhere) == ()


def test_a_thing_that_is_gone_and_one_that_is_new_are_differences() -> None:
    plan = sample_plan()
    cables = plan.design.cables
    fewer = replace(
        plan, design=replace(plan.design, cables=type(cables)(list(cables.items())[1:]))
    )
    assert differences(plan, fewer) == (Value(("design", "cables", "w11"), None),)
    assert differences(fewer, plan) == (Value(("design", "cables", "w11"), cables["w11"]),)
    assert same(with_values(fewer, differences(fewer, plan)), plan)


def test_lengths_that_differ_by_rounding_are_the_same() -> None:
    plan = sample_plan()
    there = place(80, 0)
    nudged = replace(there, fs_m=there.fs_m + 1e-12)
    assert same(MoveAntenna("gnss1", "top", nudged).apply(plan), plan)
    assert not same(1.0, 1.0 + 1e-6)
    assert not same(1.0, 1)


def test_values_are_named_once_by_thing_and_field() -> None:
    values = differences(sample_plan(), other_plan())
    assert named(values) == "gnss1 at, w11 drops, w21 type, policy near"
    assert named([Value(("waivers", "v2"), None)]) == "v2"
    wider = refitted(sample_plan(), "cables", "w11", drip_loop_m=0.2)
    assert named(differences(sample_plan(), wider)) == "w11 drip loop"


def test_a_thing_changed_in_two_states_is_one_thing() -> None:
    values = differences(sample_plan(), other_plan())
    assert things(sample_plan(), values) == ("antennas gnss1", "cables w21", "policy near_db")


def test_a_drop_is_a_change_of_its_own_unless_its_antenna_moves() -> None:
    shorter = refitted(sample_plan(), "cables", "w11", drops_m=None)
    values = differences(sample_plan(), shorter)
    assert things(sample_plan(), values) == ("cables w11",)


def test_values_for_what_is_not_there_are_refused_in_words() -> None:
    edit = SetValues((Value(("design", "antennas", "gnss9", "on"), "top"),))
    with pytest.raises(EditError, match="there is no gnss9 in the plan"):
        edit.apply(sample_plan())
    with pytest.raises(EditError, match="there is no wings in the plan"):
        SetValues((Value(("wings",), None),)).apply(sample_plan())


def test_the_policy_is_looked_into() -> None:
    plan = replace(sample_plan(), policy=Policy(near_db=0.2))
    assert Value(("policy", "near_db"), 0.2) in differences(sample_plan(), plan)


def test_every_edit_names_the_thing_that_differs_after_it() -> None:
    plan = sample_plan()
    edits = (
        MoveAntenna("gnss1", "top", place(94, -2)),
        SetCable("w21", "coax_3mm"),
        SetValues(differences(plan, other_plan())),
        SetRevision("B", plan.people.having("prepared", Person("P. Vorn"))),
    )
    for edit in edits:
        after = edit.apply(plan)
        assert edit.changes(plan) == things(after, differences(plan, after))
