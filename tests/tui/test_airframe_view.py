# SPDX-License-Identifier: Apache-2.0
from __future__ import annotations

from dataclasses import replace

import numpy as np
import pytest
from drawn_aircraft import drawn_assessment, drawn_plan
from golden_text import assert_golden
from sample import inch, sample_rulebook

from rfplan.model.findings import Verdict
from rfplan.model.record import ById
from rfplan.propose.room_map import BREAKS_RULE
from rfplan.tui.airframe_view import Drawing, draw
from rfplan.tui.backdrop import Backdrop, backdrop
from rfplan.tui.glyphs import FULL, TIERS, Tier
from rfplan.tui.layout import SizeClass, ViewKind, views_in
from rfplan.tui.outline import cells_in_hull
from rfplan.tui.room_map import RoomSeen
from rfplan.tui.runs import Run, changed
from rfplan.tui.signs import Focus
from rfplan.tui.stage import Paper, fit_stage
from rfplan.tui.tokens import Ground, Token

SIZES = {
    SizeClass.NARROW: (10, 80),
    SizeClass.MEDIUM: (28, 75),
    SizeClass.WIDE: (48, 160),
}
MOVING = Focus("gnss1", "gnss1", moving_from=(inch(68), 0.0, inch(60)), ring=True)


def scenery(size: SizeClass = SizeClass.MEDIUM, tier: Tier = Tier.FULL) -> Backdrop:
    plan = drawn_plan()
    paper = Paper(*SIZES[size], TIERS[tier])
    stage = fit_stage(plan.airframe, views_in(size), paper)
    return backdrop(plan, sample_rulebook().zone_kinds, stage)


def drawn(
    size: SizeClass = SizeClass.MEDIUM, focus: Focus = MOVING, tier: Tier = Tier.FULL
) -> Drawing:
    return draw(drawn_assessment(), focus, scenery(size, tier))


def cell_of(drawing: Drawing, id: str, kind: ViewKind) -> tuple[int, int]:
    view = drawing.stage.view(kind)
    assert view is not None
    point_m = next(place.point_m for place in drawn_assessment().antennas if place.id == id)
    return view.cell_of(point_m)


def look(drawing: Drawing, row: int, column: int) -> tuple[str, Token, Ground]:
    for run in drawing.picture.row(row):
        if column < len(run.text):
            return run.text[column], run.token, run.ground
        column -= len(run.text)
    raise IndexError


@pytest.mark.parametrize("size", SIZES)
@pytest.mark.parametrize("tier", Tier)
def test_the_drawing_of_a_moved_antenna_is_unchanged(size: SizeClass, tier: Tier) -> None:
    assert_golden(f"airframe_{size}_{tier}.txt", drawn(size, tier=tier).picture.text())


@pytest.mark.parametrize("size", SIZES)
def test_each_row_is_as_wide_as_the_paper(size: SizeClass) -> None:
    rows, columns = SIZES[size]
    drawing = drawn(size)
    assert len(drawing.picture.rows()) == rows
    for runs in drawing.picture.rows():
        assert sum(len(run.text) for run in runs) == columns


@pytest.mark.parametrize("size", SIZES)
def test_the_ascii_tier_draws_in_ascii(size: SizeClass) -> None:
    assert drawn(size, tier=Tier.ASCII).picture.text().isascii()


def test_every_antenna_shows_its_surface_and_its_worst_verdict() -> None:
    drawing = drawn(SizeClass.WIDE, Focus())
    expected = {
        "com1": (FULL.top, Token.NEAR),
        "com2": (FULL.belly, Token.WAIVED),
        "dme": (FULL.belly, Token.FAIL),
        "gnss1": (FULL.top, Token.PASS),
        "gnss2": (FULL.inside, Token.PASS),
        "nav": (FULL.plate, Token.PASS),
        "xpdr1": (FULL.belly, Token.PASS),
    }
    for id, signed in expected.items():
        for kind in (ViewKind.PLAN, ViewKind.SIDE):
            assert look(drawing, *cell_of(drawing, id, kind))[:2] == signed


def test_an_antenna_takes_the_ink_of_its_path_where_that_is_worse() -> None:
    assessment = drawn_assessment()
    (path,) = assessment.paths
    worse = replace(assessment, paths=(replace(path, overall=Verdict.FAIL_HIGH),))
    drawing = draw(worse, Focus(), scenery())
    assert look(drawing, *cell_of(drawing, "gnss1", ViewKind.PLAN))[1] is Token.FAIL


def test_the_selected_antenna_stands_out_with_its_name_on_the_accent() -> None:
    drawing = drawn(SizeClass.WIDE)
    row, column = cell_of(drawing, "gnss1", ViewKind.PLAN)
    assert look(drawing, row, column)[:2] == (FULL.here, Token.ACCENT)
    text = "".join(run.text for run in drawing.picture.row(row) if run.ground is Ground.ACCENT)
    assert text == " gnss1 "


def test_the_selected_antenna_covers_another_at_the_same_place() -> None:
    assessment = drawn_assessment()
    crowded = tuple(
        replace(place, point_m=assessment.antennas[0].point_m) for place in assessment.antennas
    )
    for id in ("com1", "xpdr1"):
        drawing = draw(replace(assessment, antennas=crowded), Focus(id), scenery())
        cell = cell_of(drawing, assessment.antennas[0].id, ViewKind.PLAN)
        assert look(drawing, *cell)[:2] == (FULL.here, Token.ACCENT)
        assert drawing.hit(*cell) == id


def test_the_ghost_stands_where_the_antenna_was() -> None:
    drawing = drawn(SizeClass.WIDE)
    view = drawing.stage.view(ViewKind.PLAN)
    assert view is not None
    assert MOVING.moving_from is not None
    assert look(drawing, *view.cell_of(MOVING.moving_from))[0] == FULL.was
    assert FULL.was not in drawn(SizeClass.WIDE, Focus("gnss1")).picture.text()


def test_the_ring_has_its_caption_and_fails_while_the_distance_is_short() -> None:
    drawing = drawn(SizeClass.WIDE)
    near = drawn_plan()
    antennas = near.installation.antennas
    close = replace(antennas["gnss1"], at=replace(antennas["gnss1"].at, fs_m=inch(110)))
    installation = replace(near.design, antennas=antennas.having("gnss1", close))
    moved = draw(drawn_assessment(replace(near, design=installation)), MOVING, scenery())
    for each, token in ((drawing, Token.TEXT), (moved, Token.FAIL)):
        rows = enumerate(each.picture.text().splitlines())
        (caption,) = ((row, text.find("36 in")) for row, text in rows if "36 in" in text)
        assert look(each, *caption)[1] is token


def runs_of(drawing: Drawing) -> list[Run]:
    return [run for row in drawing.picture.rows() for run in row]


def test_no_ring_is_drawn_unless_asked_for() -> None:
    assert "from com1" not in drawn(focus=Focus("gnss1", "gnss1")).picture.text()
    assert "from" not in drawn(focus=Focus("dme", ring=True)).picture.text().split("left")[1]


def test_the_route_runs_through_its_nodes() -> None:
    drawing = drawn(SizeClass.WIDE, Focus(path="gnss1"))
    nodes = drawn_plan().airframe.route.nodes
    view = drawing.stage.view(ViewKind.PLAN)
    assert view is not None
    for id in ("apl", "rfl"):
        at = nodes[id].at
        cell = view.cell_of((at.fs_m, at.bl_m, at.wl_m or 0.0))
        assert look(drawing, *cell)[1] is Token.ACCENT


def test_no_other_path_is_drawn() -> None:
    assert all(run.token is not Token.ACCENT for run in runs_of(drawn(focus=Focus())))


def test_a_click_on_a_sign_or_its_name_finds_the_antenna() -> None:
    drawing = drawn(SizeClass.WIDE)
    row, column = cell_of(drawing, "com2", ViewKind.PLAN)
    assert drawing.hit(row, column) == "com2"
    assert drawing.hit(row, column + 4) == "com2"
    assert drawing.hit(row - 1, column) is None
    assert drawing.hit(0, 0) is None


def test_a_step_changes_only_what_hangs_on_the_moved_antenna() -> None:
    plan, scene = drawn_plan(), scenery(SizeClass.WIDE)
    antennas = plan.installation.antennas
    at = antennas["com2"].at
    moved = replace(antennas["com2"], at=replace(at, fs_m=at.fs_m + inch(2)))
    after = replace(plan, design=replace(plan.design, antennas=antennas.having("com2", moved)))
    focus = Focus("com2")
    one = draw(drawn_assessment(plan), focus, scene)
    other = draw(drawn_assessment(after), focus, scene)
    spans = changed(one.picture.rows(), other.picture.rows())
    left = [span for span in spans if span.stop <= 119]
    assert 0 < len(left) <= 4
    assert all(span.stop - span.start <= 12 for span in left)


def test_drawing_leaves_the_backdrop_as_it_was() -> None:
    scene = scenery()
    before = scene.canvas.rows()
    draw(drawn_assessment(), MOVING, scene)
    assert scene.canvas.rows() == before


def test_the_section_is_cut_at_the_selected_antenna() -> None:
    drawing = drawn(SizeClass.WIDE, Focus("com1"))
    assert "section FS 134" in drawing.picture.text()
    section = drawing.stage.view(ViewKind.SECTION)
    assert section is not None
    assert section.station_m == pytest.approx(inch(134))


def test_an_antenna_off_the_hull_still_has_a_section() -> None:
    plan = drawn_plan()
    antennas = plan.installation.antennas
    tip = replace(antennas["nav"], at=replace(antennas["nav"].at, fs_m=inch(231)))
    installation = replace(plan.design, antennas=antennas.having("nav", tip))
    drawing = draw(
        drawn_assessment(replace(plan, design=installation)),
        Focus("nav"),
        scenery(SizeClass.WIDE),
    )
    assert "section FS 231" in drawing.picture.text()


def test_forbidden_zones_are_hatched_and_only_on_the_surface_looked_at() -> None:
    plan, kinds = drawn_plan(), sample_rulebook().zone_kinds
    stage = fit_stage(plan.airframe, (ViewKind.PLAN,), Paper(30, 120, FULL))
    hatch = (inch(119), inch(5), 0.0)
    row, column = stage.views[0].cell_of(hatch)
    texts = {
        surface: backdrop(plan, kinds, stage, surface).canvas.picture().text().splitlines()
        for surface in ("top", "belly")
    }
    grounds = {run.ground for run in backdrop(plan, kinds, stage).canvas.rows()[row]}
    assert Ground.FORBIDDEN in grounds
    assert texts["top"][row][column] == FULL.keep_out
    assert texts["belly"][row][column] != FULL.keep_out


def test_a_zone_without_ranges_reaches_over_the_whole_hull() -> None:
    plan = drawn_plan()
    (first, zone), *_ = plan.airframe.zones.items()
    everywhere = replace(zone, fs_m=None, bl_m=None)
    airframe = replace(plan.airframe, zones=ById({first: everywhere}))
    stage = fit_stage(airframe, (ViewKind.PLAN,), Paper(30, 120, FULL))
    kinds = sample_rulebook().zone_kinds
    text = backdrop(replace(plan, airframe=airframe), kinds, stage).canvas.picture().text()
    assert text.count(FULL.keep_out) > 400


def test_the_room_map_tints_the_plan_under_everything() -> None:
    scene = scenery(SizeClass.WIDE)
    plan = scene.stage.view(ViewKind.PLAN)
    assert plan is not None
    fs_m, bl_m = np.broadcast_arrays(*plan.grid_m(0.5, 0.5))
    cells = cells_in_hull(plan, scene.aircraft.hull)
    assert (abs(bl_m[cells]) < inch(23)).all()
    levels = np.where(cells, 3, 0).astype(np.int8)
    levels[cells & (fs_m > inch(140))] = BREAKS_RULE
    drawing = draw(drawn_assessment(), MOVING, scene, RoomSeen(ViewKind.PLAN, levels))
    row, column = cell_of(drawing, "dme", ViewKind.PLAN)
    assert look(drawing, row, column)[0] == FULL.belly
    assert look(drawing, row, column)[2] is Ground.ROOM_3
    right = plan.cell_of((inch(160), inch(8), 0.0))
    assert look(drawing, *right) == (FULL.rule, Token.HATCH, Ground.FORBIDDEN)
    assert "room for gnss1" in drawing.picture.text()


def test_terminals_without_tints_tell_room_by_signs() -> None:
    scene = scenery(tier=Tier.ASCII)
    plan = scene.stage.view(ViewKind.PLAN)
    assert plan is not None
    levels = np.where(cells_in_hull(plan, scene.aircraft.hull), 4, 0).astype(np.int8)
    text = draw(drawn_assessment(), MOVING, scene, RoomSeen(ViewKind.PLAN, levels)).picture.text()
    assert text.count("O") > 100


def test_proposed_places_are_lettered() -> None:
    proposed = ((inch(100), inch(8), inch(78)), (inch(170), inch(-4), inch(70)))
    drawing = drawn(SizeClass.WIDE, Focus("gnss1", proposed=proposed))
    view = drawing.stage.view(ViewKind.PLAN)
    assert view is not None
    letters = [look(drawing, *view.cell_of(place))[0] for place in proposed]
    assert letters == ["A", "B"]


def test_rulers_speak_the_unit_of_the_paper() -> None:
    plan = drawn_plan()
    for unit, expected in (("in", ["100", "L20", "WL60"]), ("mm", ["3000", "L500", "WL1500"])):
        paper = Paper(48, 160, FULL, unit)  # type: ignore[arg-type]
        stage = fit_stage(plan.airframe, views_in(SizeClass.WIDE), paper)
        text = backdrop(plan, sample_rulebook().zone_kinds, stage).canvas.picture().text()
        assert all(word in text.split() for word in expected)


def test_stations_on_the_upper_ruler_stand_over_what_they_name() -> None:
    scene = scenery(SizeClass.WIDE)
    (plan, *_), (ruler, *_) = scene.stage.views, scene.canvas.picture().text().splitlines()
    for station in (60, 100, 200):
        _, column = plan.cell_of((inch(station), 0.0, 0.0))
        assert str(station) in ruler[column - 1 : column + 2]


def test_the_hull_is_drawn_alike_left_and_right() -> None:
    plan = drawn_plan()
    bare = replace(plan.airframe, zones=ById(), plates=ById())
    stage = fit_stage(bare, (ViewKind.PLAN,), Paper(31, 120, FULL))
    (view,) = stage.views
    drawing = backdrop(replace(plan, airframe=bare), {}, stage).canvas.picture().grounds
    middle = view.area.row + view.area.rows // 2
    left, right = drawing[middle - 8 : middle][::-1], drawing[middle + 1 : middle + 9]
    assert (left == right).all()


@pytest.mark.parametrize("kind", ViewKind)
def test_any_view_can_stand_alone(kind: ViewKind) -> None:
    plan = drawn_plan()
    stage = fit_stage(plan.airframe, (kind,), Paper(28, 80, FULL))
    scene = backdrop(plan, sample_rulebook().zone_kinds, stage)
    drawing = draw(drawn_assessment(), MOVING, scene)
    assert drawing.hit(*cell_of(drawing, "gnss1", kind)) == "gnss1"
    assert ("from com1" in drawing.picture.text()) is (kind is not ViewKind.SECTION)
