# SPDX-License-Identifier: Apache-2.0
from __future__ import annotations

from dataclasses import replace
from itertools import combinations
from math import dist, isinf

import numpy as np
import pytest
from demo_plans import assessed, plan_of
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st
from interfering import masked_rulebook, two_transponders
from sample import inch, place, sample_assessment, sample_catalog, sample_plan, with_airframe

from rfplan.analysis.facts import gather
from rfplan.analysis.placement import hull_of, snap
from rfplan.assess import assess
from rfplan.edits import MoveAntenna
from rfplan.model.airframe import Zone
from rfplan.model.assessment import Assessment
from rfplan.model.findings import Finding, Verdict
from rfplan.model.plan import Plan, State
from rfplan.model.record import ById
from rfplan.model.rulebook import Strictness
from rfplan.propose.places import APART_M, MOST_LISTED, Found, Proposal, grid, search
from rfplan.propose.room_map import STEPS_M, room_map
from rfplan.rules import MODULES
from rfplan.units import Range

STEP_M = inch(2)
OF_PLACES = {module.RULE.id for module in MODULES if hasattr(module, "room")}


def found(now: Assessment, antenna: str, on: str = "top") -> Found:
    """Return what a whole search comes to."""
    *_, last = search(now, antenna, on, STEP_M)
    return last


def point_m(proposal: Proposal) -> tuple[float, float, float]:
    antenna = proposal.edit.antenna
    return next(one.point_m for one in proposal.assessment.antennas if one.id == antenna)


def assert_sound(now: Assessment, result: Found, antenna: str) -> None:
    """Check everything that is promised of proposals."""
    facts = gather(now.plan, now.catalog, now.rulebook)
    scene = facts.scene
    for one in result.proposals:
        there = snap(scene.airframe, scene.hull, one.edit.on, [one.edit.at])
        room = room_map(facts, scene.fitted[antenna], there)
        assert not room.forbidden[0]
        assert not room.unknown[0]
        assert one.room_m <= room.room_m[0] + 1e-9
        assert one.assessment == assess(one.edit.apply(now.plan), now.catalog, now.rulebook)
        assert not [
            finding
            for finding in one.assessment.findings
            if finding.rule in OF_PLACES
            and finding.strictness is Strictness.REQUIRED
            and antenna in finding.objects
        ]
    fails = [one.verdict.fails for one in result.proposals]
    assert fails == sorted(fails)
    for one, other in combinations(result.proposals, 2):
        assert dist(point_m(one), point_m(other)) >= APART_M - 1e-9


@pytest.mark.parametrize("demo", ["amphibian", "twin"])
@pytest.mark.parametrize("antenna", ["gnss1", "com1", "elt_t", "xpdr_b", "dme_b"])
@pytest.mark.parametrize("on", ["top", "belly"])
def test_proposals_of_the_demo_aircraft_are_free_and_truly_judged(
    demo: str, antenna: str, on: str
) -> None:
    now = assessed(demo)
    if antenna in now.plan.installation.antennas:
        result = found(now, antenna, on)
        assert_sound(now, result, antenna)
        assert bool(result.proposals) is (result.miss is None)
        assert len(result.proposals) <= MOST_LISTED


spots = st.tuples(st.integers(25, 230), st.integers(-8, 8), st.sampled_from(("top", "belly")))


@given(spots, spots, spots, st.sampled_from(("top", "belly")), st.integers(50, 150))
@settings(max_examples=12, deadline=None, suppress_health_check=[HealthCheck.too_slow])
def test_proposals_are_free_whatever_stands_where(
    gnss: tuple[int, int, str],
    com: tuple[int, int, str],
    xpdr: tuple[int, int, str],
    on: str,
    hatch: int,
) -> None:
    zone = Zone("hatch", on, Range(*inch(hatch, hatch + 20)), keep_off_m=inch(3))
    plan: Plan = with_airframe(sample_plan(), zones=ById({"hatch": zone}))
    for id, (fs, bl, side) in {"gnss1": gnss, "com1": com, "xpdr1": xpdr}.items():
        plan = MoveAntenna(id, side, place(fs, bl / 4)).apply(plan)
    now = sample_assessment(plan)
    for antenna in ("gnss1", "com1"):
        assert_sound(now, found(now, antenna, on), antenna)


def test_ample_places_come_nearest_first_and_tight_ones_after_them_by_their_room() -> None:
    now = assessed("twin")
    for antenna in ("gnss1", "com1", "ralt_t", "mkr_b"):
        start = next(one.point_m for one in now.antennas if one.id == antenna)
        every = [one for one in found(now, antenna).proposals if not one.verdict.fails]
        rank = [
            (-round(min(one.room_m, STEPS_M[-1]), 6), round(dist(point_m(one), start), 6))
            for one in every
        ]
        assert rank == sorted(rank)


def test_proposals_stand_at_whole_steps() -> None:
    for one in found(assessed("twin"), "gnss1").proposals:
        for length_m in (one.edit.at.fs_m, one.edit.at.bl_m):
            assert length_m / STEP_M == pytest.approx(round(length_m / STEP_M), abs=1e-9)


def test_more_are_judged_until_enough_hold() -> None:
    now = assessed("amphibian")
    result = found(now, "gnss3", "belly")
    assert [one.verdict for one in result.proposals] == [Verdict.PASS] * MOST_LISTED


def test_a_search_can_be_stopped_after_any_step() -> None:
    going = search(assessed("twin"), "gnss1", "top", STEP_M)
    first = next(going)
    assert first == Found("top")
    going.close()


def test_a_full_side_tells_the_nearest_miss_and_what_it_is_short_of() -> None:
    plan = sample_plan()
    wide = replace(plan.spacing["gnss_com"], min_m=inch(150))
    now = sample_assessment(replace(plan, spacing=ById({"gnss_com": wide})))
    result = found(now, "gnss1")
    assert result.proposals == ()
    assert result.miss is not None
    com = next(one.point_m for one in now.antennas if one.id == "com1")
    hull = hull_of(plan.airframe)
    every = grid(hull, "top", STEP_M, np.array(inch(1.5, 1.0)))
    farthest = np.linalg.norm(every.point_m - com, axis=1).max()
    assert result.miss.of == "com1"
    assert result.miss.short_m == pytest.approx(inch(150) - farthest)
    assert result.miss.finding is not None
    assert result.miss.finding.rule == "RF501"


def test_a_miss_for_want_of_what_a_place_must_have_tells_the_finding() -> None:
    miss = found(assessed("amphibian"), "com1", "belly").miss
    assert miss is not None
    assert miss.of == ""
    assert miss.finding is not None
    assert miss.finding.rule == "RF205"


def crowded_by(damage_dbm: float) -> Assessment:
    """Return two transponders of which the first may damage the second, kept apart by no rule."""
    plan = replace(two_transponders(damage_dbm), spacing=ById())
    return assess(plan, sample_catalog(), masked_rulebook())


def test_no_place_is_proposed_where_isolation_lacks() -> None:
    now = crowded_by(24.0)
    assert [one.rule for one in now.findings if one.rule == "RF502"] == ["RF502"]
    result = found(now, "xpdr2", "belly")
    assert_sound(now, result, "xpdr2")
    assert result.proposals
    for one in result.proposals:
        assert not [found for found in one.assessment.findings if found.rule == "RF502"]


def test_a_side_that_lacks_isolation_everywhere_tells_the_least_lack() -> None:
    below = crowded_by(-40.0)
    above = MoveAntenna("xpdr1", "top", place(110, 0)).apply(below.plan)
    now = assess(above, below.catalog, below.rulebook)
    miss = found(now, "xpdr2", "belly").miss
    assert miss is not None
    assert miss.of == ""
    assert miss.finding is not None
    assert miss.finding.rule == "RF502"
    here = next(one for one in now.findings if one.rule == "RF502")
    assert lack_db(miss.finding) < lack_db(here)


def lack_db(finding: Finding) -> float:
    assert finding.value is not None
    assert finding.limit is not None
    return finding.limit - finding.value


def test_a_rule_that_cannot_tell_leaves_no_place_and_is_told() -> None:
    plan = sample_plan()
    along = replace(plan.spacing["gnss_com"], datum="skin")
    inside = replace(plan.design.antennas["com1"], on="cabin", at=place(130, 0, 50))
    antennas = plan.design.antennas.having("com1", inside)
    design = replace(plan.design, antennas=antennas)
    now = sample_assessment(replace(plan, design=design, spacing=ById({"gnss_com": along})))
    result = found(now, "gnss1")
    assert result.proposals == ()
    assert result.miss is not None
    assert result.miss.of == ""
    assert result.miss.finding is not None
    assert result.miss.finding.verdict is Verdict.INCOMPLETE


def test_no_place_is_proposed_where_another_antenna_stands() -> None:
    plan = replace(sample_plan(), spacing=ById())
    now = sample_assessment(MoveAntenna("xpdr1", "top", place(92, 0)).apply(plan))
    result = found(now, "com1")
    for one in result.proposals:
        for other in ("gnss1", "xpdr1"):
            there = next(place.point_m for place in now.antennas if place.id == other)
            assert dist(point_m(one), there) > inch(2)


def test_the_grid_keeps_off_the_sides_and_the_ends() -> None:
    hull = hull_of(plan_of("twin").airframe)
    base_m = np.array(inch(2.0, 1.5))
    places = grid(hull, "top", STEP_M, base_m)
    assert (places.normal[:, 2] > 0.8).all()
    fs_m = places.point_m[:, 0]
    assert fs_m.min() >= hull.fs_m[0] + base_m[0]
    assert fs_m.max() <= hull.fs_m[-1] - base_m[0]


def test_room_without_end_is_told_as_such() -> None:
    plan = replace(sample_plan(), spacing=ById())
    only = ById({"gnss1": plan.design.antennas["gnss1"]})
    path = ById({"gnss1": plan.design.paths["gnss1"]})
    alone = replace(plan, design=replace(plan.design, antennas=only, paths=path))
    result = found(sample_assessment(alone), "gnss1")
    assert len(result.proposals) == MOST_LISTED
    assert all(isinf(one.room_m) and one.nearest == "" for one in result.proposals)


def test_of_places_that_lack_the_same_the_nearest_to_where_it_stands_is_told() -> None:
    now = assessed("amphibian", State.FOUND)
    miss = found(now, "xpdr_b", "belly").miss
    assert miss is not None
    assert miss.finding is not None
    assert miss.finding.rule == "RF205"
    fs_m = now.plan.installation.antennas["xpdr_b"].at.fs_m
    assert miss.at.fs_m == pytest.approx(fs_m, abs=2.0 * STEP_M)
