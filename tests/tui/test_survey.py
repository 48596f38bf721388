# SPDX-License-Identifier: Apache-2.0
"""What was read on the aircraft is entered in the order of the survey form, and is undone alone."""

from __future__ import annotations

from pathlib import Path

import pytest
from demo_plans import FOLDER
from workspaces import Seat

from rfplan.model.plan import State
from rfplan.tui.actions import ScreenId
from rfplan.tui.overlays.survey import ALL_ENTERED, SurveyForm


def at_the_form(folder: Path) -> Seat:
    seat = Seat(folder, (100, 40))
    seat.press("t", "t", ScreenId.SHEET.key)
    seat.workspace.issuing.choose("survey")
    assert seat.workspace.session.plan.state is State.FOUND
    return seat


def form(seat: Seat) -> SurveyForm:
    overlay = seat.workspace.overlay
    assert isinstance(overlay, SurveyForm)
    return overlay


def retype(seat: Seat, text: str) -> None:
    """Type in place of what a field proposes."""
    seat.press("ctrl+u")
    seat.type(text)


def test_everything_is_asked_for_in_the_order_of_the_form() -> None:
    seat = at_the_form(FOLDER / "twin")
    sheet = seat.workspace.issuing.sheet("survey")
    walk, cables = (
        next(one for one in sheet.tables if one.key == key) for key in ("walk", "cables")
    )
    printed = [row[1].text for row in walk.rows if row[0].text == "antenna"]
    printed += [row[0].text for row in cables.rows]
    seat.press("a")
    asked = []
    for _ in printed:
        asked.append(form(seat).id)
        seat.press("enter")
    assert asked == printed
    assert seat.workspace.overlay is None
    assert ALL_ENTERED in seat.frame.text()
    assert seat.workspace.session.unsaved == 0


def test_a_place_as_read_moves_the_antenna_in_the_state_found(frozen: Path) -> None:
    seat = at_the_form(frozen)
    before = seat.workspace.session.plan
    seat.press("a")
    antenna = form(seat).id
    retype(seat, "84 R1 in")
    seat.press("enter")
    plan = seat.workspace.session.plan
    assert plan.installation.antennas[antenna].at.fs_m == pytest.approx(84 * 0.0254)
    assert form(seat).index == 1
    seat.press("escape", "u")
    assert seat.workspace.session.plan == before


def test_type_and_length_of_a_cable_are_entered_and_what_is_no_cable_is_refused(
    frozen: Path,
) -> None:
    seat = at_the_form(frozen)
    seat.press("a")
    while form(seat).kind == "antenna":
        seat.press("pagedown")
    cable = form(seat).id
    retype(seat, "no_such_cable")
    assert "the catalogue has no cable 'no_such_cable'" in seat.frame.text()
    seat.press("enter")
    assert form(seat).id == cable
    retype(seat, "rg_58c_u")
    seat.press("tab")
    retype(seat, "101.5")
    seat.press("enter")
    read = seat.workspace.session.plan.installation.cables[cable]
    assert read.type == "rg_58c_u"
    assert read.length_m == pytest.approx(101.5 * 0.0254)


def test_pages_go_back_and_forth_without_writing(frozen: Path) -> None:
    seat = at_the_form(frozen)
    seat.press("a", "pagedown")
    assert form(seat).index == 1
    seat.press("pageup", "pageup")
    assert form(seat).index == 0
    assert seat.workspace.session.unsaved == 0


def test_on_another_sheet_it_says_where_readings_are_entered(frozen: Path) -> None:
    seat = Seat(frozen, (100, 40))
    seat.press(ScreenId.SHEET.key, "a")
    assert seat.workspace.overlay is None
    assert "choose that sheet first" in seat.frame.text()
