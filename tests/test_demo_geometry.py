# SPDX-License-Identifier: Apache-2.0
"""Nothing of the demo aircraft is real, and everything is where it can be."""

from __future__ import annotations

import math

import numpy as np
import pytest
from demo_plans import DEMOS, EVERY_STATE, assessed, plan_of, words_of

from rfplan.model.airframe import OUTER_HULL, Airframe, Plate
from rfplan.model.plan import Plan, State, Unit
from rfplan.physics.skin_geometry import Hull, section_at

Point = tuple[float, float, float]


@pytest.mark.parametrize("demo", DEMOS)
def test_every_document_of_a_demo_says_that_it_is_invented(demo: str) -> None:
    plan = plan_of(demo)
    own = [*plan.sources.values(), *plan.airframe.sources.values()]
    assert own
    assert {source.read for source in own} == {"invented"}
    assert "invented" in words_of(demo)


@pytest.mark.parametrize("demo", DEMOS)
def test_every_node_lies_inside_the_hull_or_a_plate(demo: str) -> None:
    airframe = plan_of(demo).airframe
    outside = [
        id
        for id, node in airframe.route.nodes.items()
        if not is_inside(airframe, (node.at.fs_m, node.at.bl_m, node.at.wl_m or 0.0))
    ]
    assert outside == []


@pytest.mark.parametrize(("demo", "state"), EVERY_STATE)
def test_every_unit_and_inside_antenna_lies_inside_the_hull(demo: str, state: State) -> None:
    plan = plan_of(demo, state)
    places = [unit_point_m(unit) for unit in plan.installation.units.values()]
    places += [one.point_m for one in assessed(demo, state).antennas if one.inside]
    assert all(is_inside(plan.airframe, place) for place in places)


@pytest.mark.parametrize(("demo", "state"), EVERY_STATE)
def test_every_hull_antenna_stands_on_the_skin(demo: str, state: State) -> None:
    hull = [one for one in assessed(demo, state).antennas if one.surface in OUTER_HULL]
    assert hull
    assert all(math.isfinite(value) for one in hull for value in one.point_m)


@pytest.mark.parametrize(("demo", "state"), EVERY_STATE)
def test_every_stated_length_reaches_from_end_to_end(demo: str, state: State) -> None:
    plan = plan_of(demo, state)
    antennas = {one.id: one.point_m for one in assessed(demo, state).antennas}
    short = [
        id
        for id, ends in ends_of(plan, antennas).items()
        if isinstance(length_m := plan.installation.cables[id].length_m, float)
        and length_m < math.dist(*ends)
    ]
    assert short == []


def unit_point_m(unit: Unit) -> Point:
    """Return where a unit is; every unit of a demo has its place."""
    assert unit.at is not None
    assert unit.at.wl_m is not None
    return unit.at.fs_m, unit.at.bl_m, unit.at.wl_m


def ends_of(plan: Plan, antennas: dict[str, Point]) -> dict[str, tuple[Point, Point]]:
    """Return the points between which each cable is laid."""
    fitted, nodes = plan.installation, plan.airframe.route.nodes
    points = dict(antennas)
    points |= {id: unit_point_m(unit) for id, unit in fitted.units.items()}
    for id, part in fitted.parts.items():
        at = nodes[part.at or ""].at
        points[id] = (at.fs_m, at.bl_m, at.wl_m or 0.0)
    ends: dict[str, tuple[Point, Point]] = {}
    for path in fitted.paths.values():
        members = [member.partition(".")[0] for member in path.chain]
        for before, id, after in zip(members, members[1:], members[2:], strict=False):
            if id in fitted.cables:
                ends[id] = (points[before], points[after])
    return ends


def is_inside(airframe: Airframe, place: Point) -> bool:
    """Tell whether a place lies inside the hull, or within the outline of a plate."""
    fs_m, bl_m, wl_m = place
    columns = zip(
        *((r.fs_m, r.half_width_m, r.bottom_m, r.top_m, r.roundness) for r in airframe.sections),
        strict=True,
    )
    hull = Hull(*(np.array(column) for column in columns))
    half_width, middle, half_height, roundness = (
        float(value) for value in section_at(hull, np.array(fs_m))
    )
    reach = (abs(bl_m) / half_width) ** roundness
    reach += (abs(wl_m - middle) / half_height) ** roundness
    return reach <= 1.0 or any(is_in_plate(plate, place) for plate in airframe.plates.values())


def is_in_plate(plate: Plate, place: Point) -> bool:
    """Tell whether a place lies between root and tip, leading and trailing edge of a plate."""
    corners = [
        (abs(corner.fs_m), abs(corner.bl_m), corner.wl_m or 0.0)
        for corner in (*plate.root, *plate.tip)
    ]
    lead, trail, tip_lead, tip_trail = (np.array(corner) for corner in corners)
    span = (tip_lead - lead)[1:]
    part = float(np.dot(np.abs(place)[1:] - lead[1:], span) / np.dot(span, span))
    front, rear = lead + part * (tip_lead - lead), trail + part * (tip_trail - trail)
    off_m = abs(float(np.linalg.norm(np.abs(place)[1:] - front[1:])))
    return 0.0 <= part <= 1.0 and front[0] <= place[0] <= rear[0] and off_m <= plate.thickness_m
