# SPDX-License-Identifier: Apache-2.0
"""Where an antenna lacks isolation: at every place what the matrix would say there."""

from __future__ import annotations

from dataclasses import replace
from functools import cache

import numpy as np
import pytest
from demo_plans import assessed
from hypothesis import given, settings
from hypothesis import strategies as st
from interfering import facts_with, reading_of, two_transponders
from sample import inch, place, refitted

from rfplan.analysis.facts import Facts, gather
from rfplan.analysis.interference import demands, failing
from rfplan.analysis.isolation_at import known_isolation
from rfplan.analysis.lacking import Lack, lacking
from rfplan.analysis.placement import Places, snap
from rfplan.edits import MoveAntenna
from rfplan.model.airframe import Panel
from rfplan.model.record import ById
from rfplan.propose.places import grid
from rfplan.units import Place

Told = dict[tuple[str, str], tuple[float, float]]


def places_at(facts: Facts, on: str, *at: Place) -> Places:
    return snap(facts.scene.airframe, facts.scene.hull, on, list(at))


def told(lack: Lack | None, index: int) -> Told:
    """Return what is lacking at one place: the least margin of each two antennas."""
    cells: Told = {}
    for row, demand in enumerate(lack.demands if lack else ()):
        assert lack is not None
        have_db, need_db = float(lack.have_db[row, index]), float(lack.need_db[row, index])
        pair = demand.source, demand.victim
        before = cells.get(pair, (np.inf, 0.0))
        if np.isfinite(have_db) and have_db - need_db < before[0] - before[1]:
            cells[pair] = have_db, need_db
    return cells


def matrix(facts: Facts, antenna: str) -> Told:
    """Return the cells of an antenna that FAIL in a plan as it stands."""
    worst = {(one.source, one.victim): one.worst for one in failing(facts)}
    return {
        pair: (one.coupling.have_db or 0.0, one.need_db or 0.0)
        for pair, one in worst.items()
        if antenna in pair
    }


def assert_as_in_the_matrix(facts: Facts, antenna: str, on: str, at: list[Place]) -> int:
    """Check places against a plan in which the antenna stands there; return how many FAIL."""
    fitted = facts.scene.fitted[antenna]
    lack = lacking(facts, fitted, places_at(facts, on, *at))
    failed = 0
    for index, spot in enumerate(at):
        plan = MoveAntenna(antenna, on, spot).apply(facts.plan)
        there = matrix(gather(plan, facts.catalog, facts.rulebook), antenna)
        here = told(lack, index)
        assert here.keys() == there.keys()
        for pair, numbers in there.items():
            assert here[pair] == pytest.approx(numbers, abs=1e-6)
        failed += bool(there)
    return failed


@cache
def grown(damage_dbm: float, stated: bool, read_db: float | None) -> Facts:
    """Return two transponders, each cable with a length or with drops that are stated."""
    plan = two_transponders(damage_dbm)
    for id in ("w31", "w32"):
        values = {"length_m": 4.0} if stated else {"drops_m": (inch(4), inch(30))}
        plan = refitted(plan, "cables", id, **values)
    plan = refitted(plan, "antennas", "xpdr1", node="apl")
    if read_db is not None:
        plan = reading_of(plan, "xpdr1", "xpdr2", 1090e6, read_db)
    return facts_with(plan)


@given(
    st.sampled_from(("xpdr1", "xpdr2")),
    st.sampled_from((5.0, 20.0, 28.0, 33.0)),
    st.booleans(),
    st.sampled_from((None, 20.0, 60.0)),
    st.sampled_from(("top", "belly", "left")),
    st.lists(st.tuples(st.integers(30, 220), st.integers(-9, 9)), min_size=1, max_size=4),
)
@settings(max_examples=40, deadline=None)
def test_at_any_place_it_is_what_the_matrix_says_there(
    antenna: str,
    damage_dbm: float,
    stated: bool,
    read_db: float | None,
    on: str,
    spots: list[tuple[int, int]],
) -> None:
    facts = grown(damage_dbm, stated, read_db)
    middle = facts.scene.airframe.sections
    wl = (middle[1].bottom_m + middle[1].top_m) / 2.0 / inch(1)
    at = [place(fs, 0 if on == "left" else bl, wl if on == "left" else None) for fs, bl in spots]
    known = [one for one in at if _on_skin(facts, on, one)]
    if known:
        assert_as_in_the_matrix(facts, antenna, on, known)


def _on_skin(facts: Facts, on: str, at: Place) -> bool:
    return bool(np.isfinite(places_at(facts, on, at).point_m).all())


def test_places_that_fail_and_places_that_do_not_are_both_met() -> None:
    row = [place(140 + step, 0) for step in (-28, -20, -12, 0, 14, 30, 60)]
    failed = assert_as_in_the_matrix(grown(24.0, False, None), "xpdr2", "belly", row)
    assert 0 < failed < len(row)


def test_a_stated_node_stays_as_long_as_a_move_keeps_it() -> None:
    row = [place(110 + step, bl) for step, bl in ((-1, 0), (1, 0), (0, 2), (40, 0), (-50, 0))]
    assert assert_as_in_the_matrix(grown(5.0, False, None), "xpdr1", "belly", row) > 2


def test_where_the_antenna_stands_its_stated_drop_counts() -> None:
    facts = grown(10.0, False, None)
    fitted = facts.scene.fitted["xpdr2"]
    assert told(lacking(facts, fitted, fitted.places), 0) == matrix(facts, "xpdr2") != {}


def test_a_reading_holds_on_the_circle_where_it_was_taken() -> None:
    facts = grown(10.0, True, 60.0)
    there = facts.scene.fitted["xpdr1"].antenna.at.fs_m
    apart_m = facts.plan.isolation["i1"].apart_m
    ahead = Place(there - apart_m, 0.0, None)
    assert assert_as_in_the_matrix(facts, "xpdr2", "belly", [ahead, place(144, 0)]) == 1


def test_over_glass_and_on_a_wing_nothing_is_certain() -> None:
    facts = grown(5.0, True, None)
    glass = ById({"hull": Panel("all", "glass", source="sheet")})
    airframe = replace(facts.plan.airframe, skin=glass)
    over = facts_with(replace(facts.plan, airframe=airframe))
    near = [place(138, 0)]
    assert assert_as_in_the_matrix(facts, "xpdr2", "belly", near) == 1
    assert assert_as_in_the_matrix(over, "xpdr2", "belly", near) == 0
    inside = Places("cabin", np.array([inch(138, 0, 40)]), np.array([[0.0, 0.0, 1.0]]))
    assert told(lacking(facts, facts.scene.fitted["xpdr2"], inside), 0) == {}


def test_without_a_limit_nothing_is_asked() -> None:
    facts = facts_with(two_transponders(None))
    fitted = facts.scene.fitted["xpdr2"]
    assert lacking(facts, fitted, fitted.places) is None


@pytest.mark.parametrize("antenna", ["com1", "xpdr1_b", "xpdr2_b", "dme_b", "tas_t"])
@pytest.mark.parametrize("on", ["top", "belly"])
def test_no_place_is_left_out_that_would_fail(antenna: str, on: str) -> None:
    """Where the straight line says that nothing can fail, the ways along the skin agree."""
    now = assessed("twin")
    facts = gather(now.plan, now.catalog, now.rulebook)
    asked = demands(facts, antenna)
    every = grid(facts.scene.hull, on, inch(8), np.zeros(2))
    fitted = facts.scene.fitted[antenna]
    for most_db in (10.0, 25.0, 45.0):
        ends = np.full((len(asked), 1), most_db), np.full((len(asked), 1), np.inf)
        some, whole = (known_isolation(facts.scene, fitted, every, asked, one) for one in ends)
        less = whole.have_db + whole.high_db < most_db
        assert np.isfinite(some.have_db[less]).all()
        assert most_db > 10.0 or not np.isfinite(some.have_db).all()


def test_a_longer_cable_asks_for_less_isolation() -> None:
    facts = grown(10.0, False, None)
    at = [place(fs, 0) for fs in (108, 120)]
    lack = lacking(facts, facts.scene.fitted["xpdr1"], places_at(facts, "belly", *at))
    assert lack is not None
    near_db, far_db = lack.need_db[0]
    lengths_m = [_run_m(facts, one) for one in at]
    assert (near_db - far_db) * (lengths_m[1] - lengths_m[0]) > 0.0


def _run_m(facts: Facts, at: Place) -> float:
    moved = MoveAntenna("xpdr1", "belly", at).apply(facts.plan)
    return gather(moved, facts.catalog, facts.rulebook).runs["w31"].length_m.least
