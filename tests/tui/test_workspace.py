# SPDX-License-Identifier: Apache-2.0
from __future__ import annotations

from pathlib import Path

import pytest
from demo_plans import FOLDER
from workspaces import Seat, frozen_folder

from rfplan.model.findings import Verdict
from rfplan.reports.loss_line import governing
from rfplan.rules.acceptances import binding_of
from rfplan.tui.actions import ACTIONS, Mode, ScreenId, actions_for
from rfplan.tui.composing import DRAWING
from rfplan.tui.layout import ViewKind
from rfplan.tui.overlays.choice import ChoiceOverlay
from rfplan.tui.overlays.form import FormOverlay
from rfplan.tui.overlays.question import QuestionOverlay
from rfplan.tui.runs import text_of
from rfplan.tui.tokens import DARK, LIGHT

TWIN = FOLDER / "twin"

FAILING = "140 L4"
"""A place of g1 that is too near to c1."""


@pytest.fixture
def seat(frozen: Path) -> Seat:
    return Seat(frozen)


def put_g1(seat: Seat, at: str) -> None:
    seat.workspace.looking.select_antenna("g1")
    seat.press("g", "ctrl+u")
    seat.type(at)
    seat.press("enter", "enter")


def test_opening_selects_the_worst_path_and_counts_as_the_check_does(frozen: Path) -> None:
    seat = Seat(frozen)
    put_g1(seat, FAILING)
    seat.press("ctrl+s")
    again = Seat(frozen)
    paths = again.workspace.session.assessment.paths
    chosen = again.workspace.session.selection.path
    assert next(path for path in paths if path.id == chosen).overall is Verdict.FAIL
    failed = sum(path.overall is Verdict.FAIL for path in paths)
    assert f" {failed} FAIL" in again.top


def test_n_goes_through_the_findings_and_says_each_in_words(seat: Seat) -> None:
    put_g1(seat, FAILING)
    seat.press("n")
    assert "RF501 spacing: " in seat.sentence
    assert seat.workspace.session.selection.antenna in ("g1", "c1")
    first = seat.sentence
    seat.press("n")
    assert seat.sentence != first
    seat.press("N")
    assert seat.sentence == first
    seat.press("escape")
    assert "RF501" not in seat.sentence


def test_n_goes_to_a_path_that_fails_its_window_before_any_finding() -> None:
    seat = Seat(TWIN, (120, 40))
    seat.workspace.looking.select_antenna("com1")
    assert "Findings 0, 1 path fails, advice" in seat.draw().text()
    seat.press("n")
    assert seat.workspace.session.selection.path == "dme"
    assert "FAIL-HIGH dme  loss FAIL-HIGH 3.32 .. 6.86 > 5.00 dB" in seat.sentence
    seat.press("3")
    assert "FAIL-HIGH dme  loss FAIL-HIGH" in seat.sentence
    seat.press("w")
    assert "only a FAIL of a rule" in seat.sentence
    seat.press("n")
    assert "ADVICE" in seat.sentence
    seat.press("N")
    assert "FAIL-HIGH dme" in seat.sentence
    seat.press("1", "escape", "j")
    assert seat.workspace.session.selection.path == "elt"


def test_up_and_down_choose_paths_and_their_antennas(seat: Seat) -> None:
    seat.press("home")
    assert seat.workspace.session.selection.path == "com"
    seat.press("j")
    assert seat.workspace.session.selection.path == "gnss"
    assert seat.workspace.session.selection.antenna == "g1"
    seat.press("down")
    assert seat.workspace.session.selection.path == "gnss"


def test_tab_goes_round_the_panes_and_the_cursor_with_it(seat: Seat) -> None:
    panes = list(seat.workspace.placed)
    seen = []
    for _ in panes:
        seen.append((seat.workspace.looking.focus, seat.frame.cursor))
        seat.press("tab")
    assert [pane for pane, _ in seen] == panes
    assert len({cursor for _, cursor in seen}) == len(panes)
    seat.press("shift+tab")
    assert seat.workspace.looking.focus == panes[-1]


def test_in_the_drawing_arrows_go_along_the_hull(seat: Seat) -> None:
    seat.press("tab", "left", "left", "left")
    assert seat.workspace.looking.focus == DRAWING
    assert seat.workspace.session.selection.antenna == "g1"
    seat.press("right")
    assert seat.workspace.session.selection.antenna == "c2"


def test_another_cable_is_chosen_with_its_live_verdict(seat: Seat) -> None:
    seat.workspace.looking.select_path("com")
    text = seat.press("c")
    assert "rg_142b_u" in text
    seat.type("rg_393")
    before = governing(seat.workspace.assessment.paths[0]).judged_db[1]
    seat.press("enter")
    after = governing(seat.workspace.assessment.paths[0]).judged_db[1]
    assert seat.workspace.session.plan.installation.cables["wc"].type == "rg_393_u"
    assert before is not None
    assert after is not None
    assert after < before


def test_the_comparison_tells_the_difference_that_applying_makes(seat: Seat) -> None:
    seat.workspace.looking.select_path("com")
    text = seat.press("2", "down")
    line = next(row for row in text.splitlines() if "low_loss_11mm" in row)
    loss = line.split()[line.split().index("..") + 1]
    seat.press("a")
    assert seat.workspace.session.plan.installation.cables["wc"].type == "low_loss_11mm"
    com = next(path for path in seat.workspace.assessment.paths if path.id == "com")
    assert f"{governing(com).judged_db[1]:.2f}" == loss


def test_a_cable_is_not_applied_over_itself(seat: Seat) -> None:
    seat.press("2", "a")
    assert "already" in seat.sentence
    assert seat.workspace.session.unsaved == 0


def test_a_pinned_cable_stands_right_below_the_present_one(seat: Seat) -> None:
    seat.workspace.looking.select_path("com")
    rows = seat.press("2", "end", " ", "home").splitlines()
    at = next(i for i, row in enumerate(rows) if "rg_58c_u now" in row)
    assert "* " in rows[at + 1]


def test_ends_are_typed_and_unknown_ones_refused(seat: Seat) -> None:
    seat.workspace.looking.select_path("com")
    seat.press("e", "ctrl+u")
    text = seat.type("nix")
    assert "no plug 'nix'" in text
    seat.press("ctrl+u")
    seat.type("tnc")
    seat.press("enter", "enter")
    assert seat.workspace.session.plan.installation.cables["wc"].plugs == ("tnc", "bnc")


def test_a_way_is_laid_by_its_nodes(seat: Seat) -> None:
    seat.workspace.looking.select_path("gnss")
    seat.press("l")
    text = seat.type("nowhere")
    assert "no route node nowhere" in text
    seat.press("ctrl+u")
    seat.type("aft")
    seat.press("enter", "enter")
    assert seat.workspace.session.plan.installation.cables["wg"].via == ("aft",)


def sign(seat: Seat, reason: str, name: str = "K. Lind", check: str = "") -> str:
    failing = [one for one in seat.workspace.assessment.findings if one.verdict is Verdict.FAIL]
    seat.workspace.looking.select_finding(failing[0].id)
    seat.press("w")
    seat.type(reason)
    seat.press("tab")
    seat.type("data sheet D-1")
    seat.press("tab")
    seat.type(name)
    seat.press("tab", "tab")
    seat.type(check)
    return seat.press("ctrl+s")


def test_a_waiver_needs_twenty_characters_and_a_name(seat: Seat) -> None:
    put_g1(seat, FAILING)
    assert "19 characters" in sign(seat, "x" * 19)
    seat.press("escape")
    assert "name of who signs" in sign(seat, "x" * 20, " ")
    seat.press("escape")
    assert not seat.workspace.session.plan.waivers


def test_a_waived_path_never_counts_as_pass(seat: Seat) -> None:
    put_g1(seat, FAILING)
    passes = [path.overall for path in seat.workspace.assessment.paths].count(Verdict.PASS)
    sign(seat, "watched on every flight by two people", check="key com1, watch gnss1")
    words = [path.overall for path in seat.workspace.assessment.paths]
    assert Verdict.WAIVED in words
    assert words.count(Verdict.PASS) <= passes
    waiver = seat.workspace.session.plan.waivers["v1"]
    assert (waiver.who, waiver.approved_data) == ("K. Lind", "data sheet D-1")
    assert (waiver.role, waiver.check) == (None, "key com1, watch gnss1")
    assert waiver.accepted is not None
    assert waiver.accepted.need == "36.0 in"
    assert "WAIVED" in seat.top


def test_a_waiver_reopens_where_it_gets_worse(seat: Seat) -> None:
    put_g1(seat, FAILING)
    sign(seat, "watched on every flight by two people")
    put_g1(seat, "150 L4")
    assert "FAIL" in seat.top


def test_a_waiver_says_what_it_covers_where_it_reopened(frozen: Path) -> None:
    seat = Seat(frozen, (140, 40))
    put_g1(seat, FAILING)
    sign(seat, "watched on every flight by two people")
    bound = seat.workspace.session.plan.waivers["v1"].bound
    assert bound is not None and len(bound) == 8
    put_g1(seat, "150 L4")
    seat.press("n")
    assert "waiver v1 covers 20.4 in, needed 36.0 in" in seat.sentence


def test_an_open_point_is_accepted_by_name_and_bound_to_its_value(seat: Seat) -> None:
    seat.workspace.looking.select_finding("bnc.loss")
    seat.draw()
    assert seat.sentence.startswith("to confirm: bnc: loss rests on")
    seat.press("w")
    assert "needs the name" in seat.press("ctrl+s")
    seat.type("K. Lind")
    seat.press("tab")
    seat.type("measure the line")
    seat.press("ctrl+s")
    accepted = seat.workspace.session.plan.accepted["bnc.loss"]
    assert accepted.check == "measure the line"
    points = seat.workspace.session.assessment.open_points
    assert accepted.bound == binding_of(next(one for one in points if one.id == "bnc.loss"))
    assert seat.sentence == "bnc.loss accepted by K. Lind"
    seat.press("u")
    assert not seat.workspace.session.plan.accepted


def test_what_is_refused_is_told(seat: Seat) -> None:
    seat.press("u")
    assert seat.sentence == "Nothing to undo."
    seat.press("w")
    assert "Nothing to waive" in seat.sentence


@pytest.mark.parametrize("screen", ScreenId)
def test_every_command_is_in_the_palette_with_its_label(seat: Seat, screen: ScreenId) -> None:
    seat.workspace.looking.go_to(screen)
    seat.press(":")
    palette = seat.workspace.overlay
    assert isinstance(palette, ChoiceOverlay)
    shown = [text_of(entry.row) for entry in palette.shown]
    actions = list(actions_for(screen, Mode.LOOKING))
    assert len(shown) == len(actions)
    for action, line in zip(actions, shown, strict=True):
        assert line.startswith(action.label)


def test_the_palette_does_what_the_key_does(seat: Seat) -> None:
    seat.press(":")
    seat.type("Changes")
    seat.press("enter")
    assert seat.workspace.screen is ScreenId.CHANGES


def test_a_refused_command_stays_in_the_palette_with_its_reason(seat: Seat) -> None:
    seat.press("ctrl+p")
    seat.type("redo")
    assert "Nothing to redo." in seat.press("enter")


@pytest.mark.parametrize("mode", Mode)
def test_no_key_of_any_screen_ends_in_a_fault(seat: Seat, mode: Mode) -> None:
    for action in ACTIONS:
        for key in action.keys if mode in action.modes else ():
            seat.workspace.overlay = seat.workspace.moving = None
            seat.workspace.looking.go_to(action.screens[0])
            text = seat.press(*(["m"] if mode is Mode.MOVING else []), key)
            assert "Airframe" in text.splitlines()[0], key


def test_find_goes_to_what_is_found(seat: Seat) -> None:
    seat.press("/")
    seat.type("antenna g1")
    seat.press("enter")
    assert seat.workspace.session.selection.antenna == "g1"


def test_the_read_out_is_what_the_check_prints(seat: Seat) -> None:
    text = seat.press("r")
    assert "verdict   NEAR" in text
    assert "loss in its window" in seat.workspace.showing.plain_text()


def test_copying_gives_the_pane_as_text(seat: Seat) -> None:
    seat.press("y")
    assert "copied.txt" in seat.sentence
    assert seat.desk.copied[0].startswith("Paths")
    assert "NEAR" in seat.desk.copied[0]


def test_light_follows_dark(seat: Seat) -> None:
    seat.press("T")
    assert seat.workspace.look.theme is LIGHT
    seat.press("T")
    assert seat.workspace.look.theme is DARK


def test_views_follow_each_other_and_the_findings_are_among_them_when_narrow(seat: Seat) -> None:
    shown = []
    for _ in range(4):
        text = seat.press("v")
        shown.append((seat.workspace.single, "Findings" in text))
    side, section = ViewKind.SIDE, ViewKind.SECTION
    assert shown[:2] == [(side, False), (section, False)]
    assert [findings for _, findings in shown] == [False, False, True, False]


def test_zoom_comes_back_to_the_whole_aircraft(seat: Seat) -> None:
    before = seat.frame.text()
    assert seat.press("+", "+") != before
    assert seat.press("0") == before


def test_the_states_of_the_plan_are_looked_at_in_turn(seat: Seat) -> None:
    assert "Paths  as built" in seat.press("t")
    assert "Paths  as found" in seat.press("t")
    assert seat.workspace.session.unsaved == 0


def test_a_click_on_a_tab_a_row_and_a_key_is_as_good_as_the_key(seat: Seat) -> None:
    rows = seat.frame.text().splitlines()
    row = next(i for i, text in enumerate(rows) if " gnss " in text[:12])
    seat.workspace.click(5, row)
    assert seat.workspace.session.selection.path == "gnss"
    seat.workspace.click(rows[0].index(f"{ScreenId.CHANGES.key} Changes") + 2, 0)
    assert seat.workspace.screen is ScreenId.CHANGES
    seat.draw()
    keys = seat.frame.text().splitlines()[-1]
    seat.workspace.click(keys.index("? keys"), 23)
    assert seat.workspace.overlay is not None


@pytest.mark.parametrize("key", ["r", "?"])
def test_a_screen_is_shown_past_what_only_tells(seat: Seat, key: str) -> None:
    seat.press(key, "2")
    assert (seat.workspace.overlay, seat.workspace.screen) == (None, ScreenId.PATH)
    seat.press(key)
    seat.workspace.click(seat.top.index("5 Sheet"), 0)
    assert (seat.workspace.overlay, seat.workspace.screen) == (None, ScreenId.SHEET)


def test_what_is_asked_has_to_be_ended_before_another_screen_is_shown(seat: Seat) -> None:
    seat.press("m", "right", "enter")
    seat.press("q", "2")
    assert isinstance(seat.workspace.overlay, QuestionOverlay)
    assert seat.sentence == "esc closes this first; then 2 shows Path."
    seat.press("escape")
    assert seat.workspace.screen is ScreenId.AIRFRAME
    assert "esc closes" not in seat.sentence
    assert "2 Path" in seat.press("x", "2") and "then 2 shows Path" in seat.sentence


@pytest.mark.parametrize("key", ["g", ":", "/"])
def test_a_digit_is_typed_where_text_is_and_a_tab_says_how_to_go_on(seat: Seat, key: str) -> None:
    seat.press(key, "2")
    overlay = seat.workspace.overlay
    assert isinstance(overlay, FormOverlay | ChoiceOverlay) and overlay.types
    typed = overlay.field if isinstance(overlay, ChoiceOverlay) else overlay.fields[0].field
    assert typed.text == "2"
    seat.workspace.click(seat.top.index("3 Coupling"), 0)
    seat.draw()
    assert seat.workspace.overlay is overlay
    assert seat.sentence.startswith("esc closes this first; then 3 shows Coupling.")


def test_the_wheel_scrolls_lists_and_zooms_the_drawing(seat: Seat) -> None:
    seat.press("home")
    row = (
        seat.frame.text()
        .splitlines()
        .index(next(text for text in seat.frame.text().splitlines() if "Paths" in text))
    )
    seat.workspace.wheel(5, row + 1, 1)
    assert seat.workspace.session.selection.path == "gnss"
    before = seat.draw().text()
    seat.workspace.wheel(40, 5, -1)
    assert seat.draw().text() != before


def test_text_of_a_file_is_shown_and_never_taken_for_markup(frozen: Path) -> None:
    plan = frozen / "plan.yaml"
    text = plan.read_text().replace("title: navigator\n", "title: '[red]a[/red] \\x1b]0;x'\n")
    plan.write_text(text)
    seat = Seat(frozen, (120, 40))
    assert "[red]a[/red]" in seat.press("2")
    assert "\x1b" not in seat.frame.text()


@pytest.mark.parametrize(
    ("presses", "title"),
    [
        ((), "Found against design"),
        (("t",), "Design against built"),
        (("t", "t"), "Found against design"),
    ],
)
def test_the_changes_screen_holds_states_against_each_other_that_differ(
    tmp_path: Path, presses: tuple[str, ...], title: str
) -> None:
    text = Seat(frozen_folder(tmp_path), (120, 40)).press(*presses, "6")
    assert title in text
