# SPDX-License-Identifier: Apache-2.0
"""The sweep sheet: DC first, then what the sweeps say, each number printed as it is."""

from __future__ import annotations

from dataclasses import replace

import numpy as np
import pytest
from sample import refitted, sample_assessment, sample_catalog, sample_rulebook, with_port
from swept_lines import (
    OPEN_OHM,
    SHORT_OHM,
    SWEPT_HZ,
    cable,
    faulty,
    one_port,
    pair,
    plan_of,
    two_port,
)

from rfplan.analysis.facts import gather
from rfplan.analysis.sweep_study import PathSweeps, study
from rfplan.model.plan import Plan
from rfplan.model.sweep import Sweep
from rfplan.physics.two_port import chain_abcd
from rfplan.reports.context import Context
from rfplan.reports.formats import FORMATS
from rfplan.reports.sheet import Cell, Sheet, Table
from rfplan.reports.sweep_report import DC_FIRST, sweep_sheet
from rfplan.units import Range

GOOD = chain_abcd(SWEPT_HZ, [pair(), cable(6.0), pair()])
ANTENNA = one_port(GOOD, 100.0, "antenna.s1p")
ENDS = one_port(GOOD, OPEN_OHM, "open.s1p"), one_port(GOOD, SHORT_OHM, "short.s1p")


def built(context: Context, sweeps: PathSweeps, plan: Plan | None = None) -> Sheet:
    plan = plan or plan_of(6.0)
    facts = gather(plan, sample_catalog(), sample_rulebook())
    return sweep_sheet(sample_assessment(plan), context, study(facts, sweeps))


def row(sheet: Sheet, key: str, at: int = 0) -> dict[str, Cell]:
    table = found(sheet, key)
    return dict(zip([column.key for column in table.columns], table.rows[at], strict=True))


def found(sheet: Sheet, key: str) -> Table:
    return next(table for table in sheet.tables if table.key == key)


def test_disconnecting_dc_comes_before_everything_else(context: Context) -> None:
    sheet = built(context, PathSweeps("gnss1", ANTENNA))
    label, cell = sheet.header[0]
    assert (label, cell.text) == ("first", DC_FIRST)


def test_a_port_that_feeds_its_antenna_is_named(context: Context) -> None:
    feeding = with_port(plan_of(6.0), "nav1", "gnss", feed_v=Range(4.7, 5.3))
    said = "nav1.gnss feeds its antenna: take the feed off before the analyser is connected."
    assert said in built(context, PathSweeps("gnss1", ANTENNA), feeding).notes
    assert said not in built(context, PathSweeps("gnss1", ANTENNA)).notes


def test_loss_and_match_are_told_with_their_numbers(context: Context) -> None:
    sheet = built(context, PathSweeps("gnss1", ANTENNA, ENDS))
    loss, match = row(sheet, "loss"), row(sheet, "match")
    assert loss["agreement"].text == "AGREES"
    assert loss["allowed"].text == "0.50"
    assert loss["measured"].value == pytest.approx(4.01, abs=0.02)
    assert (match["basis"].text, match["antenna_vswr"].text) == ("measured", "2.00")
    assert match["unit_vswr"].value < match["antenna_vswr"].value


def test_a_loss_that_differs_is_advice(context: Context) -> None:
    lossy = two_port(chain_abcd(SWEPT_HZ, [pair(1.0, 2.0), cable(6.0), pair()]))
    cell = row(built(context, PathSweeps("gnss1", lossy)), "loss")["agreement"]
    assert (cell.text, cell.token) == ("DIFFERS", "ADVICE")


def test_a_hidden_antenna_is_said_and_has_no_vswr(context: Context) -> None:
    sheet = built(context, PathSweeps("gnss1", one_port(GOOD, OPEN_OHM)))
    match = row(sheet, "match")
    assert match["remark"].text == "the line hides the antenna"
    assert (match["antenna"].value, match["antenna_vswr"].value) == (None, None)


def test_a_band_that_was_not_swept_says_what_was_listed(context: Context) -> None:
    match = row(built(context, PathSweeps("com1", ANTENNA)), "match")
    assert (
        match["remark"].text == "the sweep lists 800 to 1800 MHz; the band needs 117.975 to 137 MHz"
    )
    assert match["unit"].text == "-"


def test_a_fault_is_told_in_the_unit_of_the_sheet_with_resolution_and_range(
    context: Context,
) -> None:
    line = faulty([pair(), cable(3.2)], 0.01, [cable(2.8), pair()])
    sweeps = PathSweeps("gnss1", one_port(line, 50.0))
    fault = row(built(replace(context, units="mm"), sweeps), "reflections")
    assert fault["distance"].value == pytest.approx(3200.0, abs=20.0)
    assert fault["where"].text == "between nav1.gnss/w11 and w11/gnss1"
    sheet = built(context, sweeps)
    assert row(sheet, "reflections")["distance"].value == pytest.approx(126.0, abs=1.0)
    assert (
        "Distances along the cables: Kaiser window, beta 6; resolution 8.2 in (0.21 m), "
        "range 3280.7 in (83.33 m)." in sheet.notes
    )


def test_what_folds_back_and_what_is_not_known_is_said(context: Context) -> None:
    few_hz = np.linspace(0.8e9, 1.8e9, 41)
    short = one_port(chain_abcd(few_hz, [cable(6.0, few_hz)]), 50.0, frequency_hz=few_hz)
    notes = built(context, PathSweeps("gnss1", short)).notes
    assert any("what lies beyond appears nearer" in note for note in notes)


def test_what_is_not_told_is_said_why(context: Context) -> None:
    unknown = refitted(plan_of(6.0), "cables", "w11", type="?")
    sheet = built(context, PathSweeps("gnss1", ANTENNA), unknown)
    assert "Not told: w11: the type is not known, so no distance can be told." in sheet.notes
    assert row(sheet, "match")["loss"].text == "?"
    assert "reflections" not in [table.key for table in sheet.tables]


def test_swapped_labels_stand_out(context: Context) -> None:
    plan = refitted(plan_of(2.0), "cables", "w21", length_m=5.0, via=())
    short, long = (two_port(chain_abcd(SWEPT_HZ, [cable(m)]), f"{m:g}.s2p") for m in (2.0, 5.0))
    swapped = built(context, PathSweeps("gnss1", long, other=("com1", short)), plan)
    right = built(context, PathSweeps("gnss1", short, other=("com1", long)), plan)
    assert (row(swapped, "labels")["labels"].text, row(swapped, "labels")["labels"].token) == (
        "SWAPPED",
        "ADVICE",
    )
    assert row(right, "labels")["labels"].text == "as labelled"


def test_the_sweeps_are_listed_with_reference_and_notes(context: Context) -> None:
    noted = replace(two_port(GOOD, "a.s2p", reference_ohm=75.0), notes=("noise left out",))
    listed = row(built(context, PathSweeps("gnss1", noted)), "sweeps")
    told = [listed[key].text for key in ("file", "ports", "points", "reference", "notes")]
    assert told == ["a.s2p", "2", "801", "75", "noise left out"]


def test_the_temperature_of_the_sweep_is_told_or_said_to_be_missing(context: Context) -> None:
    def swept_at(given_c: float | None) -> str:
        sheet = built(context, PathSweeps("gnss1", ANTENNA, temperature_c=given_c))
        return dict(sheet.header)["swept at"].text

    assert swept_at(17.0) == "17 degC"
    assert swept_at(None).startswith("temperature not stated")


@pytest.mark.parametrize("format", sorted(FORMATS))
def test_every_format_writes_it_and_a_hostile_file_name_stays_inert(
    context: Context, format: str
) -> None:
    hostile: Sweep = replace(ANTENNA, file="\x1b]0;x\x07<b>|.s1p")
    sheet = built(context, PathSweeps("gnss1", hostile, ENDS))
    text = FORMATS[format].write(sheet)
    assert "\x1b" not in text and "\x07" not in text
    assert "AGREES" in text


def test_every_row_has_a_cell_in_the_unit_of_its_column(context: Context) -> None:
    sheet = built(context, PathSweeps("gnss1", ANTENNA, ENDS, ("com1", ANTENNA)))
    assert [table.key for table in sheet.tables] == [
        "sweeps",
        "loss",
        "match",
        "reflections",
        "labels",
    ]
    for table in sheet.tables:
        assert len({column.key for column in table.columns}) == len(table.columns)
        for cells in table.rows:
            for cell, column in zip(cells, table.columns, strict=True):
                assert cell.value is None or not column.unit or cell.unit == column.unit
