# SPDX-License-Identifier: Apache-2.0
from __future__ import annotations

from pathlib import Path

import pytest
from workspaces import Seat, look_of

from rfplan.assess import assess
from rfplan.edits import differences
from rfplan.model.plan import State
from rfplan.tui.actions import Mode
from rfplan.tui.composing import DRAWING
from rfplan.units import LENGTH, from_unit

INCH_M = 0.0254


@pytest.fixture
def seat(frozen: Path) -> Seat:
    seat = Seat(frozen)
    seat.workspace.looking.select_antenna("g1")
    seat.draw()
    return seat


def place(seat: Seat, antenna: str = "g1") -> tuple[float, float]:
    at = seat.workspace.session.plan.installation.antennas[antenna].at
    return round(at.fs_m / INCH_M, 3), round(at.bl_m / INCH_M, 3)


def place_anyway(seat: Seat) -> None:
    while seat.workspace.mode is Mode.MOVING:
        seat.press("enter")


def test_arrows_and_enter_are_one_step_to_undo(seat: Seat) -> None:
    before = seat.workspace.session.plan
    seat.press("m", "s", "s", *["right"] * 10, "enter")
    assert place(seat) == (119.0, -4.0)
    assert seat.workspace.session.unsaved == 1
    seat.press("u")
    assert differences(before, seat.workspace.session.plan) == ()
    assert "unsaved" not in seat.top
    seat.press("U")
    assert place(seat) == (119.0, -4.0)


def test_esc_leaves_plan_journal_and_unsaved_mark_as_they_were(seat: Seat, tmp_path: Path) -> None:
    before = seat.workspace.session.plan
    seat.press("m", "right", "down", "escape")
    assert seat.workspace.session.plan is before
    assert not list((tmp_path / "state").rglob("*.jsonl"))
    assert seat.workspace.mode is Mode.LOOKING


def test_q_puts_back_and_never_quits_while_moving(seat: Seat) -> None:
    seat.press("m", "right", "q")
    assert seat.desk.left == 0
    assert place(seat) == (114.0, -4.0)


def test_the_step_goes_round_three_sizes_and_shift_makes_five(seat: Seat) -> None:
    assert "step 2 in" in seat.press("m")
    assert "step 6 in" in seat.press("s")
    assert "step 0.5 in" in seat.press("s")
    seat.press("shift+right", "enter")
    assert place(seat) == (116.5, -4.0)


def test_up_is_right_of_the_aircraft_as_seen_from_above(seat: Seat) -> None:
    seat.press("m", "up", "enter")
    assert place(seat) == (114.0, -2.0)


def test_every_step_shows_what_a_fresh_check_says(seat: Seat) -> None:
    file = seat.workspace.session.file
    seat.press("m")
    for _ in range(6):
        seat.press("right")
        moving = seat.workspace.moving
        assert moving is not None
        fresh = assess(moving.edit.apply(seat.workspace.session.plan), file.catalog, file.rulebook)
        assert seat.workspace.assessment == fresh
        path = next(path for path in fresh.paths if path.id == "gnss")
        assert str(path.overall) in seat.top
        assert seat.sentence.split()[1] == str(path.overall)


def test_a_required_distance_that_breaks_asks_for_a_second_enter(seat: Seat) -> None:
    text = seat.press("m", *["right"] * 5, "enter")
    assert "unsaved" in text.splitlines()[0]
    seat.press("m", *["right"] * 3, "enter")
    assert ": FAIL g1 is " in seat.sentence
    assert "36.0 in" in seat.sentence
    assert "enter again" in seat.sentence
    assert place(seat) == (124.0, -4.0)
    seat.press("enter")
    assert place(seat) == (130.0, -4.0)


def test_any_other_key_takes_the_question_back(seat: Seat) -> None:
    seat.press("m", *["right"] * 8, "enter", "2", "1", "enter")
    assert "enter again" in seat.sentence
    assert place(seat) == (114.0, -4.0)


def test_who_moves_an_antenna_as_found_is_told_so(seat: Seat) -> None:
    seat.press("m")
    assert "what was found" not in seat.sentence
    seat.press("q", "t", "t", "m")
    assert seat.workspace.session.plan.state is State.FOUND
    assert "This changes what was found" in seat.sentence


def test_a_zone_that_forbids_asks_and_is_named(seat: Seat) -> None:
    seat.press("m", *["left"] * 8, "enter")
    assert "hatch" in seat.sentence
    assert seat.workspace.mode is Mode.MOVING


def test_a_step_after_the_question_takes_it_back(seat: Seat) -> None:
    seat.press("m", *["left"] * 8, "enter", "left", "enter")
    assert seat.workspace.mode is Mode.MOVING


def test_off_the_skin_is_refused_with_the_limit(seat: Seat) -> None:
    seat.press("m", *["down"] * 12)
    assert "off the skin" in seat.sentence
    assert "from the centre" in seat.sentence
    seat.press("enter")
    assert place(seat)[1] <= 17.0


def test_off_the_nose_is_refused_too(seat: Seat) -> None:
    seat.press("m", "s", *["shift+left"] * 5)
    assert "off the skin" in seat.sentence


def test_typing_gives_the_verdict_before_enter(seat: Seat) -> None:
    seat.press("g", "ctrl+u")
    text = seat.type("140 L4")
    assert "FAIL gnss" in text
    assert place(seat) == (114.0, -4.0)
    seat.press("enter", "enter")
    assert place(seat) == (140.0, -4.0)


def test_the_first_character_typed_replaces_the_place_and_an_arrow_keeps_it(seat: Seat) -> None:
    seat.press("g")
    seat.type("118 L6")
    seat.press("enter")
    assert place(seat) == (118.0, -6.0)
    seat.press("g", "home", "delete", "delete", "delete")
    seat.type("120")
    seat.press("enter")
    assert place(seat) == (120.0, -6.0)


def test_a_place_that_fails_says_first_that_enter_again_places_it(seat: Seat) -> None:
    seat.press("g")
    seat.type("140 L4")
    seat.press("enter")
    assert seat.sentence.startswith("enter again places it: FAIL ")
    seat.press("backspace")
    assert "enter again" not in seat.sentence
    assert place(seat) == (114.0, -4.0)


@pytest.mark.parametrize("typed", ["118 l6", "118 L6 in", "2997.2 L152.4 mm"])
def test_the_same_text_as_in_the_file_places_without_a_unit_in_inches(
    seat: Seat, typed: str
) -> None:
    seat.press("g", "ctrl+u")
    seat.type(typed)
    seat.press("enter")
    assert place(seat) == (118.0, -6.0)


def test_what_is_typed_wrong_is_told_and_not_placed(seat: Seat) -> None:
    seat.press("g", "ctrl+u")
    text = seat.type("118 left")
    assert "place" in text
    seat.press("enter")
    assert seat.workspace.overlay is not None
    seat.press("escape")
    assert place(seat) == (114.0, -4.0)
    assert seat.workspace.mode is Mode.LOOKING


def test_typing_arrows_and_clicking_come_to_the_same_place(frozen: Path) -> None:
    seats = [Seat(frozen, (200, 60)) for _ in range(3)]
    for seat in seats:
        seat.workspace.looking.select_antenna("g1")
    seats[0].press("m", *["right"] * 3, "enter")
    seats[1].press("g", "ctrl+u")
    seats[1].type("120 L4")
    seats[1].press("enter")
    seats[2].press("m")
    area = seats[2].workspace.placed[DRAWING].area
    drawing = seats[2].workspace.sketch.drawing
    assert drawing is not None
    row, column = drawing.stage.views[0].cell_of((from_unit(120, LENGTH, "in"), -4 * INCH_M, 0.0))
    seats[2].workspace.click(area.column + column, area.row + row)
    seats[2].press("enter")
    places = [place(seat) for seat in seats]
    assert places[0] == places[1] == (120.0, -4.0)
    cell_in = 4.0 / drawing.stage.camera.dots_per_m / INCH_M
    assert places[2][0] == pytest.approx(120.0, abs=cell_in)
    assert places[2][1] == pytest.approx(-4.0, abs=cell_in)
    verdicts = {str(seat.workspace.assessment.verdict) for seat in seats}
    assert len(verdicts) == 1


def test_dragging_takes_the_antenna_along(frozen: Path) -> None:
    seat = Seat(frozen, (200, 60))
    seat.workspace.looking.select_antenna("g1")
    seat.press("m")
    area = seat.workspace.placed[DRAWING].area
    start = seat.frame.cursor
    seat.workspace.drag(start[0] + 6, start[1])
    seat.draw()
    assert seat.frame.cursor[0] == pytest.approx(start[0] + 6, abs=1)
    assert area.holds(*reversed(seat.frame.cursor))
    seat.press("escape")
    assert place(seat) == (114.0, -4.0)


def test_another_side_is_chosen_from_a_list_with_verdicts(seat: Seat) -> None:
    text = seat.press("S")
    assert "belly" in text
    assert "which side" in text
    seat.type("belly")
    seat.press("enter")
    place_anyway(seat)
    assert seat.workspace.session.plan.installation.antennas["g1"].on == "belly"


def test_an_antenna_inside_begins_on_the_skin(seat: Seat) -> None:
    seat.press("S")
    seat.type("cabin")
    seat.press("enter")
    place_anyway(seat)
    assert seat.workspace.session.plan.installation.antennas["g1"].on == "cabin"
    seat.press("m")
    assert seat.workspace.moving is not None
    assert seat.workspace.moving.on == "top"


def test_the_ring_of_the_tightest_neighbour_is_drawn_while_moving(seat: Seat) -> None:
    assert "in from" not in "".join(seat.frame.text().splitlines()[1:11])
    assert "36 in from c1" in seat.press("m")


def test_screens_wait_until_the_antenna_is_placed(seat: Seat) -> None:
    seat.press("m", "3")
    assert "esc puts it back" in seat.sentence


def test_lengths_may_be_in_millimetres(frozen: Path) -> None:
    seat = Seat(frozen, look=look_of(unit="mm"))
    assert "step 50 mm" in seat.press("m")
