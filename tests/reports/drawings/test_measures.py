# SPDX-License-Identifier: Apache-2.0
"""Distances to what can be measured: frame, centre line, zone, the edges of a plate."""

from __future__ import annotations

import itertools

import pytest
from demo_plans import assessed
from hypothesis import given
from hypothesis import strategies as st

from rfplan.reports.context import Context, Hashes
from rfplan.reports.drawings.details import look_at
from rfplan.reports.drawings.marks import Subject, subject_of
from rfplan.reports.drawings.measures import measures
from rfplan.reports.drawings.paper import SCALES, rules, scale_for
from rfplan.reports.drawings.shapes import BELOW, LEFT

IN = 0.0254


def subject(demo: str) -> Subject:
    return subject_of(assessed(demo), Context(Hashes("", "", "")))


def told(demo: str, id: str) -> dict[str, float]:
    shown = subject(demo)
    mark = next(one for one in shown.marks if one.id == id)
    found = measures(mark, look_at(mark, shown.airframe), shown.airframe, shown.tags)
    return {one.words: one.length_m for one in found}


def test_an_antenna_on_the_roof_is_measured_from_frame_centre_line_and_zone() -> None:
    assert told("amphibian", "gnss1") == {
        "aft of fs92": pytest.approx(6.0 * IN),
        "left of the centre line": pytest.approx(13.0 * IN),
        "clear of Z3 windshield": pytest.approx((6.0 - 4.7 / 2.0) * IN),
    }


def test_a_zone_that_lies_across_a_corner_is_measured_along_the_straight_line() -> None:
    found = told("twin", "gnss1")
    # hatch from FS 3.5 m and BL L0.30 m on; base 4.7 x 3.0 in at FS 3.2 m, BL L0.40 m
    along, across = 0.3 - 4.7 * IN / 2.0, 0.1 - 3.0 * IN / 2.0
    assert found["clear of Z2 crew_hatch"] == pytest.approx((along**2 + across**2) ** 0.5)


def test_an_antenna_on_the_fin_is_measured_from_its_edges() -> None:
    found = told("twin", "nav_t")
    part = (3.90 - 2.20) / (4.30 - 2.20)
    leading = 11.2 + (12.4 - 11.2) * part
    assert found["aft of the leading edge of fin"] == pytest.approx(12.9 - leading)


def test_each_surface_is_looked_at_from_its_own_side() -> None:
    shown = subject("twin")
    looks = {mark.id: look_at(mark, shown.airframe) for mark in shown.marks}
    assert looks["dme_b"] is BELOW
    assert looks["nav_t"] is LEFT


@given(st.floats(0.01, 30.0), st.floats(0.01, 30.0), st.floats(20.0, 400.0))
def test_the_scale_is_the_largest_that_fits(width: float, height: float, room: float) -> None:
    scale = scale_for(width, height, (room, room))
    fits = [one for one in SCALES if max(width, height) * 1000.0 / one <= room]
    assert scale == (fits[0] if fits else SCALES[-1])


@pytest.mark.parametrize("scale", SCALES)
def test_rules_stand_at_round_stations_that_can_be_told_apart(scale: int) -> None:
    places = list(rules((0.0, 3.0), scale, "in"))
    assert [float(name) * IN for _, name in places] == pytest.approx([at for at, _ in places])
    for (one, _), (other, _) in itertools.pairwise(places):
        assert (other - one) * 1000.0 / scale >= 9.0
