# SPDX-License-Identifier: Apache-2.0
"""Matrix, sheets and the answer for programs tell one and the same margin."""

from __future__ import annotations

from dataclasses import replace

import pytest
from demo_plans import DEMOS, assessed
from interfering import masked_rulebook
from sample import sample_assessment
from sheet_tables import cells_of

from rfplan.analysis.facts import gather
from rfplan.analysis.interference import interference
from rfplan.model.interference import Matrix
from rfplan.reports.context import Context
from rfplan.reports.contract import check_json
from rfplan.reports.contract_isolation import isolation_json
from rfplan.reports.sheets import interference as interference_sheet
from rfplan.reports.sheets import isolation as isolation_sheet
from rfplan.reports.study import facts_of


def matrix_of(demo: str) -> Matrix:
    return interference(facts_of(assessed(demo)))


@pytest.mark.parametrize("demo", DEMOS)
def test_matrix_sheets_and_json_tell_one_margin(demo: str, context: Context) -> None:
    matrix, assessment = matrix_of(demo), assessed(demo)
    exposures = [one for cell in matrix.cells for one in cell.exposures]
    rows = cells_of(interference_sheet.build(assessment, context), "exposures")
    shown = [
        (source, victim, row["at"].value, row["margin"].value)
        for row in rows
        for source in row["source"].text.split(", ")
        for victim in row["victim"].text.split(", ")
    ]
    assert sorted(shown, key=str) == sorted(
        [(one.source, one.victim, one.frequency_hz / 1e6, one.margin_db) for one in exposures],
        key=str,
    )
    answer = check_json(assessment, context)["isolation"]
    assert answer == isolation_json(matrix)
    margins = [one.margin_db for one in exposures if one.margin_db is not None]
    told = [row["margin_db"] for row in isolation_json(matrix) if row["margin_db"] is not None]
    assert sorted(told, key=str) == sorted((round(one, 6) for one in margins), key=str)


@pytest.mark.parametrize("demo", DEMOS)
def test_the_isolation_sheet_shows_the_worst_of_each_cell(demo: str, context: Context) -> None:
    matrix = matrix_of(demo)
    rows = cells_of(isolation_sheet.build(assessed(demo), context), "pairs")
    assert [(row["source"].text, row["victim"].text, row["margin"].value) for row in rows] == [
        (cell.source, cell.victim, cell.worst.margin_db) for cell in matrix.cells
    ]


def test_a_test_has_no_verdict_and_says_that_it_is_one() -> None:
    told = isolation_json(matrix_of("amphibian"))
    assert {row["cell"] for row in told if row["verdict"] is None} == {"TEST"}
    assert all(row["cell"] != "TEST" for row in told if row["verdict"] is not None)


def test_an_end_of_the_band_that_does_not_exist_is_null() -> None:
    told = isolation_json(matrix_of("twin"))
    assert [0.0, None] in [row["band_db"] for row in told if row["valid"]]
    assert all(row["band_db"] == [None, None] for row in told if not row["valid"])


def test_assess_knows_nothing_of_the_matrix() -> None:
    rulebook = masked_rulebook()
    with_masks = sample_assessment(rulebook=rulebook)
    without = sample_assessment(rulebook=replace(rulebook, gnss_masks=type(rulebook.gnss_masks)()))
    assert with_masks.findings == without.findings
    assert with_masks.verdict == without.verdict
    facts = gather(with_masks.plan, with_masks.catalog, rulebook)
    assert interference(facts).cells
