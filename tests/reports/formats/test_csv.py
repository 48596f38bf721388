# SPDX-License-Identifier: Apache-2.0
"""Comma-separated values: read back cell by cell, and no cell computes."""

from __future__ import annotations

import csv
import io

import pytest

from rfplan.reports.formats import csv as writer
from rfplan.reports.sheet import Sheet

FORMULAS = [
    "=1+1",
    "+1+1",
    "-1+1",
    "@SUM(A1)",
    "\t=1",
    "\r=1",
    "+0.64 to max",
    "-",
    "-1e5",
    "\uff1d1+1",
]


def read(sheet: Sheet) -> list[list[str]]:
    return list(csv.reader(io.StringIO(writer.write(sheet), newline="")))


def test_a_sheet_reads_back_cell_by_cell(small: Sheet) -> None:
    assert read(small) == [
        ["Small sheet"],
        ["state", "design"],
        [],
        ["Paths"],
        ["path", "loss [dB]"],
        ["gnss1", "2.86"],
        ["com1", "?"],
        [],
        ["A note."],
    ]


def test_lines_end_as_the_standard_says(small: Sheet) -> None:
    assert writer.write(small).count("\r\n") == 9
    assert "\n\n" not in writer.write(small)


@pytest.mark.parametrize("formula", FORMULAS)
def test_what_a_spreadsheet_would_compute_is_made_inert(formula: str) -> None:
    assert writer.inert(formula) == f"'{formula}"


@pytest.mark.parametrize("text", ["-0.50", "+12", "-3", "2.86", "gnss1", "a=b", "", "?"])
def test_numbers_and_plain_words_stay_as_they_are(text: str) -> None:
    assert writer.inert(text) == text


def test_no_cell_of_a_hostile_sheet_starts_a_formula(hostile: Sheet) -> None:
    cells = [cell for row in read(hostile) for cell in row]
    assert len(cells) > 40
    for cell in cells:
        assert not cell.startswith(("=", "+", "-", "@", "\t", "\r"))
        assert cell.isprintable()
