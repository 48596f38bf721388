# SPDX-License-Identifier: Apache-2.0
from __future__ import annotations

import math

import numpy as np
import pytest
from drawn_aircraft import drawn_airframe
from hypothesis import given
from hypothesis import strategies as st
from sample import inch

from rfplan.tui.dots import DOTS_ACROSS, DOTS_DOWN
from rfplan.tui.glyphs import FULL
from rfplan.tui.layout import Area, SizeClass, ViewKind, size_class, views_in
from rfplan.tui.projection import Camera, View, round_step, ticks
from rfplan.tui.raster import circle, stroke
from rfplan.tui.stage import MOST_ZOOM, Paper, Stage, fit_stage

SIZES = {(10, 80): SizeClass.NARROW, (28, 75): SizeClass.MEDIUM, (48, 160): SizeClass.WIDE}
PLAN, SIDE, SECTION = ViewKind
COM1 = (inch(134.0), inch(0.0), inch(76.0))


def stage(size: tuple[int, int] = (48, 160)) -> Stage:
    return fit_stage(drawn_airframe(), views_in(SIZES[size]), Paper(*size, FULL))


def view(kind: ViewKind, size: tuple[int, int] = (48, 160)) -> View:
    found = stage(size).view(kind)
    assert found is not None
    return found


places = st.tuples(st.floats(0.5, 6.0), st.floats(-1.0, 1.0), st.floats(0.5, 2.5))


@pytest.mark.parametrize("size", SIZES)
@pytest.mark.parametrize("zoom", [1.0, 2.7])
def test_a_36_in_ring_is_36_in_high_and_wide_in_every_view(
    size: tuple[int, int], zoom: float
) -> None:
    for each in stage(size).zoomed(zoom, COM1).views:
        radius = inch(36.0) * each.camera.dots_per_m
        for axis in stroke(circle(each.dot_of(COM1), radius)):
            assert axis.max() - axis.min() == pytest.approx(2.0 * radius, abs=1.0)


@given(place=places, other=places)
def test_one_metre_is_as_many_dots_down_as_right_in_every_view(
    place: tuple[float, float, float], other: tuple[float, float, float]
) -> None:
    scales = {each.camera.dots_per_m for each in stage().views}
    assert len(scales) == 1
    for each, (right, down) in zip(stage().views, ((0, 1), (0, 2), (1, 2)), strict=True):
        apart_m = math.hypot(place[right] - other[right], place[down] - other[down])
        apart = math.dist(each.dot_of(place), each.dot_of(other))
        assert apart == pytest.approx(apart_m * each.camera.dots_per_m, abs=1e-6)


@pytest.mark.parametrize("size", [(28, 75), (48, 160), (31, 101)])
@given(fs_m=st.floats(0.0, 7.0), zoom=st.floats(0.6, 9.0))
def test_a_station_has_the_same_column_in_plan_and_side(
    size: tuple[int, int], fs_m: float, zoom: float
) -> None:
    fitted = fit_stage(drawn_airframe(), (PLAN, SIDE), Paper(*size, FULL)).zoomed(zoom, COM1)
    plan, side = fitted.views
    assert plan.dot_of((fs_m, 0.3, 1.0))[0] == side.dot_of((fs_m, -0.2, 1.9))[0]


def test_from_above_with_the_nose_left_the_right_side_is_up() -> None:
    left, right = (3.0, -0.5, 1.0), (3.0, 0.5, 1.0)
    low, high = (3.0, 0.0, 1.0), (3.0, 0.0, 2.0)
    assert view(PLAN).dot_of(right)[1] < view(PLAN).dot_of(left)[1]
    assert view(SIDE).dot_of(high)[1] < view(SIDE).dot_of(low)[1]
    assert view(SECTION).dot_of(left)[0] < view(SECTION).dot_of(right)[0]
    for kind in (PLAN, SIDE):
        assert view(kind).dot_of((2.0, 0.0, 1.0))[0] < view(kind).dot_of((3.0, 0.0, 1.0))[0]


@given(place=places)
def test_the_place_of_a_dot_is_within_half_a_dot_of_what_was_drawn_there(
    place: tuple[float, float, float],
) -> None:
    for each in stage().cut_at(place[0]).views:
        right, down = each.dot_of(place)
        seen = each.place_of_dot(math.floor(right) + 0.5, math.floor(down) + 0.5)
        half_m = 0.5 / each.camera.dots_per_m + 1e-9
        for value_m, seen_m in zip(place, seen, strict=True):
            assert seen_m is None or abs(seen_m - value_m) <= half_m


@given(row=st.integers(0, 47), column=st.integers(7, 159))
def test_a_cell_is_the_cell_of_the_place_under_it(row: int, column: int) -> None:
    each = stage().view_at(row, column)
    if each is not None:
        fs_m, bl_m, wl_m = (value or 0.0 for value in each.place_of(row, column))
        assert each.cell_of((fs_m, bl_m, wl_m)) == (row, column)


def test_the_place_under_a_cell_leaves_out_the_way_one_looks_along() -> None:
    assert view(PLAN).place_of(10, 40).wl_m is None
    assert view(SIDE).place_of(40, 40).bl_m is None
    section = stage().cut_at(3.25).view(SECTION)
    assert section is not None
    assert section.place_of(section.area.row, section.area.column).fs_m == 3.25


def test_many_points_fall_where_each_falls_alone() -> None:
    points = np.array([COM1, (1.0, 0.4, 1.2), (5.0, -0.4, 1.6)])
    for each in stage().views:
        alone = np.array([each.dot_of((x, y, z)) for x, y, z in points.tolist()])
        assert each.dots_of(points) == pytest.approx(alone)


def test_the_grid_gives_the_place_under_every_cell() -> None:
    each = view(SIDE)
    right_m, down_m = each.grid_m(0.5, 0.5)
    seen = each.place_of(each.area.row + 3, each.area.column + 5)
    assert (right_m[0, 5], down_m[3, 0]) == pytest.approx((seen.fs_m, seen.wl_m))


@given(factor=st.floats(0.2, 20.0), about=places)
def test_zooming_keeps_the_point_it_looks_at_in_its_place(
    factor: float, about: tuple[float, float, float]
) -> None:
    for before, after in zip(stage().views, stage().zoomed(factor, about).views, strict=True):
        assert after.dot_of(about) == pytest.approx(before.dot_of(about), abs=1e-6)


def test_zoom_has_bounds_and_home_is_the_whole_aircraft_again() -> None:
    home = stage()
    close = home.zoomed(1e6, COM1)
    assert close.camera.dots_per_m == pytest.approx(MOST_ZOOM * home.camera.dots_per_m)
    assert close.at_home() == home


def test_panning_moves_every_view_by_the_same_metres() -> None:
    camera = Camera((3.0, 0.0, 1.0), 40.0).panned(fs_m=0.5, wl_m=-0.25)
    assert camera.middle_m == (3.5, 0.0, 0.75)


@pytest.mark.parametrize("size", SIZES)
def test_hull_and_tail_fit_inside_every_view(size: tuple[int, int]) -> None:
    corners = {
        PLAN: ((inch(22), inch(-23), 1.0), (inch(232), inch(23), 1.0)),
        SIDE: ((inch(22), 0.0, inch(27)), (inch(232), 0.0, inch(104))),
        SECTION: ((3.0, inch(-23), inch(27)), (3.0, inch(23), inch(79))),
    }
    for each in stage(size).views:
        for corner in corners[each.kind]:
            assert each.area.holds(*each.cell_of(corner))


def test_the_centre_line_runs_through_the_middle_of_a_row() -> None:
    each = View(PLAN, Area(1, 7, 9, 73), Camera((3.0, 0.0, 1.5), 20.0))
    assert each.dot_of((3.0, 0.0, 1.5)) == ((7 + 36 + 0.5) * DOTS_ACROSS, (1 + 4 + 0.5) * DOTS_DOWN)


@pytest.mark.parametrize(("size", "expected"), SIZES.items())
def test_areas_fill_the_paper_without_overlap(size: tuple[int, int], expected: SizeClass) -> None:
    areas = [each.area for each in stage(size).views]
    cells = [
        (row, column)
        for area in areas
        for row in range(area.row, area.row + area.rows)
        for column in range(area.column, area.column + area.columns)
    ]
    assert len(cells) == len(set(cells))
    assert max(cells)[0] == size[0] - 1
    assert len(areas) == {SizeClass.NARROW: 1, SizeClass.MEDIUM: 2, SizeClass.WIDE: 3}[expected]


@pytest.mark.parametrize(
    ("columns", "rows", "size"),
    [
        (79, 24, SizeClass.TOO_SMALL),
        (80, 23, SizeClass.TOO_SMALL),
        (80, 24, SizeClass.NARROW),
        (200, 29, SizeClass.NARROW),
        (100, 30, SizeClass.MEDIUM),
        (149, 60, SizeClass.MEDIUM),
        (150, 40, SizeClass.WIDE),
    ],
)
def test_the_size_class_needs_both_columns_and_rows(
    columns: int, rows: int, size: SizeClass
) -> None:
    assert size_class(columns, rows) is size


def test_a_single_view_can_be_asked_for_at_any_size() -> None:
    assert views_in(SizeClass.WIDE, SECTION) == (SECTION,)
    assert views_in(SizeClass.NARROW, SIDE) == (SIDE,)
    assert views_in(SizeClass.NARROW) == (PLAN,)


@pytest.mark.parametrize(
    ("least", "step"), [(0.3, 1), (1.0, 1), (1.1, 2), (3, 5), (17, 20), (20, 20), (51, 100)]
)
def test_rulers_step_in_round_numbers(least: float, step: int) -> None:
    assert round_step(least) == step


def test_ticks_stand_at_round_numbers_of_the_unit() -> None:
    inches = ticks(inch(-21.0), inch(61.0), "in", inch(15.0))
    assert [tick.number for tick in inches] == [-20, 0, 20, 40, 60]
    assert inches[-1].value_m == pytest.approx(inch(60.0))
    millimetres = ticks(-0.6, 1.01, "mm", 0.3)
    assert [tick.number for tick in millimetres] == [-500, 0, 500, 1000]
    assert millimetres[0].value_m == pytest.approx(-0.5)
