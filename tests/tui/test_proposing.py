# SPDX-License-Identifier: Apache-2.0
from __future__ import annotations

import re
from dataclasses import replace
from pathlib import Path
from string import ascii_uppercase

import numpy as np
import pytest
from demo_plans import plan_of
from drawn_aircraft import drawn_assessment, drawn_plan
from hypothesis import given, settings
from hypothesis import strategies as st
from plan_files import shipped_catalog, shipped_rulebook
from sample import inch, sample_rulebook
from workspaces import PLAN, Seat

from rfplan.analysis.facts import gather
from rfplan.analysis.placement import snap
from rfplan.assess import assess
from rfplan.edits import differences
from rfplan.model.airframe import INSIDE, OUTER_HULL
from rfplan.model.findings import Verdict
from rfplan.model.plan import State
from rfplan.propose.room_map import room_map as room_map_of
from rfplan.tui import proposing, room_map
from rfplan.tui.actions import Mode
from rfplan.tui.airframe_view import draw
from rfplan.tui.backdrop import backdrop
from rfplan.tui.canvas import Canvas
from rfplan.tui.composing import DRAWING, compose
from rfplan.tui.glyphs import FULL
from rfplan.tui.layout import Area, SizeClass, ViewKind, views_in
from rfplan.tui.outline import cells_in_hull
from rfplan.tui.projection import Camera, View
from rfplan.tui.room_map import Roomed, draw_room, levels_in, view_of
from rfplan.tui.signs import Focus
from rfplan.tui.stage import Paper, fit_stage
from rfplan.units import Place, show_place

DEMO = Path(__file__).resolve().parents[2] / "demo_aircraft" / "amphibian"
SHOWN = "room for g1"


@pytest.fixture
def seat(frozen: Path) -> Seat:
    seat = Seat(frozen)
    seat.workspace.looking.select_antenna("g1")
    seat.draw()
    return seat


def fully_taken(folder: Path) -> Seat:
    """Return a seat at a plan in which no place is far enough from every whip."""
    (folder / "plan.yaml").write_text(PLAN.replace("min: 36 in", "min: 300 in"), encoding="utf-8")
    seat = Seat(folder)
    seat.workspace.looking.select_antenna("g1")
    return seat


def place(seat: Seat) -> str:
    return show_place(seat.workspace.session.plan.installation.antennas["g1"].at)


def letters(seat: Seat) -> list[str]:
    """Return the places as the list has them, in its order."""
    return [show_place(one.edit.at) for one in seat.workspace.proposing.proposals]


def test_the_room_map_is_there_while_moving_and_by_a_key_at_any_time(seat: Seat) -> None:
    assert SHOWN not in seat.frame.text()
    assert SHOWN in seat.press("h")
    assert SHOWN not in seat.press("h")
    assert SHOWN in seat.press("m")
    assert SHOWN not in seat.press("h")
    seat.press("escape", "m")
    assert SHOWN not in seat.frame.text()
    assert SHOWN in seat.press("h")


def test_the_map_is_worked_out_once_a_move_and_again_when_the_plan_or_the_view_changes(
    seat: Seat, monkeypatch: pytest.MonkeyPatch
) -> None:
    count = 0

    def counted(*asked: object) -> object:
        nonlocal count
        count += 1
        return levels_in(*asked)  # type: ignore[arg-type]

    monkeypatch.setattr(room_map, "levels_in", counted)
    seat.press("m", *["right"] * 5, *["left"] * 3, "up")
    assert count == 1
    seat.press("enter", "m")
    assert count == 2
    seat.press("+")
    assert count == 3
    seat.press("escape")
    seat.workspace.looking.select_antenna("c1")
    seat.press("m", "right")
    assert count == 4


def test_a_place_in_the_hatched_part_asks_before_it_is_taken(seat: Seat) -> None:
    seat.press("m", *["right"] * 8)
    row, column = seat.frame.cursor[1], seat.frame.cursor[0]
    roomed = seat.workspace.showing.roomed()
    drawing = seat.workspace.sketch.drawing
    assert roomed is not None
    assert drawing is not None
    area, view = seat.workspace.placed[DRAWING].area, drawing.stage.views[0]
    levels = levels_in(roomed, view)
    cell = row - area.row - view.area.row, column - area.column - view.area.column
    assert levels[cell] == room_map.BREAKS_RULE
    seat.press("enter")
    assert "enter again" in seat.sentence


@pytest.mark.parametrize(
    ("on", "kind"),
    [
        ("top", ViewKind.PLAN),
        ("belly", ViewKind.PLAN),
        ("wing", ViewKind.PLAN),
        ("left", ViewKind.SIDE),
        ("right", ViewKind.SIDE),
        ("fin", ViewKind.SIDE),
        ("cabin", None),
    ],
)
def test_a_surface_is_mapped_in_the_view_that_looks_at_it(on: str, kind: ViewKind | None) -> None:
    assert view_of(plan_of("amphibian").airframe, on) is kind


def test_an_antenna_inside_has_no_map_and_one_whose_view_is_hidden_says_where_it_is() -> None:
    seat = Seat(DEMO)
    seat.workspace.looking.select_antenna("nav")
    seat.draw()
    seat.press("h")
    assert seat.sentence == "The room of nav is seen in the side view. v shows it."
    assert "room for" not in seat.press("m")
    assert "room for nav" in seat.press("v")
    seat = Seat(DEMO)
    seat.workspace.session.look_at(State.FOUND)
    inside = next(
        id for id, one in seat.workspace.session.plan.found.antennas.items() if one.on in INSIDE
    )
    seat.workspace.looking.select_antenna(inside)
    seat.draw()
    seat.press("h")
    assert f"{inside} stands inside, on " in seat.sentence


@pytest.mark.parametrize(
    ("antenna", "on", "kind"),
    [
        ("nav", "fin", ViewKind.SIDE),
        ("mkr_w", "wing", ViewKind.PLAN),
        ("com1", "left", ViewKind.SIDE),
    ],
)
def test_each_cell_shows_the_room_of_the_place_under_it(
    antenna: str, on: str, kind: ViewKind
) -> None:
    plan = plan_of("amphibian")
    facts = gather(plan, shipped_catalog(), shipped_rulebook())
    view = fit_stage(plan.airframe, (kind,), Paper(28, 75, FULL)).views[0]
    levels = levels_in(Roomed(plan, facts.catalog, facts.rulebook, antenna, on), view)
    scene, fitted = facts.scene, facts.scene.fitted[antenna]
    shown = np.argwhere(levels)
    assert len(shown) > 10
    hidden = cells_in_hull(view, scene.hull)
    assert levels[hidden].any() == (on in OUTER_HULL)
    for row, column in shown[:: max(1, len(shown) // 12)]:
        sight = view.place_of(view.area.row + int(row), view.area.column + int(column))
        own = zip(sight, fitted.point_m, strict=True)
        at = Place(*(mine if there is None else there for there, mine in own))
        places = snap(scene.airframe, scene.hull, on, [at])
        assert levels[row, column] == room_map_of(facts, fitted, places).levels[0]


@pytest.mark.parametrize(
    ("columns", "title"), [(60, " room for g1  "), (50, " room  "), (44, "  ")]
)
def test_the_legend_is_never_cut_inside_a_word(columns: int, title: str) -> None:
    canvas = Canvas(9, columns, FULL)
    view = View(ViewKind.PLAN, Area(0, 0, 9, columns), Camera((0.0, 0.0, 0.0), 20.0))
    levels = np.zeros((9, columns), dtype=np.int8)
    draw_room(canvas, view, levels, "g1")
    legend = canvas.picture().text().splitlines()[-1]
    assert legend.startswith(title)
    assert legend.rstrip().endswith("keep-out")


def test_p_tries_the_best_place_and_enter_takes_it_as_one_step_to_undo(seat: Seat) -> None:
    before = seat.workspace.session.plan
    text = seat.press("p")
    assert "Proposed for g1" in text
    assert seat.workspace.mode is Mode.PROPOSED
    first = letters(seat)[0]
    assert place(seat) == "114 L4 in"
    seat.press("enter")
    assert place(seat) == first
    assert seat.workspace.mode is Mode.LOOKING
    seat.press("u")
    assert differences(before, seat.workspace.session.plan) == ()


@pytest.mark.parametrize(
    "keys", [("]",), ("down",), ("j",), ("down", "down", "up"), ("]", "]", "[")]
)
def test_the_keys_go_through_the_list(seat: Seat, keys: tuple[str, ...]) -> None:
    seat.press("p", *keys)
    second = letters(seat)[1]
    seat.press("enter")
    assert place(seat) == second


def test_every_place_that_is_tried_shows_what_a_fresh_check_says(seat: Seat) -> None:
    file = seat.workspace.session.file
    seat.press("p")
    for _ in seat.workspace.proposing.proposals:
        moving = seat.workspace.moving
        assert moving is not None
        fresh = assess(moving.edit.apply(seat.workspace.session.plan), file.catalog, file.rulebook)
        assert seat.workspace.assessment == fresh
        word = fresh.word_of("g1")
        cursor = seat.workspace.look.glyphs.cursor
        assert f"{word} " in next(r for r in seat.frame.text().splitlines() if r[0] == cursor)
        seat.press("down")


def test_esc_leaves_everything_as_it_was(seat: Seat) -> None:
    before = seat.workspace.session.plan
    seat.press("p", "down", "escape")
    assert seat.workspace.session.plan is before
    assert seat.workspace.mode is Mode.LOOKING
    seat.press("m")
    assert seat.workspace.mode is Mode.MOVING


def test_the_letters_stand_on_the_skin(seat: Seat) -> None:
    seat.press("p")
    drawing = seat.workspace.sketch.drawing
    assert drawing is not None
    view, rows = drawing.stage.views[0], drawing.picture.text().splitlines()
    points = seat.workspace.proposing.points()
    assert len(points) == 5
    cells = [view.cell_of(point) for point in points]
    shown = [rows[row][column] for row, column in cells[1:]]
    assert shown == list(ascii_uppercase[1 : len(points)])


def test_in_a_move_the_brackets_try_places_and_the_arrows_go_on_from_there(seat: Seat) -> None:
    seat.press("m", "right", "]")
    first, second, *_ = letters(seat)
    assert seat.workspace.mode is Mode.MOVING
    assert seat.workspace.moving is not None
    assert show_place(seat.workspace.moving.at) == first
    seat.press("]")
    assert show_place(seat.workspace.moving.at) == second
    seat.press("[", "right", "enter")
    station, _, rest = first.partition(" ")
    assert place(seat) == f"{int(station) + 2} {rest}"


def test_from_the_list_one_can_move_on(seat: Seat) -> None:
    seat.press("p", "m")
    assert seat.workspace.mode is Mode.MOVING
    assert "step 2 in" in seat.frame.text()


def test_the_other_side_is_searched_too(seat: Seat) -> None:
    assert "belly, best first" in seat.press("p", "S")
    assert seat.workspace.moving is not None
    assert seat.workspace.moving.on == "belly"
    assert "top, best first" in seat.press("S")


def test_a_click_on_a_row_tries_its_place_and_one_on_the_skin_moves_on(seat: Seat) -> None:
    rows = seat.press("p").splitlines()
    row = next(index for index, text in enumerate(rows) if text.startswith("  C "))
    seat.workspace.click(5, row)
    assert seat.workspace.moving is not None
    assert show_place(seat.workspace.moving.at) == letters(seat)[2]
    seat.draw()
    seat.workspace.click(30, 6)
    assert seat.workspace.mode is Mode.MOVING


def test_a_side_without_a_place_says_so_with_the_nearest_miss(frozen: Path) -> None:
    seat = fully_taken(frozen)
    text = " ".join(" ".join(row[:45] for row in seat.press("p").splitlines()[11:]).split())
    assert "No free place on the top for g1. Nearest miss: FS " in text
    assert "in short of c2. Try the belly (S)." in text
    seat.press("enter")
    assert seat.sentence == "There is no place to accept."
    assert place(seat) == "114 L4 in"
    seat.press("escape", "m", "]")
    assert seat.sentence.startswith("No free place on the top for g1.")


def test_a_place_whose_loss_fails_says_what_may_help(frozen: Path) -> None:
    plan = (frozen / "plan.yaml").read_text().replace("loss: 1.5 .. 6.5 dB", "loss: 9 .. 12 dB")
    (frozen / "plan.yaml").write_text(plan, encoding="utf-8")
    seat = Seat(frozen)
    seat.workspace.looking.select_antenna("g1")
    text = seat.press("p")
    assert "FAIL-LOW" in text
    assert "c tries other cables" in " ".join(row[:45].strip() for row in text.splitlines())


def test_a_stated_length_is_told_to_be_measured_anew(seat: Seat, frozen: Path) -> None:
    assert "Stated length to measure anew: wg" in seat.press("p")
    assert seat.press("enter") is not None
    assert seat.sentence.endswith("; measure wg anew")
    stated = (frozen / "plan.yaml").read_text()
    routed = stated.replace("length: 150 in", "via: []")
    assert routed != stated
    (frozen / "plan.yaml").write_text(routed, encoding="utf-8")
    seat = Seat(frozen)
    seat.workspace.looking.select_antenna("g1")
    assert "anew" not in seat.press("p")


def test_a_long_search_is_told_and_can_be_stopped(
    seat: Seat, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr(proposing, "AT_ONCE_S", 0.0)
    before = seat.workspace.session.plan
    seat.workspace.press("p")
    frame = compose(seat.workspace, *seat.size).text()
    assert seat.workspace.mode is Mode.SEARCHING
    assert "Searching the top for places of g1." in frame
    assert "esc stop" in frame.splitlines()[-1]
    seat.workspace.press("m")
    seat.workspace.press("escape")
    assert seat.workspace.mode is Mode.LOOKING
    assert seat.workspace.session.plan is before
    assert "Proposed" in seat.press("p")


def test_a_search_stopped_in_a_move_leaves_the_move_going_on(
    seat: Seat, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr(proposing, "AT_ONCE_S", 0.0)
    seat.press("m", "right")
    seat.workspace.press("]")
    seat.workspace.press("escape")
    assert seat.workspace.mode is Mode.MOVING


def test_a_search_that_was_cut_off_begins_again(
    seat: Seat, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr(proposing, "AT_ONCE_S", 0.0)
    seat.workspace.press("p")
    seat.workspace.moving = None
    seat.press("p")
    assert len(letters(seat)) == 5


def test_places_are_looked_for_anew_once_the_plan_has_changed(seat: Seat) -> None:
    seat.press("p")
    old = letters(seat)
    seat.press("escape")
    seat.workspace.looking.select_antenna("c1")
    seat.press("m", *["shift+left"] * 4, "enter")
    while seat.workspace.mode is Mode.MOVING:
        seat.press("enter")
    seat.workspace.looking.select_antenna("g1")
    seat.press("p")
    assert letters(seat) != old


spots = st.tuples(st.integers(24, 220), st.integers(-6, 6))


@given(st.lists(spots, min_size=1, max_size=5), st.lists(spots, min_size=6, max_size=6))
@settings(max_examples=60, deadline=None)
def test_no_name_covers_a_letter(
    proposed: list[tuple[int, int]], antennas: list[tuple[int, int]]
) -> None:
    plan, assessment = drawn_plan(), drawn_assessment()
    stage = fit_stage(plan.airframe, views_in(SizeClass.MEDIUM), Paper(28, 75, FULL))
    scene = backdrop(plan, sample_rulebook().zone_kinds, stage)
    moved = [
        replace(one, point_m=(*inch(fs, bl), one.point_m[2]))
        for one, (fs, bl) in zip(assessment.antennas, antennas, strict=False)
    ]
    points = tuple((*inch(fs, bl), inch(70)) for fs, bl in proposed)
    focus = Focus("gnss1", "gnss1", ring=True, proposed=points)
    there = replace(assessment, antennas=(*moved, *assessment.antennas[len(moved) :]))
    drawing = draw(there, focus, scene)
    rows = drawing.picture.text().splitlines()
    view = drawing.stage.views[0]
    signs = {view.cell_of(antenna.point_m) for antenna in there.antennas}
    for letter, point in reversed(list(zip(ascii_uppercase, points, strict=False))):
        row, column = view.cell_of(point)
        if (row, column) in signs or not view.area.holds(row, column):
            continue
        first = next(i for i, other in enumerate(points) if view.cell_of(other) == (row, column))
        assert rows[row][column] == ascii_uppercase[first], letter
        assert not drawing.antennas.get((row, column))


def test_a_place_tells_how_many_advices_it_does_not_follow() -> None:
    seat = Seat(DEMO, (200, 60))
    seat.workspace.looking.select_antenna("gnss1")
    text = seat.press("p")
    best = seat.workspace.proposing.proposals[0]
    broken = [
        one.rule
        for one in best.assessment.findings
        if one.verdict is Verdict.ADVICE and "gnss1" in one.objects
    ]
    assert "RF206" in broken
    assert f"PASS {FULL.verdict('ADVICE')} {len(broken)} " in text
    assert "advices that a place does not follow" in text


def test_places_that_follow_every_advice_tell_of_none(seat: Seat) -> None:
    text = seat.press("p")
    assert "does not follow" not in text
    assert re.search(r"FS +BL +verdict +loss +room +\[in\] to", text)
