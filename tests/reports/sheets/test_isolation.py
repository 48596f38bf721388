# SPDX-License-Identifier: Apache-2.0
"""The isolation sheet: pairs with model and band, and the matrix of verdicts."""

from __future__ import annotations

from dataclasses import replace

from demo_plans import assessed
from interfering import masked_rulebook, reading_of, two_transponders
from sample import sample_catalog
from sheet_tables import rows_of, table_of

from rfplan.analysis.isolation_models import Rung
from rfplan.assess import assess
from rfplan.reports.context import Context
from rfplan.reports.sheets import isolation


def test_the_diagonal_of_the_matrix_is_empty(context: Context) -> None:
    sheet = isolation.build(assessed("twin"), context)
    rows = {row["source"]: row for row in rows_of(sheet, "matrix")}
    assert rows["com1"]["to_com1"] == "-"
    assert rows["com1"]["to_gnss1"] == "TEST"


def test_a_computed_pair_shows_its_model_its_band_and_that_it_is_in_range(
    context: Context,
) -> None:
    sheet = isolation.build(assessed("twin"), context)
    row = next(
        row
        for row in rows_of(sheet, "pairs")
        if (row["source"], row["victim"]) == ("xpdr1_b", "xpdr2_b")
    )
    assert "surface rays" in row["model"]
    assert " .. " in row["band"]
    assert (row["valid"], row["at"]) == ("yes", "1090")


def test_both_directions_of_a_pair_are_told(context: Context) -> None:
    sheet = isolation.build(assessed("twin"), context)
    told = {(row["source"], row["victim"]) for row in rows_of(sheet, "pairs")}
    assert {("com1", "com2"), ("com2", "com1")} <= told
    assert ("com1", "gnss1") in told and ("gnss1", "com1") not in told
    assert table_of(sheet, "pairs").stub == 2


def test_every_rung_of_a_pair_on_metal_is_told_and_the_exact_one_when_asked_for(
    context: Context,
) -> None:
    assessment = assess(two_transponders(None), sample_catalog(), masked_rulebook())
    told, asked = (
        rows_of(isolation.build(assessment, replace(context, rung=rung)), "rungs")
        for rung in (Rung.DEFAULT, Rung.EXACT)
    )
    pair = {"between": "xpdr1, xpdr2", "at": "1090"}
    rungs = [
        [
            row["rung"]
            for row in rows
            if row["between"] == pair["between"] and row["at"] == pair["at"]
        ]
        for rows in (told, asked)
    ]
    assert rungs == [
        ["transparent", "default", "best", "quick"],
        ["transparent", "default", "best", "quick", "exact"],
    ]
    transparent = next(row for row in told if row["rung"] == "transparent")
    assert (transparent["band"], transparent["doubt"]) == ("?", "a conducting skin carries more")


def test_a_measured_isolation_stands_on_the_sheet_with_whether_it_still_stands(
    context: Context,
) -> None:
    for off_m, word in ((0.0, "yes"), (0.5, "stale")):
        plan = reading_of(two_transponders(None), "xpdr1", "xpdr2", 1090e6, 33.0, off_m)
        assessment = assess(plan, sample_catalog(), masked_rulebook())
        (row,) = rows_of(isolation.build(assessment, context), "readings")
        assert (row["between"], row["have"], row["stands"]) == ("xpdr1, xpdr2", "33.00", word)
