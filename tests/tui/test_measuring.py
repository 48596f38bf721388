# SPDX-License-Identifier: Apache-2.0
"""Readings stand beside predictions, are recorded, undone and saved, and never change a number."""

from __future__ import annotations

import re
from dataclasses import replace
from datetime import date
from pathlib import Path

import numpy as np
import pytest
from swept_lines import OPEN_OHM, SHORT_OHM, one_port, touchstone, two_port
from workspaces import PLAN, Seat

from rfplan.edits import EditError, SetCable
from rfplan.model.assessment import Assessment
from rfplan.model.plan import Measurement, State
from rfplan.physics.two_port import LineSection, LumpedLoss, chain_abcd
from rfplan.tui.actions import ScreenId
from rfplan.tui.overlays.reading_form import ReadingForm
from rfplan.tui.overlays.sweep import SweepForm, SweepOverlay
from rfplan.tui.present.readings import match_words
from rfplan.tui.typed_quantity import typed_quantity
from rfplan.units import FREQUENCY, LOSS, TEMPERATURE

MEASURED = ScreenId.MEASURED.key
WITHOUT = PLAN[: PLAN.index("measurements:")]


@pytest.fixture
def seat(frozen: Path) -> Seat:
    seat = Seat(frozen)
    seat.press(MEASURED, "end")
    return seat


@pytest.fixture
def bare(frozen: Path) -> Seat:
    """A seat at the plan without readings, at the path of the GNSS antenna."""
    (frozen / "plan.yaml").write_text(WITHOUT, encoding="utf-8")
    seat = Seat(frozen)
    seat.press(MEASURED, "end")
    return seat


def built(seat: Seat) -> Assessment:
    return seat.workspace.measuring.assessment


def readings(seat: Seat) -> dict[str, Measurement]:
    return dict(seat.workspace.session.plan.measurements.items())


def row_of(text: str, path: str) -> list[str]:
    line = next(line for line in text.splitlines() if re.match(rf"[\W]*{path} ", line))
    return line.replace("►", " ").split()


def test_a_vswr_that_tells_nothing_of_the_antenna_says_why(seat: Seat) -> None:
    read = (one for path in built(seat).paths for one in path.readings)
    nothing = replace(next(read), vswr=1.4, antenna_vswr=None, loss_db=None, predicted_db=None)
    assert match_words(nothing).endswith("antenna not told: loss of the line not known")
    assert match_words(replace(nothing, loss_db=9.0)).endswith("hidden by the line")


def test_each_path_stands_with_its_reading_and_with_what_assess_says_of_it(seat: Seat) -> None:
    text = seat.frame.text()
    assert "2 of 2 paths as built" in text
    for path in built(seat).paths:
        (reading,) = path.readings
        told = row_of(text.replace("\u2212", "-"), path.id)
        assert told[1] == f"{reading.frequency_hz / 1e6:g}"
        assert told[2:5] == [
            f"{reading.predicted_db:.2f}",
            f"{reading.loss_db:.2f}",
            f"{reading.difference_db:+.2f}",
        ]
        assert told[-1] == reading.agreement


def test_a_path_without_a_reading_stands_with_its_prediction_alone(bare: Seat) -> None:
    text = bare.frame.text()
    assert "0 of 2 paths as built" in text
    assert row_of(text, "gnss")[1:] == ["1575.42", "2.81", "-", "-", "not", "measured"]
    assert bare.sentence == "gnss is not measured as built. enter records a reading."


def test_a_wide_screen_tells_by_whom_when_and_with_what(frozen: Path) -> None:
    text = Seat(frozen, (200, 60)).press(MEASURED)
    gnss = " ".join(row_of(text, "gnss"))
    assert "√ AGREES √ PASS - P. Vorn 2026-10-02 analyser 7 due 2027-03-01" in gnss


def test_the_row_under_the_cursor_is_the_selected_path_on_every_screen(seat: Seat) -> None:
    assert seat.workspace.session.selection.path == "gnss"
    seat.press("up")
    assert seat.workspace.session.selection.path == "com"
    assert "com contributions" in seat.press("2")
    seat.workspace.looking.select_path("gnss")
    seat.press(MEASURED)
    chosen = seat.workspace.measuring.chosen
    assert chosen is not None
    assert chosen.path.id == "gnss"


def test_a_reading_that_differs_says_by_how_much_and_what_to_do(seat: Seat) -> None:
    text = seat.press("home")
    assert seat.sentence.endswith(" DIFFERS com +0.84 dB, allowed 0.50 dB")
    assert "com: reading m2 is 0.84 dB from its prediction, allowed 0.50 dB" in text
    assert "look at the plug made last, then measure again" in text


def test_a_window_that_a_reading_cannot_answer_says_so_in_its_place(seat: Seat) -> None:
    told = " ".join(seat.press("home").split())
    assert "√ PASS judged by the prediction: no temperature and no uncertainty" in told
    assert "judged by the reading" in " ".join(seat.press("end").split())


def record(seat: Seat, *texts: str) -> str:
    """Open the form of the row and type into its fields, the first ones first."""
    seat.press("enter")
    for text in texts:
        seat.type(text)
        seat.press("tab")
    return seat.frame.text()


def test_a_reading_is_recorded_in_four_keystrokes_and_enter(bare: Seat) -> None:
    predictions = [path.bands for path in built(bare).paths]
    record(bare, "3.02")
    bare.press("enter")
    assert readings(bare)["m1"].loss_db == pytest.approx(3.02)
    assert bare.sentence == "gnss measured 3.02 dB at 1575.42 MHz"
    reading = readings(bare)["m1"]
    assert (reading.path, reading.state, reading.date) == ("gnss", State.BUILT, date.today())
    assert [path.bands for path in built(bare).paths] == predictions
    assert "1 of 2 paths as built" in bare.frame.text()


def test_all_that_is_known_of_a_reading_is_saved_into_the_plan_and_comments_stay(
    bare: Seat, frozen: Path
) -> None:
    record(bare, "3.02", "", "17", "0.15", "1.35", "analyser 4: bench", "J. K.")
    bare.press("ctrl+u")
    bare.type("2026-11-25")
    bare.press("enter", "ctrl+s")
    saved = (frozen / "plan.yaml").read_text("utf-8")
    bound = readings(bare)["m1"].bound
    assert saved.startswith(WITHOUT)
    assert saved[len(WITHOUT) :].splitlines() == [
        "measurements:",
        "  m1: {path: gnss, loss: 3.02 dB, at: 1575.42 MHz, vswr: 1.35, state: built,",
        '       temperature: 17 degC, uncertainty: 0.15 dB, with: "analyser 4: bench", who: J. K.,',
        f"       date: 2026-11-25, bound: {bound}}}",
    ]
    assert readings(Seat(frozen)) == readings(bare)


def test_recording_undoing_and_redoing_come_to_deep_equal_plans(bare: Seat) -> None:
    before = bare.workspace.session.plan
    record(bare, "3.02", "", "17", "0.15")
    bare.press("enter")
    after = bare.workspace.session.plan
    assert bare.workspace.session.unsaved == 1
    bare.press("u")
    assert bare.workspace.session.plan == before
    assert bare.workspace.session.unsaved == 0
    bare.press("U")
    assert bare.workspace.session.plan == after


def test_what_is_typed_is_judged_before_enter_as_assess_judges_it_after(bare: Seat) -> None:
    shown = " ".join(record(bare, "3.40", "", "17", "0.15").split())
    bare.press("enter")
    (reading,) = next(path for path in built(bare).paths if path.id == "gnss").readings
    assert reading.predicted_db is not None
    assert reading.difference_db is not None
    told = f"predicted {reading.predicted_db:.2f} dB, difference {reading.difference_db:+.2f}"
    assert f"{reading.agreement} {told} dB, allowed 0.50" in shown
    assert f"in the window √ {reading.in_window}" in shown


@pytest.mark.parametrize(
    ("typed", "words"),
    [
        (("3,O2",), "3,O2 is not a number. Example 3.02"),
        (("3 dBm",), "unit 'dBm' is not a loss unit"),
        (("3.02", "L1"), "L1 is not a number. Example 1575.42"),
        (("3.02", "0"), "a reading needs a frequency above zero"),
        (("3.02", "", "warm"), "warm is not a number. Example 17"),
        (("3.02", "", "", "-1"), "an uncertainty is never negative"),
        (
            ("3.02", "", "", "", "", "", "", "11/25"),
            "'11/25' is not a date; expected a date such as 2026-11-25",
        ),
        (("3.02", "", "", "", "0.9"), "a VSWR is never below 1"),
        (("", "", "", "", "two"), "two is not a number. Example 1.4"),
        (("3.02",), "Without temperature and uncertainty the window keeps the prediction."),
        (("3.02", "127"), "127 MHz lies in no band of gnss."),
    ],
)
def test_what_cannot_be_or_may_be_a_slip_is_told_while_typing(
    bare: Seat, typed: tuple[str, ...], words: str
) -> None:
    assert words in " ".join(record(bare, *typed).split())


def test_what_is_no_number_is_not_recorded(bare: Seat) -> None:
    record(bare, "3,O2")
    bare.press("enter")
    assert isinstance(bare.workspace.overlay, ReadingForm)
    assert readings(bare) == {}


def test_numbers_may_bring_a_unit_of_their_own() -> None:
    assert typed_quantity("1.57542 GHz", FREQUENCY, "MHz", "") == pytest.approx(1575.42e6)
    assert typed_quantity("1575.42", FREQUENCY, "MHz", "") == pytest.approx(1575.42e6)
    assert typed_quantity("59 degF", TEMPERATURE, "degC", "") == pytest.approx(15.0)
    assert typed_quantity("", LOSS, "dB", "") is None
    with pytest.raises(EditError, match=r"3,02 is not a number\. Example 3\.02"):
        typed_quantity("3,02", LOSS, "dB", "3.02")


def test_a_reading_is_replaced_by_typing_over_what_is_there(seat: Seat) -> None:
    text = record(seat, "2.75")
    assert "The day is still that of the reading before." in text
    seat.press("enter")
    assert readings(seat)["m1"].loss_db == pytest.approx(2.75)
    assert readings(seat)["m1"].with_ == "analyser 7 due 2027-03-01"
    assert len(readings(seat)) == 2


def test_another_frequency_makes_another_reading_of_the_path(seat: Seat) -> None:
    seat.press("a")
    seat.type("2.70")
    seat.press("tab")
    seat.type("1565")
    seat.press("enter")
    assert readings(seat)["m3"].at_hz == pytest.approx(1565e6)
    chosen = seat.workspace.measuring.chosen
    assert chosen is not None and chosen.reading is not None
    assert chosen.reading.id == "m3"
    assert seat.frame.text().count("gnss  ") == 2


def test_a_reading_is_taken_out_and_comes_back_with_undo(seat: Seat) -> None:
    before = seat.workspace.session.plan
    seat.press("delete")
    assert list(readings(seat)) == ["m2"]
    assert "gnss is not measured" in seat.frame.text() or "not measured" in seat.frame.text()
    seat.press("u")
    assert seat.workspace.session.plan == before
    seat.press("home", "delete", "delete")
    assert seat.sentence == "There is no reading on this row."


def test_a_later_change_of_the_path_makes_a_reading_stale(bare: Seat) -> None:
    record(bare, "2.80", "", "17", "0.15")
    bare.press("enter")
    bound = readings(bare)["m1"].bound
    bare.workspace.changing.do(SetCable("wg", "rg_142b_u"))
    text = bare.press("up", "down")
    assert row_of(text, "gnss")[-1] == "stale"
    assert "it counts for nothing" in text
    assert bare.sentence == "m1 is stale: gnss has changed since. enter measures again."
    record(bare, "", "", "", "", "", "bridge 2")
    bare.press("enter")
    assert readings(bare)["m1"].with_ == "bridge 2"
    assert readings(bare)["m1"].bound == bound
    record(bare, "2.9")
    bare.press("enter")
    assert readings(bare)["m1"].bound != bound
    assert row_of(bare.frame.text(), "gnss")[-1] == "DIFFERS"


def test_a_state_is_measured_as_it_is_looked_at_and_a_design_as_built(bare: Seat) -> None:
    assert bare.workspace.session.plan.state is State.DESIGN
    bare.press("t", "t")
    assert "0 of 2 paths as found" in bare.frame.text()
    record(bare, "2.95")
    bare.press("enter")
    assert readings(bare)["m1"].state is State.FOUND
    text = bare.press("t")
    assert "0 of 2 paths as built" in text
    assert "readings as found" in text
    assert text.count("gnss  ") == 2


def test_what_others_wrote_into_a_reading_is_escaped(frozen: Path) -> None:
    hostile = 'with: "[red]\u202e a[/red]", who'
    text = PLAN.replace("with: analyser 7 due 2027-03-01, who", hostile)
    (frozen / "plan.yaml").write_text(text, encoding="utf-8")
    for size in ((80, 24), (200, 60)):
        shown = Seat(frozen, size).press(MEASURED, "enter", "escape")
        assert "[red]\\u202e a[/red]" in shown
        assert "\u202e" not in shown


def test_no_number_of_a_reading_is_lost_on_its_way_through_the_form(seat: Seat) -> None:
    before = readings(seat)["m1"]
    seat.press("enter", "enter")
    assert seat.sentence == "Nothing changes."
    assert readings(seat)["m1"] == before


# sweeps

SWEPT_HZ = np.linspace(1.0e9, 1.8e9, 201)


@pytest.fixture
def swept(frozen: Path) -> Path:
    """Sweeps of an invented line beside the plan."""
    parts = [LumpedLoss(0.1), LineSection(0.65, 0.695, 50.0, 3.81), LumpedLoss(0.1)]
    line = chain_abcd(SWEPT_HZ, parts)
    touchstone(two_port(line, "both_ends.s2p", SWEPT_HZ), frozen)
    for name, load_ohm in (("antenna", 80.0), ("open", OPEN_OHM), ("short", SHORT_OHM)):
        touchstone(one_port(line, load_ohm, f"{name}.s1p", SWEPT_HZ), frozen)
    return frozen


LINE_DB = 0.65 * 3.81 + 0.2


def test_the_loss_of_a_sweep_becomes_a_reading(bare: Seat, swept: Path) -> None:
    assert "Disconnect the DC feed" in bare.press("i")
    bare.type("both")
    bare.press("tab")
    assert "both_ends.s2p" in bare.frame.text()
    text = bare.press("tab", "tab", "tab", "1", "7", "enter")
    assert isinstance(bare.workspace.overlay, SweepOverlay)
    assert f"enter takes {LINE_DB:.2f} dB at 1575.42 MHz as a reading." in text
    bare.press("enter")
    form = bare.workspace.overlay
    assert isinstance(form, ReadingForm)
    assert [form.text(index) for index in (0, 1, 2)] == [f"{LINE_DB:.2f}", "1575.42", "17"]
    bare.press("enter")
    assert readings(bare)["m1"].loss_db == pytest.approx(LINE_DB, abs=0.005)
    assert readings(bare)["m1"].temperature_c == 17.0


def sweep(seat: Seat, *files: str) -> str:
    seat.press("i")
    for file in files:
        seat.type(file)
        seat.press("down")
    return seat.press("enter")


def test_far_end_open_and_shorted_give_the_loss_from_one_end(bare: Seat, swept: Path) -> None:
    text = sweep(bare, "antenna.s1p", "open.s1p", "short.s1p")
    assert re.search(r"enter takes 2\.6\d dB and VSWR 1\.\d\d at 1575.42 MHz", text)


def test_a_sweep_with_the_antenna_on_has_a_vswr_to_take_and_no_loss(
    bare: Seat, swept: Path
) -> None:
    # 80 ohm reflect 3/13, which the line of 2.68 dB takes down twice: 0.2308 x 0.540 = 0.1246
    assert "No loss to take" in sweep(bare, "antenna.s1p")
    bare.press("enter", "enter")
    (reading,) = readings(bare).values()
    assert (reading.loss_db, reading.at_hz) == (None, 1575.42e6)
    assert reading.vswr == pytest.approx(1.1246 / 0.8754, abs=0.01)
    assert "VSWR 1.28 at 1575.42 MHz" in bare.sentence
    (told,) = next(path for path in built(bare).paths if path.id == "gnss").readings
    assert told.antenna_vswr == pytest.approx(1.6, abs=0.06)  # over the plan's own 2.80 dB
    assert "at the antenna, its data state 2.00, AGREES" in " ".join(bare.frame.text().split())


def test_a_sweep_that_does_not_reach_the_band_says_so(bare: Seat, swept: Path) -> None:
    bare.press("up")
    text = " ".join(sweep(bare, "both_ends.s2p").split())
    assert "No loss to take: the sweep lists 1000 to 1800 MHz; the band needs 127.4875" in text


@pytest.mark.parametrize(
    ("files", "words"),
    [
        ((), "a sweep is needed"),
        (("gone.s2p",), "gone.s2p:1:1: there is no such file in /"),
        (("both_end.s2p",), "; expected 'both_ends.s2p'"),
        (("plan.yaml",), "a sweep of one or two ports, .s1p or .s2p"),
        (("antenna.s1p", "open.s1p"), "both are needed, far end open and shorted"),
        (("broken.s2p",), "broken.s2p:2:1: "),
    ],
)
def test_what_is_no_sweep_is_refused_at_its_place(
    bare: Seat, swept: Path, files: tuple[str, ...], words: str
) -> None:
    (swept / "broken.s2p").write_text("# MHz S RI R 50\nx 1 2 3 4 5 6 7 8\n")
    assert words in " ".join(sweep(bare, *files).split())
    assert isinstance(bare.workspace.overlay, SweepForm)


def test_a_reading_taken_from_a_sweep_is_one_of_today(seat: Seat, swept: Path) -> None:
    seat.press("end")
    sweep(seat, "both_ends.s2p")
    seat.press("enter", "enter")
    before = Measurement("gnss", 2.61, at_hz=1575.42e6)
    assert readings(seat)["m1"] != replace(before)
    assert readings(seat)["m1"].date == date.today()
