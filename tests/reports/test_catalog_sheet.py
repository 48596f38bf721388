# SPDX-License-Identifier: Apache-2.0
"""The catalogue as a sheet."""

from __future__ import annotations

from dataclasses import replace

import pytest
from sample import sample_cable, sample_catalog

from rfplan.model.catalog import AttenuationSet, Fit
from rfplan.model.record import ById
from rfplan.reports.catalog_sheet import catalog_sheet
from rfplan.reports.sheet import Sheet
from rfplan.units import Range


def texts(sheet: Sheet, key: str) -> list[list[str]]:
    table = next(table for table in sheet.tables if table.key == key)
    return [[cell.text for cell in row] for row in table.rows]


@pytest.fixture
def sheet() -> Sheet:
    return catalog_sheet(sample_catalog())


def test_every_entry_is_a_row_of_its_kind_sorted_by_id(sheet: Sheet) -> None:
    ids = {table.key: [row[0].text for row in table.rows] for table in sheet.tables}
    assert ids["cables"] == ["coax_3mm", "coax_5mm"]
    assert ids["connectors"] == ["bnc", "tnc"]
    assert ids["inline_parts"] == ["pad_3db", "split_2", "tnc_through"]
    assert ids["antennas"] == ["com_whip", "gnss_active", "xpdr_stub"]


def test_each_point_of_a_table_is_shown_per_hundred_metres_with_its_source(sheet: Sheet) -> None:
    rows = [row for row in texts(sheet, "attenuation") if row[0] == "coax_5mm"]
    assert [row[2:4] for row in rows][:2] == [["10", "4.58"], ["100", "15.00"]]
    assert rows[0][-1] == "invented sheet issue 1 (specification, invented)"


def test_a_fit_shows_its_constants_and_a_set_out_of_use_says_so() -> None:
    fit = AttenuationSet("estimate", False, fit=Fit(1.4, 0.004, Range(1e6, 1e9)), source="sheet")
    cable = sample_cable(attenuation=ById({"fitted": fit}))
    sheet = catalog_sheet(sample_catalog(cables=ById({"coax_5mm": cable})))
    assert texts(sheet, "attenuation") == [
        [
            "coax_5mm",
            "fitted",
            "-",
            "-",
            "k1 1.4, k2 0.004",
            "kept to compare",
            "invented sheet issue 1 (specification, invented)",
        ]
    ]


def test_a_part_with_branches_tells_the_loss_of_each(sheet: Sheet) -> None:
    split = texts(sheet, "inline_parts")[1]
    assert "a: nominal 3.40 dB, b: nominal 3.40 dB" in split
    through = texts(sheet, "inline_parts")[2]
    assert "nominal 0.10 dB" in through


def test_an_invented_entry_says_that_it_stands_for_no_product() -> None:
    real = replace(sample_cable(), invented=False)
    sheet = catalog_sheet(sample_catalog(cables=ById({"coax_5mm": real})))
    assert texts(sheet, "cables")[0][-1] == "the type"
    assert texts(sheet, "connectors")[0][-1] == "no product"
