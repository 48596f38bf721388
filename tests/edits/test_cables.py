# SPDX-License-Identifier: Apache-2.0
"""Edits of cable assemblies: type, ends, way and lengths."""

from __future__ import annotations

from dataclasses import replace

import pytest
from sample import inch, refitted, sample_plan

from rfplan.edits import EditError, SetCable, SetEnds, SetLengths, SetRoute
from rfplan.model.plan import Measurement, Plan, State
from rfplan.model.record import ById
from rfplan.units import UNKNOWN


def test_another_cable_takes_the_place_of_the_old_one_in_design_and_built() -> None:
    plan = SetCable("w11", "coax_3mm").apply(sample_plan())
    types = [fitted.cables["w11"].type for fitted in (plan.found, plan.design, plan.built)]
    assert types == ["coax_5mm", "coax_3mm", "coax_3mm"]
    assert plan.built.cables["w11"].length_m == pytest.approx(inch(91.5))


def as_found(plan: Plan) -> Plan:
    """Return a plan whose design has taken over the found cable, with its length and age."""
    found = replace(plan.found.cables["w11"], age_yr=19.0, ageing_ratio=0.2)
    return replace(
        plan,
        found=replace(plan.found, cables=plan.found.cables.having("w11", found)),
        design=replace(plan.design, cables=plan.design.cables.having("w11", found)),
    )


def test_length_and_age_of_the_old_piece_do_not_pass_to_the_new_one() -> None:
    new = SetCable("w11", "coax_3mm").apply(as_found(sample_plan())).design.cables["w11"]
    assert (new.type, new.length_m, new.age_yr) == ("coax_3mm", None, None)
    assert new.ageing_ratio is None


def test_a_length_that_the_design_states_itself_stays() -> None:
    plan = refitted(as_found(sample_plan()), "cables", "w11", length_m=2.0)
    new = SetCable("w11", "coax_3mm").apply(plan).design.cables["w11"]
    assert (new.length_m, new.age_yr) == (2.0, None)


def test_a_found_cable_that_is_called_by_another_type_is_still_the_same_piece() -> None:
    plan = SetCable("w11", "coax_3mm").apply(replace(as_found(sample_plan()), state=State.FOUND))
    assert plan.found.cables["w11"].length_m == inch(31)
    assert plan.found.cables["w11"].age_yr == 19.0


def test_ends_and_way_are_set() -> None:
    plan = SetEnds("w11", ("tnc", "bnc")).apply(sample_plan())
    assert plan.design.cables["w11"].plugs == ("tnc", "bnc")
    plan = SetRoute("w11", ("apl",), ("flr",)).apply(plan)
    assert (plan.design.cables["w11"].via, plan.built.cables["w11"].avoid) == (("apl",), ("flr",))


def test_lengths_are_set_together_and_the_rest_is_told_as_it_is() -> None:
    plan = sample_plan()
    edit = replace(SetLengths.of("w11", plan.design.cables["w11"]), loops_m=(0.1, UNKNOWN))
    assert edit.apply(plan).design.cables["w11"] == replace(
        plan.design.cables["w11"], loops_m=(0.1, UNKNOWN)
    )
    assert edit.words(plan) == "w11 with loops 3.9 in and ?"
    assert SetLengths.of("w11", plan.design.cables["w11"]).apply(plan) is plan


@pytest.mark.parametrize(
    ("edit", "words"),
    [
        (SetCable("w99", "coax_3mm"), "there is no cable w99 in design"),
        (SetRoute("w11", ("attic",)), "the airframe has no route node attic"),
        (SetLengths("w11", drip_loop_m=-0.1), "w11: drip loop below zero"),
        (SetLengths("w11", loops_m=(0.1, -0.1)), "w11: loops below zero"),
        (SetLengths("w11", length_m=0.0), "w11: length not above zero"),
    ],
)
def test_what_cannot_be_is_refused_in_words(
    edit: SetCable | SetRoute | SetLengths, words: str
) -> None:
    with pytest.raises(EditError) as refusal:
        edit.apply(sample_plan())
    assert str(refusal.value) == words


def test_readings_that_were_taken_with_the_cable_before_are_told() -> None:
    readings = {
        "m1": Measurement("gnss1", 3.0, at_hz=1.575e9),
        "m2": Measurement("gnss1", 3.0, State.FOUND, at_hz=1.575e9),
        "m3": Measurement("com1", 1.0, at_hz=127.0e6),
        "m4": Measurement("gnss1", 3.0, State.DESIGN, at_hz=1.565e9),
    }
    one, more = (
        replace(sample_plan(), measurements=ById({id: readings[id] for id in ids}))
        for ids in (("m1", "m2", "m3"), readings)
    )
    edit = SetCable("w11", "coax_3mm")
    assert edit.consequence(sample_plan()) == ""
    assert edit.consequence(one) == "reading m1 was taken with the cable before"
    assert edit.consequence(more) == "readings m1 and m4 were taken with the cable before"
    assert SetRoute("w11", ("rf2",)).consequence(one) == edit.consequence(one)


def test_every_edit_says_what_it_does() -> None:
    plan = sample_plan()
    assert SetCable("w11", "coax_3mm").words(plan) == "w11 changed to coax_3mm"
    assert SetEnds("w11", ("tnc", "bnc")).words(plan) == "w11 with plugs tnc and bnc"
    assert SetRoute("w11").words(plan) == "w11 laid the shortest way"
    laid = SetRoute("w11", ("apl", "rf1"), ("flr",))
    assert laid.words(plan) == "w11 laid via apl, rf1, avoiding flr"
