# SPDX-License-Identifier: Apache-2.0
"""What lies between antennas of an invented aircraft: skin, air, panels, plates."""

from __future__ import annotations

from dataclasses import replace

import numpy as np
import pytest
from demo_plans import DEMOS, assessed
from drawn_aircraft import drawn_airframe, drawn_plan
from sample import inch, place, sample_catalog, sample_plan, sample_rulebook

from rfplan.analysis.antenna_pairs import AntennaPairs, Link, antenna_pairs, plates_m
from rfplan.analysis.scene import Scene, scene_of
from rfplan.model.airframe import Airframe, Panel
from rfplan.model.plan import Antenna
from rfplan.model.record import ById
from rfplan.reports.study import facts_of
from rfplan.units import Range


def scene(airframe: Airframe | None = None, **antennas: Antenna) -> Scene:
    """Return the drawn aircraft, with other antennas or another airframe where given."""
    plan = drawn_plan()
    installation = plan.installation
    if antennas:
        installation = replace(installation, antennas=ById(antennas), paths=ById())
    plan = sample_plan(
        airframe=airframe or plan.airframe,
        found=installation,
        design=installation,
        built=installation,
    )
    return scene_of(plan, sample_catalog(), sample_rulebook())


def link_of(pairs: AntennaPairs, a: str, b: str) -> Link:
    """Return the link of one pair."""
    return Link(int(pairs.link[pairs.ids.index((a, b))]))


def test_all_pairs_of_a_plan_are_there_once() -> None:
    pairs = antenna_pairs(scene())
    assert len(pairs.ids) == len(set(pairs.ids)) == 7 * 6 // 2
    assert pairs.ways.length_m.shape == (21, 2)


def test_two_antennas_of_the_hull_are_linked_by_its_skin() -> None:
    pairs = antenna_pairs(scene(), [("gnss1", "xpdr1")])
    assert link_of(pairs, "gnss1", "xpdr1") is Link.SKIN
    assert np.all(pairs.ways.length_m > pairs.sight_m)
    assert pairs.metal[0]


def test_an_antenna_inside_is_linked_through_the_skin() -> None:
    pairs = antenna_pairs(scene(), [("gnss1", "gnss2"), ("gnss2", "nav")])
    assert link_of(pairs, "gnss1", "gnss2") is Link.THROUGH
    assert link_of(pairs, "gnss2", "nav") is Link.THROUGH
    assert np.isnan(pairs.ways.length_m).all()


def test_an_antenna_on_the_fin_sees_the_roof_and_not_the_belly() -> None:
    pairs = antenna_pairs(scene(), [("gnss1", "nav"), ("xpdr1", "nav")])
    assert link_of(pairs, "gnss1", "nav") is Link.SIGHT
    assert link_of(pairs, "xpdr1", "nav") is Link.BEHIND


def test_skin_that_lets_waves_pass_carries_none_along() -> None:
    airframe = replace(
        drawn_airframe(),
        skin=ById(
            {
                "roof": Panel("top", "glass", Range(*inch(88, 110)), source="sheet"),
                "hull": Panel("all", "aluminium", source="sheet"),
            }
        ),
    )
    pairs = antenna_pairs(scene(airframe), [("gnss1", "com1"), ("com1", "xpdr1")])
    assert link_of(pairs, "gnss1", "com1") is Link.THROUGH
    assert link_of(pairs, "com1", "xpdr1") is Link.SKIN


def test_a_plate_in_between_forces_a_detour() -> None:
    pairs = antenna_pairs(
        scene(
            right=Antenna("com_whip", "wing", place(110, 100, 90)),
            left=Antenna("com_whip", "wing", place(110, -100, 70)),
            beside=Antenna("com_whip", "wing", place(110, 150, 90)),
        ),
        [("right", "left"), ("right", "beside")],
    )
    assert pairs.link.tolist() == [Link.SIGHT, Link.SIGHT]
    assert pairs.detour_m[0] > 0.01
    assert pairs.detour_m[1] == 0.0


def test_a_mirrored_plate_counts_twice() -> None:
    plates = plates_m(drawn_airframe())
    assert plates.shape == (5, 4, 3)
    assert plates[1, :, 1] == pytest.approx(-plates[0, :, 1])


def test_an_antenna_off_the_skin_is_left_out() -> None:
    pairs = antenna_pairs(
        scene(
            here=Antenna("com_whip", "top", place(100, 0)),
            nowhere=Antenna("com_whip", "top", place(100, 90)),
            there=Antenna("com_whip", "top", place(120, 0)),
        )
    )
    assert pairs.ids == (("here", "there"),)


def test_radios_of_unknown_polarisation_are_not_called_upright() -> None:
    assert not antenna_pairs(scene()).upright.any()
    known = sample_rulebook()
    upright = ById(
        (id, replace(radio, polarisation="vertical")) for id, radio in known.radios.items()
    )
    drawn = scene()
    pairs = antenna_pairs(replace(drawn, rulebook=replace(known, radios=upright)))
    assert pairs.upright.all()


@pytest.mark.parametrize("demo", DEMOS)
def test_no_pair_depends_on_which_antenna_is_named_first(demo: str) -> None:
    found = facts_of(assessed(demo)).scene
    there = antenna_pairs(found)
    back = antenna_pairs(found, [(b, a) for a, b in there.ids])
    for one, other in zip(there.ways, back.ways, strict=True):
        np.testing.assert_array_equal(one, other)
    np.testing.assert_allclose(there.sight_m, back.sight_m)
