# SPDX-License-Identifier: Apache-2.0
"""Workbooks, read back by another library: numbers are numbers, nothing computes."""

from __future__ import annotations

import io
import sys
import time
import zipfile
from collections.abc import Iterator
from dataclasses import replace
from datetime import datetime
from typing import Any

import pytest

from rfplan.model.assessment import Assessment
from rfplan.reports.cells import quantity, words
from rfplan.reports.context import Context
from rfplan.reports.documents import MissingExtraError
from rfplan.reports.formats import json as json_format
from rfplan.reports.formats import xlsx
from rfplan.reports.sheet import Sheet
from rfplan.reports.sheets import FILED, SHEETS

openpyxl = pytest.importorskip("openpyxl")


def opened(*sheets: Sheet) -> Any:
    return openpyxl.load_workbook(io.BytesIO(xlsx.document(sheets)))


def rows_of(page: Any) -> list[list[Any]]:
    """Return what stands in each row, without the empty cells behind it."""
    rows = [[cell.value for cell in row] for row in page.iter_rows()]
    for row in rows:
        while row and row[-1] is None:
            row.pop()
    return rows


def expected(sheet: Sheet) -> Iterator[list[Any]]:
    """Yield the rows of a sheet as its JSON has them."""
    content: Any = json_format.sheet_json(sheet)
    yield [content["title"]]
    yield from ([one["label"], _value(one)] for one in content["header"])
    for table in content["tables"]:
        yield []
        yield [table["title"]]
        yield [
            f"{one['title']} [{one['unit']}]" if one["unit"] else one["title"]
            for one in table["columns"]
        ]
        yield from ([_value(cell) for cell in row] for row in table["rows"])
    yield []
    yield from ([note] for note in content["notes"])


def _value(cell: Any) -> Any:
    """Return the number of a cell, else its text; an empty cell reads back as none."""
    number = isinstance(cell["value"], float | int) and not isinstance(cell["value"], bool)
    return cell["value"] if number else cell["text"] or None


@pytest.fixture(params=["clean", "busy"])
def filed(request: pytest.FixtureRequest, context: Context) -> list[Sheet]:
    """All sheets of a sample."""
    assessment: Assessment = request.getfixturevalue(request.param)
    return [SHEETS[key].build(assessment, context) for key in FILED]


def test_every_cell_of_every_sheet_is_that_of_its_json(filed: list[Sheet]) -> None:
    book = opened(*filed)
    assert len(book.worksheets) == len(filed)
    for page, sheet in zip(book.worksheets, filed, strict=True):
        wanted = list(expected(sheet))
        for row in wanted:
            while row and row[-1] is None:
                row.pop()
        assert rows_of(page) == wanted


def test_a_number_is_a_number_with_the_digits_of_its_text(small: Sheet) -> None:
    page = opened(small).worksheets[0]
    cell = next(
        cell for row in page.iter_rows() for cell in row if cell.data_type == "n" and cell.value
    )
    assert (cell.value, cell.number_format) == (2.857, "0.00")


@pytest.mark.parametrize(
    ("text", "format"),
    [
        ("2.86", "0.00"),
        ("-12", "0"),
        ("2.86 dB", '0.00" dB"'),
        ('1 "x', '0" x"'),
        ("?", "General"),
    ],
)
def test_a_number_is_shown_as_printed(text: str, format: str) -> None:
    assert xlsx.number_format(text) == format


def test_nothing_that_a_sheet_says_computes_or_links(hostile: Sheet) -> None:
    content = xlsx.document([hostile])
    page = openpyxl.load_workbook(io.BytesIO(content)).worksheets[0]
    texts = [cell for row in page.iter_rows() for cell in row if cell.value is not None]
    assert len(texts) > 40
    for cell in texts:
        assert cell.data_type == "s" and cell.hyperlink is None
        assert cell.quotePrefix
    with zipfile.ZipFile(io.BytesIO(content)) as file:
        parts = {name: file.read(name) for name in file.namelist()}
    assert not any(b"<f>" in part or b"<script" in part for part in parts.values())
    assert not any("externalLink" in name or "vba" in name.lower() for name in parts)


def test_every_hostile_text_is_there_whole(hostile: Sheet) -> None:
    rows = rows_of(opened(hostile).worksheets[0])
    assert rows[1 : 1 + len(hostile.header)] == [
        [label, cell.text] for label, cell in hostile.header
    ]


def test_tabs_have_names_of_their_own_whatever_the_titles(small: Sheet) -> None:
    titles = ["A: b/c?*[]\\", "x" * 60, "x" * 60, "history", "'quoted'", "", "Twin", "twin"]
    names = opened(*(replace(small, title=title) for title in titles)).sheetnames
    assert len({name.casefold() for name in names}) == len(titles)
    assert all(0 < len(name) <= 31 for name in names)


def test_the_title_stays_in_sight(small: Sheet) -> None:
    assert opened(small).worksheets[0].freeze_panes == "B2"


def test_the_same_sheets_give_the_same_bytes_at_another_time(
    small: Sheet, monkeypatch: pytest.MonkeyPatch
) -> None:
    before = xlsx.document([small])
    later = time.time() + 1.0e8
    monkeypatch.setattr(time, "time", lambda: later)
    assert xlsx.document([small]) == before


def test_the_date_of_a_workbook_is_that_of_its_sheets(small: Sheet) -> None:
    dated = replace(small, header=(("date", words("2026-11-20")),))
    assert opened(dated).properties.created == datetime(2026, 11, 20)
    assert opened(small).properties.created == datetime(1980, 1, 1)


def test_a_quantity_in_the_heading_is_a_number_with_its_unit_shown(small: Sheet) -> None:
    page = opened(replace(small, header=(("limit", quantity(2.5, "dB")),))).worksheets[0]
    cell = page.cell(2, 2)
    assert (cell.value, cell.number_format) == (2.5, '0.00" dB"')


def test_without_the_library_a_sentence_says_how_to_get_it(
    small: Sheet, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setitem(sys.modules, "xlsxwriter", None)
    with pytest.raises(MissingExtraError, match=r"pip install 'rfplan\[xlsx\]'"):
        xlsx.document([small])
