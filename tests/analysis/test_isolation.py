# SPDX-License-Identifier: Apache-2.0
"""The rungs of the ladder: order, bands of accuracy, doubts, and what decides nothing."""

from __future__ import annotations

from dataclasses import replace

import numpy as np
import pytest

from rfplan.analysis.antenna_pairs import AntennaPairs, Link
from rfplan.analysis.isolation import isolation
from rfplan.analysis.isolation_models import (
    MODEL_OF_RUNG,
    SHORT_HULL_DB,
    Doubt,
    Model,
    Rung,
    accuracy_db,
)
from rfplan.physics.coupling import friis_isolation_db
from rfplan.physics.knife_edge import fresnel_parameter, knife_edge_loss_db
from rfplan.physics.surface_ray import Way, cylinder_way

RADIUS_M = 0.6
FREQUENCIES_HZ = np.array([330e6, 1090e6])


def pair(turn_deg: float, along_m: float, **changes: object) -> AntennaPairs:
    """Return one pair on a tube of metal."""
    turn = np.radians(turn_deg)
    turns_m = RADIUS_M * np.array([[turn, 2.0 * np.pi - turn]])
    ways = cylinder_way(
        np.hypot(turns_m, along_m), RADIUS_M, np.arctan2(np.full((1, 2), along_m), turns_m)
    )
    chord_m = np.hypot(2.0 * RADIUS_M * np.sin(turn / 2.0), along_m)
    return replace(
        AntennaPairs(
            ids=(("a", "b"),),
            link=np.array([Link.SKIN], dtype=np.int8),
            sight_m=np.array([chord_m]),
            detour_m=np.zeros(1),
            panel_db=np.zeros(1),
            ways=ways,
            radius_m=np.array([RADIUS_M]),
            metal=np.array([True]),
            upright=np.array([True]),
        ),
        **changes,
    )


OFF_HULL = Way(*np.full((3, 1, 2), np.nan))


@pytest.mark.parametrize("place", [(90.0, 0.0), (0.0, 1.0), (180.0, 0.5)])
def test_the_default_never_says_more_than_the_exact_cylinder(place: tuple[float, float]) -> None:
    said = isolation(pair(*place), FREQUENCIES_HZ)
    exact = isolation(pair(*place), FREQUENCIES_HZ, Rung.EXACT)
    better_db = exact.isolation_db - said.isolation_db
    assert (better_db > 0.0).all()
    assert (better_db < said.high_db).all()
    if place[0] < 120.0:
        assert (better_db > said.low_db).all()


@pytest.mark.parametrize("rung", MODEL_OF_RUNG)
def test_every_number_names_its_model_and_band(rung: Rung) -> None:
    said = isolation(pair(60.0, 0.5), FREQUENCIES_HZ, rung)
    assert said.isolation_db.shape == (1, 2)
    assert (said.model == MODEL_OF_RUNG[rung]).all()
    assert (said.low_db < said.high_db).all()
    assert said.valid.all()


def test_estimates_on_neither_side_may_not_pass() -> None:
    for rung in Rung:
        allowed = rung not in (Rung.BEST, Rung.QUICK)
        assert isolation(pair(60.0, 0.5), FREQUENCIES_HZ, rung).may_pass.all() == allowed


def test_the_transparent_rung_is_a_bound_by_the_straight_line_where_the_skin_is_no_guide() -> None:
    pairs = pair(180.0, 0.0, panel_db=np.array([2.0]))
    line_db = friis_isolation_db(FREQUENCIES_HZ, 2.0 * RADIUS_M)
    for link, bounds in ((Link.THROUGH, True), (Link.SKIN, False)):
        own = replace(pairs, link=np.array([link], dtype=np.int8))
        said = isolation(own, FREQUENCIES_HZ, Rung.TRANSPARENT)
        assert said.isolation_db[0] == pytest.approx(line_db + 2.0)
        assert (said.model == Model.BOUND).all()
        assert (said.low_db == 0.0).all() == np.isinf(said.high_db).all() == bounds
        assert bool(said.valid.all()) == bounds
    assert (said.isolation_db < isolation(pairs, FREQUENCIES_HZ).isolation_db).all()


@pytest.mark.parametrize("link", [Link.THROUGH, Link.BEHIND])
def test_pairs_without_skin_or_sight_are_bounds_on_every_rung(link: Link) -> None:
    pairs = pair(180.0, 0.0, link=np.array([link], dtype=np.int8), ways=OFF_HULL)
    for rung in Rung:
        assert (isolation(pairs, FREQUENCIES_HZ, rung).model == Model.BOUND).all()


def test_an_edge_in_the_line_adds_its_loss() -> None:
    sight = pair(0.0, 3.0, link=np.array([Link.SIGHT], dtype=np.int8), ways=OFF_HULL)
    blocked = replace(sight, detour_m=np.array([0.05]))
    added = (
        isolation(blocked, FREQUENCIES_HZ).isolation_db
        - isolation(sight, FREQUENCIES_HZ).isolation_db
    )
    assert added[0] == pytest.approx(knife_edge_loss_db(fresnel_parameter(FREQUENCIES_HZ, 0.05)))
    assert (isolation(sight, FREQUENCIES_HZ).doubt & Doubt.UNTESTED).all()
    assert np.isnan(isolation(sight, FREQUENCIES_HZ).low_db).all()


@pytest.mark.parametrize(
    ("pairs", "frequency_hz", "doubt"),
    [
        (pair(0.0, 0.05), 1090e6, Doubt.NEAR),
        (pair(90.0, 1.0), 40e6, Doubt.SLENDER | Doubt.NEAR),
        (pair(90.0, 1.0, metal=np.array([False])), 1090e6, Doubt.NOT_METAL),
        (pair(90.0, 1.0, upright=np.array([False])), 1090e6, Doubt.NOT_UPRIGHT),
    ],
)
def test_numbers_outside_the_compared_range_say_why(
    pairs: AntennaPairs, frequency_hz: float, doubt: Doubt
) -> None:
    said = isolation(pairs, np.array([frequency_hz]))
    assert Doubt(int(said.doubt[0, 0])) == doubt
    assert not said.valid.any()


def test_the_best_estimate_is_not_offered_below_its_range() -> None:
    said = isolation(pair(90.0, 1.0), np.array([125e6]), Rung.BEST)
    assert said.doubt[0, 0] == Doubt.SLENDER
    assert np.isnan(said.low_db[0, 0])
    assert isolation(pair(90.0, 1.0), np.array([125e6])).valid.all()


def test_the_shadow_side_of_a_thin_hull_is_known_less_well() -> None:
    lit, shadow = (accuracy_db(Model.CYLINDER, np.array([2.0]), np.array([t])) for t in (1.0, 3.0))
    assert shadow[0] - lit[0] == pytest.approx(SHORT_HULL_DB[0])
    assert shadow[1] - lit[1] == pytest.approx(SHORT_HULL_DB[1])
    thick = accuracy_db(Model.CYLINDER, np.array([12.0]), np.array([3.0]))
    assert thick[0] == pytest.approx(-0.05)


def test_a_model_may_be_optimistic_on_the_shadow_side_at_vhf_and_not_at_l_band() -> None:
    said = isolation(pair(180.0, 0.5), np.array([125e6, 1090e6]))
    assert said.low_db[0, 0] < 0.0 <= said.low_db[0, 1]


def test_where_nothing_was_compared_the_band_is_unknown() -> None:
    low_db, high_db = accuracy_db(Model.SURFACE_RAY, np.array([0.5, 0.9]), np.zeros(2))
    assert np.isnan(low_db).tolist() == np.isnan(high_db).tolist() == [True, False]


def test_many_pairs_at_once_give_what_each_gives_alone() -> None:
    one, other = pair(40.0, 0.3), pair(170.0, 1.0)
    together = replace(
        one,
        ids=(("a", "b"), ("a", "c")),
        ways=Way(*map(np.concatenate, zip(one.ways, other.ways, strict=True))),
        **{
            name: np.concatenate([getattr(one, name), getattr(other, name)])
            for name in ("link", "sight_m", "detour_m", "panel_db", "radius_m", "metal", "upright")
        },
    )
    both = isolation(together, FREQUENCIES_HZ).isolation_db
    assert both[1] == pytest.approx(isolation(other, FREQUENCIES_HZ).isolation_db[0])


def test_no_pairs_are_no_numbers() -> None:
    nothing = replace(pair(40.0, 0.3), ids=(), ways=Way(*np.zeros((3, 0, 2))))
    empty = {"link": np.int8, "metal": bool, "upright": bool}
    arrays = {
        name: np.zeros(0, dtype=empty.get(name, float))
        for name in ("link", "sight_m", "detour_m", "panel_db", "radius_m", "metal", "upright")
    }
    assert isolation(replace(nothing, **arrays), FREQUENCIES_HZ).isolation_db.shape == (0, 2)
