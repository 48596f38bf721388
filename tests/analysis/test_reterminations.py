# SPDX-License-Identifier: Apache-2.0
"""New plugs: each takes its cut off the margin to the least loss, until FAIL-LOW."""

from __future__ import annotations

from dataclasses import replace

import pytest
from sample import (
    inch,
    refitted,
    sample_assessment,
    sample_catalog,
    sample_plan,
    with_entry,
    with_port,
)

from rfplan.model.catalog import AttenuationSet
from rfplan.model.electrical import Retermination
from rfplan.model.findings import Verdict
from rfplan.model.plan import Plan
from rfplan.model.record import ById
from rfplan.units import NONE, Range


def new_plugs(plan: Plan) -> Retermination | None:
    assessment = sample_assessment(plan)
    return next(path.retermination for path in assessment.paths if path.id == "gnss1")


def least_db(plan: Plan) -> float:
    path = next(one for one in sample_assessment(plan).paths if one.id == "gnss1")
    loss_db = path.bands[0].min_corner.loss_db
    assert loss_db is not None
    return loss_db


def cut_once(plan: Plan, cuts: int) -> Plan:
    """Return a plan whose cable is shorter by some cuts, its allowance already used up."""
    run = sample_assessment(plan).cables["w11"]
    assert run.terms is not None
    left_m = run.length_m.nominal - cuts * plan.policy.retermination_cut_m
    lying = {"length_m": left_m, "retermination_m": None, "loops_m": None, "drops_m": None}
    return refitted(plan, "cables", "w11", **lying)


@pytest.mark.parametrize("cuts", [0, 1, 2])
def test_a_margin_after_cuts_is_that_of_the_shorter_cable(cuts: int) -> None:
    plan = sample_plan()
    told = new_plugs(plan)
    assert told is not None
    assert told.margins_db[cuts] == pytest.approx(least_db(cut_once(plan, cuts)) - 0.5)


def test_the_cable_passes_after_as_many_cuts_as_are_told_and_fails_after_one_more() -> None:
    bare = least_db(cut_once(sample_plan(), 3))
    plan = with_port(sample_plan(), "nav1", "gnss", loss_db=ById({"all": Range(bare - 0.001, 4.0)}))
    told = new_plugs(plan)
    assert told is not None
    assert told.cuts_left == 3
    words = [
        next(
            p.loss.verdict for p in sample_assessment(cut_once(plan, cuts)).paths if p.id == "gnss1"
        )
        for cuts in (3, 4)
    ]
    assert words == [Verdict.PASS, Verdict.FAIL_LOW]


def test_the_allowance_holds_as_many_cuts_as_fit_into_it() -> None:
    told = new_plugs(sample_plan())
    assert told is not None
    assert (told.cable, told.cut_m, told.slack_cuts) == ("w11", 0.0508, 2)
    policy = replace(sample_plan().policy, retermination_cut_m=inch(1.5))
    assert (new_plugs(sample_plan(policy=policy)) or told).slack_cuts == 2


def test_a_margin_that_is_gone_leaves_no_cut() -> None:
    plan = with_port(sample_plan(), "nav1", "gnss", loss_db=ById({"all": Range(3.0, 4.0)}))
    told = new_plugs(plan)
    assert told is not None
    assert told.cuts_left == 0
    assert told.margins_db[0] < 0.0


def test_no_more_cuts_are_told_than_the_cable_is_long() -> None:
    plan = with_port(sample_plan(), "nav1", "gnss", loss_db=ById({"all": Range(0.01, 4.0)}))
    told, run = new_plugs(plan), sample_assessment(plan).cables["w11"]
    assert told is not None
    assert told.cuts_left <= run.length_m.nominal / told.cut_m


def test_without_a_least_loss_there_is_nothing_to_run_out_of() -> None:
    plan = with_port(sample_plan(), "nav1", "gnss", loss_db=ById({"all": Range(NONE, 4.0)}))
    assert new_plugs(plan) is None


def test_a_cable_of_which_only_a_maximum_is_known_has_no_margin_to_tell() -> None:
    entry = sample_catalog().cables["coax_5mm"]
    points = entry.attenuation["nominal"].points
    known = ById({"maximum": AttenuationSet("maximum", True, points=points, source="sheet")})
    catalog = with_entry(sample_catalog(), "cables", "coax_5mm", attenuation=known)
    assessment = sample_assessment(sample_plan(), catalog)
    assert next(p.retermination for p in assessment.paths if p.id == "gnss1") is None


def test_the_signal_with_the_least_margin_decides() -> None:
    told = new_plugs(sample_plan())
    room = new_plugs(with_port(sample_plan(), "nav1", "gnss", limit_at="room"))
    assert told is not None
    assert room is not None
    assert room.margins_db[0] > told.margins_db[0]
