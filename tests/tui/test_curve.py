# SPDX-License-Identifier: Apache-2.0
from __future__ import annotations

import re
from pathlib import Path

import pytest
from demo_plans import assessed, path_of
from hypothesis import given
from hypothesis import strategies as st
from workspaces import Seat

from rfplan.reports.cells import decibels
from rfplan.reports.study import facts_of
from rfplan.rules.loss_curve import loss_at, loss_curve, span_hz
from rfplan.tui import tuning
from rfplan.tui.actions import ScreenId
from rfplan.tui.composing import compose
from rfplan.tui.glyphs import FULL
from rfplan.tui.present.curve import round_step
from rfplan.tui.present.tags import Type
from rfplan.tui.runs import Row, text_of
from rfplan.tui.tokens import Ground, Token

DEMO = Path(__file__).resolve().parents[2] / "demo_aircraft"
MHZ = 1.0e6
TYPE = Type(FULL)


def on_path(id: str, demo: str = "amphibian", size: tuple[int, int] = (120, 40)) -> Seat:
    """Return a seat at a path of a demo aircraft."""
    seat = Seat(DEMO / demo, size)
    seat.workspace.looking.select_path(id)
    seat.press("2")
    return seat


def curve_rows(seat: Seat) -> list[Row]:
    """Return the rows of the curve without its title; the last one is in words."""
    pane = seat.workspace.placed["curve"].pane
    assert pane is not None
    return pane.items[0].rows


def words(seat: Seat) -> str:
    return text_of(curve_rows(seat)[-1])


def cells(row: Row) -> list[tuple[str, Token, Ground]]:
    return [(sign, run.token, run.ground) for run in row for sign in run.text]


def at_mhz(seat: Seat) -> float:
    return float(words(seat).split()[0])


def test_arrows_go_over_round_frequencies_and_the_words_follow() -> None:
    seat = on_path("com1")
    seat.press("left")
    first = at_mhz(seat)
    seen = []
    for _ in range(6):
        seat.press("right")
        seen.append(at_mhz(seat))
        facts = facts_of(seat.workspace.assessment)
        band = loss_at(facts, "com1", "rx", seen[-1] * MHZ)
        if "outside" not in words(seat):
            least, most = (decibels(end).text for end in band.judged_db)
            assert f"{least} .. {most} dB" in words(seat)
    steps = [round(b - a, 6) for a, b in zip([first, *seen], seen, strict=False)]
    assert len(set(steps)) == 1
    assert steps[0] in (0.1, 0.2, 0.5, 1.0)
    assert all(round(mhz / steps[0], 6).is_integer() for mhz in seen)


def test_shift_goes_from_band_edge_to_band_edge() -> None:
    seat = on_path("gnss3")
    edges = sorted(
        edge / MHZ
        for band in path_of(assessed("amphibian"), "gnss3").bands
        for edge in (band.low_hz, band.high_hz)
    )
    seat.press(*["shift+left"] * 5)
    seen = [at_mhz(seat)]
    for _ in edges[1:]:
        seat.press("shift+right")
        seen.append(at_mhz(seat))
    assert seen == pytest.approx(edges)
    assert at_mhz(seat) == pytest.approx(edges[-1])
    seat.press("shift+right")
    assert at_mhz(seat) == pytest.approx(edges[-1])


def test_the_cursor_stays_on_the_curve() -> None:
    seat = on_path("marker")
    low, high = span_hz(path_of(assessed("amphibian"), "marker").bands)
    for key, end in (("right", high), ("left", low)):
        for _ in range(150):
            seat.workspace.press(key)
        seat.draw()
        assert at_mhz(seat) == pytest.approx(end / MHZ)
        assert "outside its bands" in words(seat)


def test_without_a_choice_it_stands_where_the_margin_is_the_nearer_one() -> None:
    seat = on_path("gnss1")
    assert words(seat).startswith("1563.42 MHz  √ PASS  loses 2.49 .. ")
    assert words(seat).endswith("+0.99 dB to min")


def test_the_contributions_are_those_at_the_frequency_chosen_and_add_up() -> None:
    seat = on_path("gnss1")
    assert "1563.42 .. 1587.42 MHz" in seat.frame.text()
    text = seat.press("right")
    assert f"l1 {at_mhz(seat):g} MHz" in text
    rows = text.splitlines()
    start = next(i for i, row in enumerate(rows) if "gnss1 contributions" in row)
    losses = [
        float(row.rstrip().rsplit(" ", 1)[-1])
        for row in rows[start + 1 : start + 6]
        if " .. " in row[60:]
    ]
    judged = next(row for row in rows[start:] if "judged" in row)
    assert sum(losses) == pytest.approx(float(judged.rstrip().rsplit(" ", 1)[-1]), abs=0.02)


def test_outside_the_bands_the_contributions_stay_those_that_decide() -> None:
    seat = on_path("gnss1")
    text = seat.press(*["right"] * 40)
    assert "outside its bands" in words(seat)
    assert "1563.42 .. 1587.42 MHz" in text


def test_esc_and_another_path_let_go_of_the_frequency() -> None:
    seat = on_path("gnss1")
    start = words(seat)
    seat.press("right", "escape")
    assert words(seat) == start
    assert seat.workspace.screen is ScreenId.PATH
    seat.press("right")
    seat.workspace.looking.select_path("gnss2")
    seat.workspace.looking.select_path("gnss1")
    seat.draw()
    assert words(seat) == start
    seat.press("escape")
    assert seat.workspace.screen is ScreenId.AIRFRAME


@pytest.mark.parametrize(
    ("demo", "id"), [("amphibian", "gnss1"), ("amphibian", "gnss3"), ("twin", "dme")]
)
def test_limits_are_drawn_across_the_bands_and_nowhere_else(demo: str, id: str) -> None:
    seat = on_path(id, demo, (200, 60))
    rows = [cells(row) for row in curve_rows(seat)[:-2]]
    banded = {
        column for row in rows for column, (_, _, ground) in enumerate(row) if ground is Ground.SEL
    }
    lined = {
        column
        for row in rows
        for column, (sign, token, _) in enumerate(row)
        if token is Token.FAIL and ord(sign) >= 0x2800
    }
    assert lined
    assert lined <= banded


def test_readings_stand_at_their_frequency_and_loss() -> None:
    seat = on_path("gnss1")
    assert "+ measured" not in seat.frame.text()
    seat.press("t")
    seat.workspace.looking.select_path("gnss1")
    assert "+ measured" in seat.draw().text()
    marks = [
        (row, column)
        for row, text in enumerate(map(text_of, curve_rows(seat)[:-2]))
        for column, sign in enumerate(text)
        if sign == "+"
    ]
    assert len(marks) == 1
    row, _ = marks[0]
    most = next(i for i, r in enumerate(curve_rows(seat)) if "max" in text_of(r))
    least = next(i for i, r in enumerate(curve_rows(seat)) if "min" in text_of(r))
    assert most < row < least


def test_a_loss_that_is_not_known_is_named_and_only_its_bound_drawn() -> None:
    seat = on_path("uat")
    seat.press("t", "t")
    seat.workspace.looking.select_path("uat")
    seat.draw()
    assert "w42.type" in words(seat)
    assert "INCOMPLETE" in words(seat)
    inks = {token for row in curve_rows(seat)[:-2] for sign, token, _ in cells(row) if sign > "⠀"}
    assert Token.LINE in inks


def test_the_curve_is_worked_out_once_while_the_frequency_moves(
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    seat = on_path("gnss1")
    drawn = []
    own = tuning.loss_curve
    monkeypatch.setattr(tuning, "loss_curve", lambda *a: drawn.append(len(a[2])) or own(*a))
    seat.press(*["right"] * 5, "shift+left")
    assert set(drawn) == {1}
    seat.press("down", "a")
    assert drawn.count(tuning.POINTS) == 1


def test_the_curve_is_that_of_the_plan_as_it_is_shown() -> None:
    seat = on_path("com1")
    seat.press("down", "a")
    swept = seat.workspace.tuning.swept()
    assert swept is not None
    facts = facts_of(seat.workspace.assessment)
    curve = loss_curve(facts, "com1", swept.curve.frequency_hz)
    assert swept.curve.most_db.tolist() == curve.most_db.tolist()


def test_a_narrow_screen_swaps_the_curve_for_the_contributions() -> None:
    seat = on_path("gnss1", size=(80, 24))
    assert "loss against frequency" not in seat.frame.text()
    text = seat.press("v")
    assert "loss against frequency" in text
    assert "contributions" not in text
    assert "contributions" in seat.press("v")


def test_a_wider_screen_has_both() -> None:
    seat = on_path("gnss1")
    seat.press("v")
    assert seat.sentence == "Curve and contributions are both in sight."
    assert "loss against frequency" in seat.frame.text()


def test_a_path_without_antenna_has_no_curve(frozen: Path) -> None:
    seat = Seat(frozen, (120, 40))
    seat.workspace.looking.select_antenna("c2")
    assert "No path selected" in seat.press("2")
    seat.press("right")
    assert seat.sentence == "No path is selected."


@pytest.mark.parametrize("demo", ["amphibian", "twin"])
@pytest.mark.parametrize("size", [(80, 24), (100, 30), (120, 40), (200, 60)])
def test_words_in_a_plot_are_whole_for_every_path(demo: str, size: tuple[int, int]) -> None:
    first, *_ = assessed(demo).paths
    seat = on_path(first.id, demo, size)
    seat.workspace.tuning.on_top = True
    for path in assessed(demo).paths:
        seat.workspace.looking.select_path(path.id)
        compose(seat.workspace, *size)
        names = {word for band in path.bands for word in band.name.split()}
        *plot, axis, _ = map(text_of, curve_rows(seat))
        for row in (*plot, axis):
            told = set(re.findall(r"[A-Za-z_][A-Za-z0-9_]*", row))
            assert told <= names | {"min", "max", "dB", "MHz"}
        assert axis.split()[0] == "dB"
        assert axis.split()[-1] == "MHz"
        assert all(re.fullmatch(r"[0-9.]+", figure) for figure in axis.split()[1:-1])


@given(st.floats(1e-6, 1e9))
def test_a_step_is_one_two_or_five(least: float) -> None:
    step = round_step(least)
    assert least * (1.0 - 1e-6) <= step <= 2.5 * least * (1.0 + 1e-6)
    assert f"{step:.3e}"[0] in "125"
