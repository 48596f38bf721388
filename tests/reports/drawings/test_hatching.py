# SPDX-License-Identifier: Apache-2.0
"""Hatching: every line ends on the edge, at its own angle, in step with all others."""

from __future__ import annotations

import math
from itertools import pairwise

import pytest
from hypothesis import given
from hypothesis import strategies as st

from rfplan.files.load import load_rulebook
from rfplan.reports.drawing import box
from rfplan.reports.drawings.hatching import HATCHES, hatched, round_outline
from rfplan.reports.strokes import PENS, XY

SPOTS = st.floats(-50.0, 300.0)
SIZES = st.floats(0.5, 80.0)


@given(st.sampled_from(sorted(HATCHES)), st.tuples(SPOTS, SPOTS), st.tuples(SIZES, SIZES))
def test_every_line_runs_from_edge_to_edge_of_a_box(name: str, corner: XY, size: XY) -> None:
    (left, top), (right, bottom) = corner, (corner[0] + size[0], corner[1] + size[1])
    for line in hatched(box(corner, size), name):
        for x, y in line:
            assert left - 1e-6 <= x <= right + 1e-6 and top - 1e-6 <= y <= bottom + 1e-6
            assert min(abs(x - left), abs(x - right), abs(y - top), abs(y - bottom)) < 1e-6


@pytest.mark.parametrize("name", HATCHES)
def test_lines_have_the_angle_and_the_distance_of_their_kind(name: str) -> None:
    angle, step = HATCHES[name]
    turn = math.radians(angle)
    reaches = []
    for (x1, y1), (x2, y2) in hatched(box((3.0, 4.0), (40.0, 30.0)), name):
        assert (x2 - x1) * math.sin(turn) == pytest.approx(-(y2 - y1) * math.cos(turn), abs=1e-6)
        reaches.append(x1 * math.sin(turn) + y1 * math.cos(turn))
    places = sorted(reach / step for reach in reaches)
    assert len(places) > 5
    assert places == pytest.approx([round(place) for place in places], abs=1e-6)
    assert [b - a for a, b in pairwise(places)] == pytest.approx([1.0] * (len(places) - 1))


def test_a_round_zone_is_hatched_to_its_rim() -> None:
    middle, radius = (50.0, 40.0), 8.0
    lines = hatched(round_outline(middle, radius), "sensor")
    assert len(lines) == 10  # a line each 1.6 mm over 16 mm
    for line in lines:
        assert [math.dist(middle, end) for end in line] == pytest.approx([radius] * 2, abs=0.02)


def test_every_effect_of_a_zone_has_a_hatching_and_a_pen_of_its_own() -> None:
    effects = {kind.effect for kind in load_rulebook().zone_kinds.values()}
    assert effects <= set(HATCHES) <= set(PENS)
    assert len({(HATCHES[one], PENS[one].colour) for one in HATCHES}) == len(HATCHES)
