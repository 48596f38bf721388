# SPDX-License-Identifier: Apache-2.0
"""The loss budget: bands, elements, lengths, power and readings."""

from __future__ import annotations

from dataclasses import replace

import pytest

from rfplan.model.assessment import Assessment
from rfplan.reports.context import Context
from rfplan.reports.sheet import Cell, Table
from rfplan.reports.sheets import loss_budget


@pytest.fixture
def tables(busy: Assessment, context: Context) -> dict[str, Table]:
    sheet = loss_budget.build(busy, context)
    return {table.key: table for table in sheet.tables}


def rows(table: Table) -> list[dict[str, Cell]]:
    keys = [column.key for column in table.columns]
    return [dict(zip(keys, row, strict=True)) for row in table.rows]


def test_a_path_has_its_overall_word_apart_from_the_loss(tables) -> None:
    told = {
        row["path"].text: (row["overall"].text, row["loss"].text) for row in rows(tables["paths"])
    }
    assert told == {
        "com1": ("WAIVED", "PASS"),
        "gnss1": ("FAIL", "PASS"),
        "xpdr1": ("FAIL", "INCOMPLETE"),
    }


def test_there_is_one_row_for_each_path_and_band(tables) -> None:
    pairs = [(row["path"].text, row["band"].text) for row in rows(tables["bands"])]
    assert pairs == [
        ("com1", "rx"),
        ("com1", "tx"),
        ("gnss1", "rx"),
        ("xpdr1", "rx"),
        ("xpdr1", "tx"),
    ]


def test_a_band_shows_corners_with_temperature_and_frequency(tables, busy: Assessment) -> None:
    row, band = rows(tables["bands"])[2], busy.paths[1].bands[0]
    assert row["least"].value == band.min_corner.loss_db
    assert (row["least_c"].text, row["least_hz"].text) == ("-55", "1563.42")
    assert row["most"].value == band.max_corner.loss_db
    assert (row["most_c"].text, row["most_hz"].text) == ("70", "1587.42")
    assert (row["low"].text, row["mid"].text, row["high"].text) == ("1563.42", "1575.42", "1587.42")


def test_a_window_end_that_no_document_states_differs_from_an_unknown_one(tables) -> None:
    ends = {(row["path"].text): row["window_min"].text for row in rows(tables["bands"])}
    assert ends == {"com1": "none", "gnss1": "0.50", "xpdr1": "?"}


def test_the_margin_that_does_not_exist_is_a_dash(tables) -> None:
    assert rows(tables["bands"])[0]["to_min"].text == "-"


def test_near_and_bounded_stand_as_flags(busy: Assessment, context: Context) -> None:
    path = busy.paths[1]
    band = replace(path.bands[0], near=True, bounded=True)
    close = replace(busy, paths=(replace(path, bands=(band,)),))
    table = {one.key: one for one in loss_budget.build(close, context).tables}["bands"]
    assert rows(table)[0]["flags"].text == "NEAR, bounded"


def test_a_band_that_fails_on_a_tie_shows_one_digit_more_in_its_whole_row(
    busy: Assessment, context: Context
) -> None:
    path = busy.paths[1]
    band = replace(path.bands[0], judged_db=(1.0, 4.004), margin_to_max_db=-0.004)
    tie = replace(busy, paths=(replace(path, bands=(band,)),))
    row = rows({one.key: one for one in loss_budget.build(tie, context).tables}["bands"])[0]
    assert (row["judged_most"].text, row["window_max"].text) == ("4.004", "4.000")
    assert row["to_max"].text == "-0.004"


def test_elements_stand_in_the_order_of_the_chain_and_sum_to_the_nominal(
    tables, busy: Assessment
) -> None:
    mine = [row for row in rows(tables["elements"]) if row["path"].text == "gnss1"]
    assert [row["kind"].text for row in mine] == ["mated pair", "cable", "mated pair"]
    assert [row["place"].text for row in mine] == ["1", "2", "3"]
    total = sum(row["nominal"].value for row in mine)
    assert total == pytest.approx(busy.paths[1].bands[0].nominal_db[1])


def test_the_terms_of_a_length_come_to_the_cut_length(tables) -> None:
    row = rows(tables["lengths"])[0]
    terms = ("routed", "drops", "drip_loop", "service_loops", "retermination", "rounding")
    assert row["cut"].value == pytest.approx(sum(row[term].value for term in terms))


def test_transmitters_receivers_and_readings_have_their_own_tables(tables) -> None:
    assert [row["path"].text for row in rows(tables["transmit"])] == ["com1", "xpdr1"]
    assert rows(tables["transmit"])[0]["min"].text == "none"
    assert [row["limit"].text for row in rows(tables["receive"])] == ["atcrbs", "mode_s"]
    reading = rows(tables["readings"])[0]
    assert (reading["measured"].text, reading["agreement"].text) == ("1.62", "AGREES")
    assert reading["with"].text == "analyser 7"
