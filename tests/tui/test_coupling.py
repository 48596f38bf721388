# SPDX-License-Identifier: Apache-2.0
"""The Coupling screen: one margin in matrix, list, cell, sheet and JSON, and the ways about it."""

from __future__ import annotations

from dataclasses import replace
from pathlib import Path

import pytest
from demo_plans import FOLDER
from workspaces import Seat, frozen_folder

from rfplan.analysis.interference import interference
from rfplan.analysis.isolation_models import Rung
from rfplan.model.findings import Verdict
from rfplan.model.interference import Harm
from rfplan.reports.contract_isolation import isolation_json
from rfplan.reports.interference_words import rise_db
from rfplan.reports.study import facts_of
from rfplan.tui.actions import Mode, ScreenId
from rfplan.tui.coupling import RUNGS
from rfplan.tui.coupling_study import Chosen, exposure_key
from rfplan.tui.panes import SIGN_COLUMNS
from rfplan.tui.runs import text_of

SIZES = [(80, 24), (120, 40), (200, 60)]
DEMOS = ["amphibian", "twin"]


@pytest.fixture
def seat(frozen: Path) -> Seat:
    one = Seat(frozen, (120, 40))
    one.press("3")
    return one


def demo(name: str, size: tuple[int, int] = (120, 40)) -> Seat:
    """Return a seat at the Coupling screen of a demo aircraft."""
    one = Seat(FOLDER / name, size)
    one.press("3")
    return one


def chosen(seat: Seat) -> Chosen:
    told = seat.workspace.coupling.chosen
    assert told is not None
    return told


@pytest.mark.parametrize("name", DEMOS)
def test_every_cell_list_entry_and_json_record_has_one_margin(name: str) -> None:
    seat = demo(name)
    study = seat.workspace.coupling.study
    matrix = interference(facts_of(seat.workspace.assessment))
    assert study.matrix == matrix
    told = {
        (one["source"], one["victim"], one["margin_db"])
        for one in isolation_json(matrix)
        if isinstance(one, dict)
    }
    for cell in study.matrix.cells:
        seat.workspace.coupling.choose(exposure_key(cell.source, cell.victim))
        margin_db = cell.worst.margin_db
        rounded = None if margin_db is None else round(margin_db, 6)
        assert (cell.source, cell.victim, rounded) in told
        if margin_db is not None:
            shown = f"{margin_db:+.2f} dB".replace("-", seat.workspace.look.glyphs.minus)
            seat.draw()
            pane = seat.workspace.placed["cell"].pane
            assert pane is not None and shown in pane.text()


@pytest.mark.parametrize("size", SIZES)
@pytest.mark.parametrize("name", DEMOS)
def test_arrows_reach_every_cell_of_the_matrix(name: str, size: tuple[int, int]) -> None:
    seat = demo(name, size)
    seat.press("home", *["left"] * 20)
    matrix = seat.workspace.coupling.study.matrix
    seen = set()
    for source in matrix.sources:
        assert chosen(seat).source == source
        for _ in matrix.victims[1:]:
            seen.add((source, chosen(seat).victim))
            seat.press("right")
        seen.add((source, chosen(seat).victim))
        seat.press(*["left"] * len(matrix.victims), "down")
    assert len(seen) == len(matrix.sources) * len(matrix.victims)


def test_no_antenna_is_counted_against_itself() -> None:
    seat = demo("twin")
    matrix = seat.workspace.coupling.study.matrix
    both = next(id for id in matrix.sources if id in matrix.victims)
    seat.workspace.coupling.choose(exposure_key(both, both))
    assert "same antenna" in seat.press("tab", "tab")
    assert all(cell.source != cell.victim for cell in matrix.cells)


def test_the_list_is_worst_first_and_chooses_its_cell(seat: Seat) -> None:
    seat.press("tab")
    assert seat.workspace.looking.focus == "exposures"
    seat.press("home", "down", "down")
    pane = seat.workspace.placed["exposures"].pane
    assert pane is not None
    assert pane.cursor == pane.keys()[2] == chosen(seat).key
    one = chosen(seat).exposure
    assert one is not None
    assert f"{chosen(seat).source} → {chosen(seat).victim}" in seat.sentence


def test_enter_opens_the_whole_cell_and_esc_closes_it(seat: Seat) -> None:
    text = seat.press("enter")
    assert f"{chosen(seat).source} to {chosen(seat).victim}" in text
    assert "at the sending antenna" in text
    seat.press("escape")
    assert seat.workspace.overlay is None


def test_a_click_on_a_cell_chooses_it() -> None:
    seat = demo("twin")
    placed = seat.workspace.placed["matrix"]
    row, item = list(placed.entries.items())[3]
    spot = item.spots[2]
    seat.workspace.click(placed.area.column + SIGN_COLUMNS + spot.start + 1, placed.area.row + row)
    assert spot.key == exposure_key(chosen(seat).source, chosen(seat).victim)


def test_m_takes_the_receiving_antenna_up_on_the_airframe(seat: Seat) -> None:
    victim = chosen(seat).victim
    seat.press("m")
    assert seat.workspace.screen is ScreenId.AIRFRAME
    assert seat.workspace.mode is Mode.MOVING
    assert seat.workspace.session.selection.antenna == victim


def test_moving_an_antenna_changes_its_cells_and_no_other() -> None:
    seat = demo("twin")
    before = seat.workspace.coupling.study.matrix
    victim = chosen(seat).victim
    seat.press("m", "right", "right", "right", "enter")
    if seat.workspace.moving is not None:
        seat.press("enter")
    seat.press("3")
    after = seat.workspace.coupling.study.matrix
    changed = {
        (one.source, one.victim)
        for one, other in zip(
            sorted(before.cells, key=lambda cell: (cell.source, cell.victim)),
            sorted(after.cells, key=lambda cell: (cell.source, cell.victim)),
            strict=True,
        )
        if one.distance_m != other.distance_m
    }
    assert changed
    assert all(victim in pair for pair in changed)


def test_what_passes_can_be_left_out() -> None:
    seat = demo("amphibian")
    rows = listed(seat)
    passing = [row for row in rows if " PASS " in row]
    assert passing
    seat.press("f")
    assert listed(seat) == [row for row in rows if row not in passing]
    seat.press("f")
    assert listed(seat) == rows


def listed(seat: Seat) -> list[str]:
    pane = seat.workspace.placed["exposures"].pane
    assert pane is not None
    return [text_of(item.rows[0]).rstrip() for item in pane.items]


@pytest.mark.parametrize("size", [(120, 40), (200, 60)])
@pytest.mark.parametrize("name", DEMOS)
def test_no_two_rows_of_the_list_read_the_same(name: str, size: tuple[int, int]) -> None:
    seat = demo(name, size)
    rows = listed(seat)
    assert len(set(rows)) == len(rows)


def test_a_harmonic_is_told_at_120_columns() -> None:
    rows = listed(demo("amphibian"))
    assert any(row.endswith("h12   1565.42 GNSS mask") for row in rows)
    assert any(row.endswith("h13   1565.42 GNSS mask") for row in rows)


def test_paths_of_one_antenna_that_read_alike_are_one_entry_that_names_them() -> None:
    seat = demo("twin", (200, 60))
    rows = [row for row in listed(seat) if "tas_t → com1" in row and "overload" in row]
    assert len(rows) == 1
    named = next(row for row in listed(seat) if "com1 → nav_t" in row and " 137 " in row)
    assert named.endswith("vor1, vor2")
    seat.workspace.coupling.choose(exposure_key("tas_t", "com1"))
    told = seat.draw().text()
    assert "paths      tas_a, tas_f, tas_l, tas_r" in told
    assert "at least this much" in told
    assert "or more dB" not in told


def test_on_a_narrow_screen_v_swaps_matrix_and_list() -> None:
    seat = demo("amphibian", (80, 24))
    assert {*seat.workspace.placed} == {"matrix", "cell"}
    seat.press("v")
    assert {*seat.workspace.placed} == {"exposures", "cell"}
    seat.press("v")
    assert {*seat.workspace.placed} == {"matrix", "cell"}


def test_on_a_wide_screen_both_are_there_already(seat: Seat) -> None:
    seat.press("v")
    assert "both shown" in seat.sentence


def test_the_antenna_selected_elsewhere_is_the_one_looked_at(frozen: Path) -> None:
    seat = Seat(frozen, (120, 40))
    for antenna in ("g1", "c1"):
        seat.press("1")
        seat.workspace.looking.select_antenna(antenna)
        seat.press("3")
        assert antenna in (chosen(seat).source, chosen(seat).victim)


def test_a_plan_without_transmitters_says_so(tmp_path: Path) -> None:
    folder = frozen_folder(tmp_path / "silent")
    plan = folder / "plan.yaml"
    text = plan.read_text(encoding="utf-8")
    plan.write_text(text.replace("radio: vhf_com", "radio: vor_loc"), encoding="utf-8")
    seat = Seat(folder, (120, 40))
    assert "No transmitter meets" in seat.press("3")
    seat.press("enter", "m", "left", "tab", "down", "v")
    assert seat.workspace.screen is ScreenId.COUPLING


def test_what_is_missing_for_a_verdict_is_named() -> None:
    seat = demo("twin")
    study = seat.workspace.coupling.study
    one = next(cell for cell in study.matrix.cells if cell.worst.limit_dbm is None)
    seat.workspace.coupling.choose(exposure_key(one.source, one.victim))
    assert "as its data state it" in " ".join(seat.press("enter").split())


def test_the_rise_of_a_receivers_noise_is_told_beside_what_is_allowed() -> None:
    """A margin of 0 dB is the 1 dB that is allowed; 10 dB more margin leave 0.11 dB."""
    seat = demo("amphibian")
    study = seat.workspace.coupling.study
    cell, one = next(
        (cell, one)
        for cell in study.matrix.cells
        for one in cell.exposures
        if one.harm is Harm.NOISE and one.margin_db is not None
    )
    seat.workspace.coupling.choose(
        exposure_key(cell.source, cell.victim, cell.exposures.index(one))
    )
    told = rise_db(one, None)
    assert told is not None
    assert f"rise {told:.2f} dB more noise, 1.00 allowed" in " ".join(seat.press("enter").split())
    assert rise_db(replace(one, margin_db=0.0), None) == pytest.approx(1.0)
    assert rise_db(replace(one, margin_db=10.0), None) == pytest.approx(0.111, abs=0.001)


def test_the_matrix_can_be_seen_by_every_quick_rung_and_says_that_it_does_not_decide() -> None:
    seat = demo("twin")
    usual = seat.workspace.coupling.study
    assert usual.rung is Rung.DEFAULT
    shown = {rung: seat.press("]") for rung in RUNGS[1:]}
    assert all(f"rung {rung}: decides nothing" in text for rung, text in shown.items())
    assert "decides nothing" not in seat.press("]")
    seat.press("[")
    last = seat.workspace.coupling.study
    assert last.rung is RUNGS[-1]
    pair = "xpdr1_b", "xpdr2_b"
    worst = [study.cell(*pair).worst for study in (usual, last)]  # type: ignore[union-attr]
    assert [one.verdict for one in worst] == [Verdict.PASS, None]
