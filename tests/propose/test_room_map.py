# SPDX-License-Identifier: Apache-2.0
from __future__ import annotations

from dataclasses import replace

import numpy as np
import pytest
from demo_plans import DEMOS, judged, plan_of
from interfering import facts_with, two_transponders
from plan_files import shipped_catalog, shipped_rulebook
from sample import (
    inch,
    place,
    sample_facts,
    sample_plan,
    sample_rulebook,
    with_airframe,
    with_port,
)

from rfplan.analysis.facts import Facts, gather
from rfplan.analysis.placement import Places, snap
from rfplan.analysis.scene import Scene
from rfplan.edits import MoveAntenna
from rfplan.model.airframe import Zone
from rfplan.model.plan import Plan
from rfplan.model.record import ById
from rfplan.model.rulebook import Strictness
from rfplan.propose.places import grid
from rfplan.propose.room_map import BREAKS_RULE, STEPS_M, UNKNOWN, RoomMap, room_map
from rfplan.rules import MODULES
from rfplan.units import Place, Range

OF_PLACES = {module.RULE.id for module in MODULES if hasattr(module, "room")}


def demo_facts(demo: str) -> Facts:
    return gather(plan_of(demo), shipped_catalog(), shipped_rulebook())


def places_of(scene: Scene, on: str, count: int) -> Places:
    """Return some places of a surface, the same every time."""
    every = grid(scene.hull, on, inch(4), np.zeros(2))
    chosen = np.random.default_rng(5).permutation(len(every.point_m))[:count]
    return Places(on, every.point_m[chosen], every.normal[chosen])


def sample_room(plan: Plan, *stations: float, on: str = "top") -> RoomMap:
    """Return the room of gnss1 at some stations of the centre line."""
    facts = sample_facts(plan)
    scene = facts.scene
    rows = [place(fs, 0) for fs in stations]
    return room_map(facts, scene.fitted["gnss1"], snap(scene.airframe, scene.hull, on, rows))


@pytest.mark.parametrize(
    ("demo", "antenna"),
    [
        *((demo, antenna) for demo in DEMOS for antenna in ("gnss1", "com1", "elt_t")),
        ("twin", "xpdr2_b"),
    ],
)
@pytest.mark.parametrize("on", ["top", "belly"])
def test_a_place_is_forbidden_where_and_only_where_a_fresh_check_finds_a_rule_broken(
    demo: str, antenna: str, on: str
) -> None:
    facts, plan = demo_facts(demo), plan_of(demo)
    scene = facts.scene
    room = room_map(facts, scene.fitted[antenna], places_of(scene, on, 12))
    for forbidden, (fs_m, bl_m, _) in zip(room.forbidden, room.places.point_m, strict=True):
        edit = MoveAntenna(antenna, on, Place(float(fs_m), float(bl_m), None))
        broken = [
            finding
            for finding in judged(edit.apply(plan)).findings
            if finding.rule in OF_PLACES
            and finding.strictness is Strictness.REQUIRED
            and antenna in finding.objects
        ]
        assert forbidden == bool(broken), broken


def test_it_does_not_matter_where_the_antenna_stands_itself() -> None:
    facts, plan = demo_facts("amphibian"), plan_of("amphibian")
    places = places_of(facts.scene, "top", 400)
    moved = MoveAntenna("gnss1", "belly", Place(inch(300), 0.0, None)).apply(plan)
    other = gather(moved, shipped_catalog(), shipped_rulebook())
    here, there = (room_map(one, one.scene.fitted["gnss1"], places) for one in (facts, other))
    np.testing.assert_array_equal(here.levels, there.levels)
    assert len(set(here.levels.tolist())) > 1


def test_another_antenna_that_moves_takes_its_room_along() -> None:
    facts, plan = demo_facts("twin"), plan_of("twin")
    places = places_of(facts.scene, "top", 200)
    moved = MoveAntenna("com1", "top", Place(inch(420), 0.0, None)).apply(plan)
    other = gather(moved, shipped_catalog(), shipped_rulebook())
    here, there = (room_map(one, one.scene.fitted["gnss1"], places) for one in (facts, other))
    assert (here.levels != there.levels).any()


def test_room_is_the_way_to_the_nearest_thing_and_levels_rise_with_it() -> None:
    room = sample_room(sample_plan(), 90, 92, 93, 97, 105, 65)
    need_to_com = np.array([40, 38, 37, 33, 25, 65]) - 36
    np.testing.assert_allclose(room.room_m[:5], inch(*need_to_com.tolist())[:5], atol=1e-3)
    assert room.forbidden.tolist() == [False, False, False, True, True, False]
    assert room.levels.tolist() == [2, 1, 1, BREAKS_RULE, BREAKS_RULE, 4]


def test_an_advice_not_followed_is_tight_and_forbids_nothing() -> None:
    plan = replace(sample_plan(), spacing=ById())
    room = sample_room(plan, 100, 107, 120)
    assert not room.forbidden.any()
    assert room.advices.tolist() == [0, 1, 1]
    assert room.levels.tolist() == [3, 1, 1]


def test_what_must_only_be_met_is_no_room() -> None:
    room = sample_room(with_port(sample_plan(), "nav1", "gnss", mounting="outside skin"), 65)
    met = [one for one in room.constraints if len(one.objects) == 1]
    assert met
    assert room.room_m[0] > inch(12)


def test_a_zone_counts_with_its_keep_off_and_the_base() -> None:
    hatch = Zone("hatch", "top", Range(*inch(60, 70)), Range(*inch(-10, 10)), keep_off_m=inch(2))
    plan = with_airframe(sample_plan(), zones=ById({"hatch": hatch}))
    half_base = 1.5
    room = sample_room(plan, 65, 70 + 2 + half_base - 0.1, 70 + 2 + half_base + 0.1)
    assert room.forbidden.tolist() == [True, True, False]
    assert room.room_m[2] == pytest.approx(inch(0.1))


def test_where_isolation_lacks_a_place_is_forbidden_and_decibels_are_no_room() -> None:
    facts = facts_with(replace(two_transponders(24.0), spacing=ById()))
    rows = [place(fs, 0) for fs in (122, 136, 180)]
    places = snap(facts.scene.airframe, facts.scene.hull, "belly", rows)
    room = room_map(facts, facts.scene.fitted["xpdr2"], places)
    assert room.forbidden.tolist() == [True, True, False]
    assert room.levels.tolist() == [BREAKS_RULE, BREAKS_RULE, 4]
    assert room.in_decibels.sum() == 1
    assert not (room.in_decibels & room.clear_of).any()
    assert (room.room_m > STEPS_M[-1]).all()


def test_off_the_skin_nothing_is_said() -> None:
    room = sample_room(sample_plan(), 10, 65)
    assert room.levels[0] == UNKNOWN
    assert room.levels[1] != UNKNOWN


def test_without_any_rule_there_is_room_everywhere() -> None:
    plan = replace(sample_plan(), spacing=ById())
    alone = sample_facts(plan, rulebook=sample_rulebook(spacings=ById()))
    scene = alone.scene
    places = snap(scene.airframe, scene.hull, "top", [place(65, 0), place(130, 0)])
    room = room_map(alone, scene.fitted["gnss1"], places)
    assert room.levels.tolist() == [4, 4]
