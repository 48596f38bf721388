# SPDX-License-Identifier: Apache-2.0
"""What holds for all sheets: found by name, text is value printed, hostile names stay inert."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace
from pathlib import Path

import pytest
from sample import sample_assessment, sample_plan

import rfplan.reports.sheets as folder
from rfplan.model.assessment import Assessment
from rfplan.model.plan import Person
from rfplan.model.record import ById
from rfplan.reports.cells import DIGITS
from rfplan.reports.context import Context
from rfplan.reports.sheet import Cell, Sheet
from rfplan.reports.sheets import SHEETS

HOSTILE = "\x1b]0;x\x07 \u202e| =cmd()\r\n`<b>"


def cells(sheet: Sheet) -> Iterator[Cell]:
    yield from (cell for _, cell in sheet.header)
    yield from (cell for table in sheet.tables for row in table.rows for cell in row)


def is_value_printed(cell: Cell) -> bool:
    """Whether the text of a cell is its value with the declared digits, or more of them."""
    if cell.value is None or isinstance(cell.value, str):
        return cell.value is None or cell.text == cell.value
    digits = cell.text.removesuffix(cell.unit).strip()
    decimals = len(digits.partition(".")[2])
    if float(digits) != pytest.approx(cell.value, abs=0.5000001 * 10.0**-decimals):
        return False
    return decimals >= DIGITS.get(cell.unit, 0)


def test_each_file_of_the_folder_is_one_sheet_with_the_key_of_its_name() -> None:
    names = {path.stem for path in Path(folder.__file__).parent.glob("*.py")} - {"__init__"}
    assert set(SHEETS) == names
    assert {"loss_budget", "cut_list", "spacing", "findings", "open_points", "summary"} <= names


@pytest.mark.parametrize("key", SHEETS)
@pytest.mark.parametrize("units", ["in", "mm"])
def test_the_text_of_every_cell_is_its_value_printed(
    key: str, units: str, busy: Assessment, context: Context
) -> None:
    sheet = SHEETS[key].build(busy, replace(context, units=units))
    wrong = [cell for cell in cells(sheet) if not is_value_printed(cell)]
    assert not wrong


@pytest.mark.parametrize("key", SHEETS)
def test_every_row_has_a_cell_in_the_unit_of_its_column(
    key: str, busy: Assessment, context: Context
) -> None:
    for table in SHEETS[key].build(busy, context).tables:
        assert len({column.key for column in table.columns}) == len(table.columns)
        for row in table.rows:
            assert len(row) == len(table.columns)
            for cell, column in zip(row, table.columns, strict=True):
                assert cell.value is None or not column.unit or cell.unit == column.unit


@pytest.mark.parametrize("key", SHEETS)
def test_hostile_text_from_a_plan_is_shown_and_never_sent(key: str, context: Context) -> None:
    plan = sample_plan(title=HOSTILE, people=ById({"prepared": Person(HOSTILE)}))
    sheet = SHEETS[key].build(sample_assessment(plan), context)
    assert all(cell.text.isprintable() for cell in cells(sheet))
    assert r"\u001b]0;x\u0007 \u202e| =cmd()\u000d\u000a`<b>" in dict(sheet.header)["plan"].text


@pytest.mark.parametrize("key", SHEETS)
def test_a_sheet_of_a_plan_without_any_path_can_be_built(key: str, context: Context) -> None:
    plan = sample_plan()
    bare = replace(plan.design, antennas=ById(), cables=ById(), paths=ById())
    sheet = SHEETS[key].build(sample_assessment(replace(plan, design=bare)), context)
    assert sheet.key == key


def test_a_sheet_is_called_as_its_file_is() -> None:
    assert [file.KEY for file in SHEETS.values()] == list(SHEETS)
    assert "nothing" not in SHEETS
