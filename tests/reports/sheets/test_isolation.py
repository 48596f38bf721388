# SPDX-License-Identifier: Apache-2.0
"""The isolation sheet: pairs with model and band, and the matrix of verdicts."""

from __future__ import annotations

from demo_plans import assessed
from sheet_tables import rows_of, table_of

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
