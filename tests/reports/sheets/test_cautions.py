# SPDX-License-Identifier: Apache-2.0
"""The cautions: every danger of the work is named, and nothing is promised."""

from __future__ import annotations

import re

import pytest
from sheet_tables import rows_of

from rfplan.model.assessment import Assessment
from rfplan.reports.context import Context
from rfplan.reports.sheets import SHEETS, cautions

MINE = (
    *("continued_airworthiness", "bill_of_materials", "cautions", "ground_check", "revision"),
    *("sources_used", "structure", "survey", "weight_balance"),
)


@pytest.mark.parametrize(
    "word",
    ["Pyrotechnic", "strap", "Vapour", "transmits", "121.500", "406 MHz", "magnetic", "Carbon"],
)
def test_each_danger_is_named(word: str, clean: Assessment, context: Context) -> None:
    told = " ".join(row["text"] for row in rows_of(cautions.build(clean, context), "work"))
    assert word in told


def test_what_is_common_practice_is_called_that(clean: Assessment, context: Context) -> None:
    sheet = cautions.build(clean, context)
    told = {row["about"]: row["source"] for row in rows_of(sheet, "work")}
    assert told["straps and spars"] == "common practice"
    assert told["fuel"] == "FAA AC 43.13-1B CHG 1, 11-96w (read in a copy)"
    assert told["406 MHz"].endswith("(second hand)")


@pytest.mark.parametrize("key", MINE)
def test_no_sheet_promises_what_the_tool_cannot(
    key: str, clean: Assessment, context: Context
) -> None:
    sheet = SHEETS[key].build(clean, context)
    told = [sheet.title, *sheet.notes]
    told += [cell.text for table in sheet.tables for row in table.rows for cell in row]
    told += [column.title for table in sheet.tables for column in table.columns]
    promise = re.compile(r"\b(certified|approved|airworthy|safe)\b", re.IGNORECASE)
    assert not [one for one in told if promise.search(one)]


@pytest.mark.parametrize("key", MINE)
def test_each_sheet_says_the_limits_of_its_method(
    key: str, clean: Assessment, context: Context
) -> None:
    sheet = SHEETS[key].build(clean, context)
    assert len(sheet.notes) > 3
    assert sheet.notes[-1] == "Estimates do not replace the check on the aircraft."
