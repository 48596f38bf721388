# SPDX-License-Identifier: Apache-2.0
"""Moving antennas, and on which states an edit acts."""

from __future__ import annotations

from dataclasses import replace

import pytest
from sample import place, refitted, sample_plan

from rfplan.edits import EditError, MoveAntenna, SetGroundPlane, differences
from rfplan.model.plan import GroundPlane, Plan, State
from rfplan.model.record import ById
from rfplan.units import UNKNOWN, Place, Range

ROOF = MoveAntenna("gnss1", "top", place(94, -2))


def places(plan: Plan, antenna: str) -> list[Place]:
    """Return where an antenna stands as found, designed and built."""
    return [fitted.antennas[antenna].at for fitted in (plan.found, plan.design, plan.built)]


def test_an_edit_acts_on_the_state_looked_at_and_on_later_ones_that_had_the_same() -> None:
    plan = sample_plan()
    found, design, built = places(ROOF.apply(plan), "gnss1")
    assert (found, design, built) == (place(58, -7, 54), place(94, -2), place(94, -2))


def test_what_was_built_otherwise_than_designed_stays_as_built() -> None:
    built = refitted(
        replace(sample_plan(), state=State.BUILT), "antennas", "gnss1", at=place(81, 0)
    )
    plan = ROOF.apply(replace(built, state=State.DESIGN))
    assert places(plan, "gnss1")[1:] == [place(94, -2), place(81, 0)]


def test_an_edit_of_the_built_state_leaves_the_design_alone() -> None:
    plan = ROOF.apply(replace(sample_plan(), state=State.BUILT))
    assert places(plan, "gnss1")[1:] == [place(80, 0), place(94, -2)]


def test_an_edit_of_what_was_found_goes_on_to_what_was_taken_over_from_there() -> None:
    plan = replace(sample_plan(), state=State.FOUND)
    moved = MoveAntenna("com1", "top", place(120, 0)).apply(plan)
    assert places(moved, "com1") == [place(120, 0)] * 3
    assert places(ROOF.apply(plan), "gnss1") == [place(94, -2), place(80, 0), place(80, 0)]


def test_a_later_state_follows_only_in_all_that_an_edit_sets_or_not_at_all() -> None:
    built = replace(sample_plan(), state=State.BUILT)
    built = refitted(built, "antennas", "gnss1", on="belly")
    moved = MoveAntenna("gnss1", "belly", place(94, 3)).apply(replace(built, state=State.DESIGN))
    assert moved.built.antennas["gnss1"] == built.built.antennas["gnss1"]


def test_the_old_plan_is_as_it_was_and_what_is_not_touched_is_the_same_object() -> None:
    plan = sample_plan()
    before = sample_plan()
    moved = ROOF.apply(plan)
    assert plan == before
    assert moved.design.units is plan.design.units
    assert moved.found is plan.found


def test_an_edit_that_changes_nothing_returns_the_very_plan() -> None:
    plan = sample_plan()
    assert MoveAntenna("gnss1", "top", place(80, 0)).apply(plan) is plan
    assert differences(plan, plan) == ()


def test_moving_is_told_by_the_place_as_it_is_written_in_a_file() -> None:
    plan = sample_plan()
    assert ROOF.words(plan) == "gnss1 moved to 94 L2 in on top"
    inside = MoveAntenna("gnss1", "glareshield", place(58, -7.5, 54))
    assert inside.words(plan) == "gnss1 moved to 58 L7.5 54 in on glareshield"


@pytest.mark.parametrize(
    ("edit", "words"),
    [
        (MoveAntenna("gnss9", "top", place(94, 0)), "there is no antenna gnss9 in design"),
        (MoveAntenna("gnss1", "roof", place(94, 0)), "the airframe has no surface roof"),
        (
            MoveAntenna("gnss1", "top", place(300, 0)),
            "off the skin: the hull runs from FS 20.0 in to 240.0 in",
        ),
        (
            MoveAntenna("gnss1", "left", place(94, -2)),
            "a place on left needs a water line: FS, BL and WL",
        ),
        (SetGroundPlane("gnss1", "foil"), "there is no ground plane foil in design"),
    ],
)
def test_what_cannot_be_is_refused_in_words(edit: MoveAntenna | SetGroundPlane, words: str) -> None:
    with pytest.raises(EditError) as refusal:
        edit.apply(sample_plan())
    assert str(refusal.value) == words


def test_a_ground_plane_is_set_and_taken_away() -> None:
    foil = GroundPlane("aluminium", "top", Range(1.0, 2.0), Range(-0.2, 0.2))
    plan = sample_plan()
    plan = replace(plan, design=replace(plan.design, ground_planes=ById({"foil": foil})))
    on_foil = SetGroundPlane("gnss1", "foil").apply(plan)
    assert on_foil.design.antennas["gnss1"].ground_plane == "foil"
    assert SetGroundPlane("gnss1", None).apply(on_foil) == plan


def test_moving_unstates_the_drop_at_the_antenna_and_keeps_the_one_at_the_unit() -> None:
    plan = sample_plan()
    kept = plan.design.cables["w11"].drops_m
    assert kept is not None
    assert ROOF.apply(plan).design.cables["w11"].drops_m == (kept[0], None)


def test_a_move_names_the_drop_that_it_gives_up_and_the_node_that_it_leaves() -> None:
    plan = refitted(sample_plan(), "antennas", "gnss1", node="apl")
    drop = "the drop of w11 there is estimated now"
    assert ROOF.consequence(plan) == drop
    far = MoveAntenna("gnss1", "top", place(120, 0))
    assert far.consequence(plan) == f"{drop}; its cable comes from rf2 now"
    assert ROOF.consequence(ROOF.apply(plan)) == ""


@pytest.mark.parametrize("length_m", [UNKNOWN, 2.4])
def test_a_move_asks_for_the_length_of_a_cable_that_states_one(length_m: object) -> None:
    plan = refitted(sample_plan(), "cables", "w11", length_m=length_m, drops_m=None)
    told = "measure w11 anew" if length_m == 2.4 else ""
    assert ROOF.consequence(plan) == told
    assert ROOF.apply(plan).design.cables["w11"].length_m == length_m


@pytest.mark.parametrize(
    ("stated", "fs_in", "after"),
    [("rf1", 94, "rf1"), ("apl", 94, "apl"), ("apl", 120, "rf2"), (None, 120, None)],
)
def test_the_cable_comes_from_another_node_once_the_move_makes_it_the_nearest(
    stated: str | None, fs_in: float, after: str | None
) -> None:
    plan = refitted(sample_plan(), "antennas", "gnss1", node=stated)
    moved = MoveAntenna("gnss1", "top", place(fs_in, 0)).apply(plan)
    assert moved.design.antennas["gnss1"].node == after
