# SPDX-License-Identifier: Apache-2.0
"""What the state looked at has that was not found so."""

from __future__ import annotations

from dataclasses import replace

from demo_plans import assessed
from sample import place, sample_assessment, sample_plan

from rfplan.model.plan import State
from rfplan.reports.since_found import (
    AS_FOUND,
    MOVED,
    NEW,
    REPLACED,
    antenna_change,
    cable_change,
    new_cables,
    part_change,
    plane_change,
)


def test_antennas_are_new_replaced_moved_or_as_found() -> None:
    plan = assessed("amphibian").plan
    told = {id: antenna_change(id, plan) for id in plan.installation.antennas}
    assert (told["gnss1"], told["com1"], told["com2"]) == (REPLACED, MOVED, AS_FOUND)
    bare = replace(plan.found, antennas=plan.found.antennas.__class__())
    assert antenna_change("com2", replace(plan, found=bare)) == NEW


def test_cables_are_new_replaced_moved_or_as_found() -> None:
    assessment = assessed("twin")
    told = {id: cable_change(id, assessment) for id in assessment.cables}
    assert (told["w34"], told["w51"], told["w31"]) == (NEW, REPLACED, AS_FOUND)
    assert cable_change("w61", assessed("amphibian")) == MOVED


def test_a_routed_cable_whose_antenna_moves_is_made_anew() -> None:
    plan = sample_plan()
    moved = replace(plan.found.antennas["com1"], at=place(110, 0), node="rf2")
    found = replace(plan.found, antennas=plan.found.antennas.having("com1", moved))
    longer = replace(plan.found.cables["w21"], drops_m=None)
    found = replace(found, cables=plan.found.cables.having("w21", longer))
    design = replace(plan.design, cables=plan.design.cables.having("w21", longer))
    assessment = sample_assessment(replace(plan, found=found, design=design))
    assert cable_change("w21", assessment) == REPLACED
    assert "w21" in new_cables(assessment)


def test_in_the_state_found_nothing_is_new() -> None:
    assessment = sample_assessment(sample_plan(state=State.FOUND))
    assert new_cables(assessment) == []


def test_parts_and_foil_are_new_or_as_found() -> None:
    plan = assessed("amphibian").plan
    assert (part_change("pad1", plan), part_change("diplex", plan)) == (NEW, AS_FOUND)
    assert plane_change("foil_com1", plan) == NEW
