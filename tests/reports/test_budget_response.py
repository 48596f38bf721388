# SPDX-License-Identifier: Apache-2.0
"""Responses, reflections and pads on trial as a sheet and behind `--why` tell them."""

from __future__ import annotations

import pytest
from amplified import amplified_catalog, amplified_plan
from sample import sample_assessment, with_entry

from rfplan.model.assessment import Assessment
from rfplan.reports.context import Context
from rfplan.reports.sheet import Cell, Table
from rfplan.reports.sheets import measure_first, response
from rfplan.reports.why import why
from rfplan.units import Toleranced


@pytest.fixture
def amplified() -> Assessment:
    catalog = with_entry(amplified_catalog(), "antennas", "com_whip", vswr=2.5)
    odd = with_entry(catalog, "cables", "coax_5mm", impedance_ohm=Toleranced(75.0, 3.0))
    return sample_assessment(amplified_plan(), odd)


def rows(table: Table) -> list[dict[str, Cell]]:
    keys = [column.key for column in table.columns]
    return [dict(zip(keys, row, strict=True)) for row in table.rows]


@pytest.fixture
def tables(amplified: Assessment, context: Context) -> dict[str, Table]:
    return {one.key: one for one in response.build(amplified, context).tables}


def test_each_band_of_each_path_has_its_response(tables: dict[str, Table]) -> None:
    told = {(row["path"].text, row["band"].text): row for row in rows(tables["response"])}
    assert set(told) == {
        ("com1", "rx"),
        ("com1", "tx"),
        ("gnss1", "rx"),
        ("xpdr1", "rx"),
        ("xpdr1", "tx"),
    }
    assert told["com1", "rx"]["power"].text == "-"
    assert float(told["com1", "tx"]["power"].value or 0.0) < 16.0  # type: ignore[arg-type]
    assert told["xpdr1", "tx"]["vswr_most"].text == "-"
    assert float(told["com1", "tx"]["steps_most"].value or 0.0) > 0.3  # type: ignore[arg-type]


def test_the_loss_into_a_mismatch_says_which_formula_holds(tables: dict[str, Table]) -> None:
    told = {row["path"].text: row for row in rows(tables["loaded_lines"])}
    assert set(told) == {"com1", "gnss1"}
    assert told["com1"]["holds"].text in ("both", "exact only")
    assert len(told["com1"]["handbook"].text.partition(".")[2]) == 3


def test_a_piece_of_another_impedance_is_told_with_its_best_and_worst_length(
    tables: dict[str, Table],
) -> None:
    told = rows(tables["pieces"])
    assert [row["cable"].text for row in told] == ["w21", "w11", "w31"]
    assert (told[0]["ohm"].text, told[0]["worst_vswr"].text) == ("75", "2.25")


def test_pads_are_tried_for_the_receiver_only(tables: dict[str, Table]) -> None:
    told = rows(tables["pads"])
    assert {row["path"].text for row in told} == {"gnss1"}
    assert [row["pad"].text for row in told] == ["none", "pad_3db"]
    assert told[0]["fitted"].text == "yes"


def test_why_tells_the_response_of_its_path_alone(amplified: Assessment, context: Context) -> None:
    sheet = why(amplified, context, "gnss1")
    assert sheet is not None
    told = {table.key: table for table in sheet.tables}
    assert {"response", "loaded_lines", "pieces", "pads", "gain", "supply"} <= set(told)
    assert {row["path"].text for row in rows(told["response"])} == {"gnss1"}


def test_what_to_measure_first_is_ordered_by_verdicts(busy: Assessment, context: Context) -> None:
    (table,) = measure_first.build(busy, context).tables
    counts = [row["count"].value for row in rows(table)]
    assert counts == sorted(counts, reverse=True)  # type: ignore[type-var]
    first = rows(table)[0]
    assert (first["object"].text, first["field"].text, first["count"].text) == (
        "xp1.ant",
        "loss",
        "2",
    )
    assert first["spread"].text == "-"
