# SPDX-License-Identifier: Apache-2.0
"""Hostile words in every free field of a plan stay words in workbooks and on pages."""

from __future__ import annotations

import io
import re

import pytest
from sample import sample_assessment
from sheet_tables import hostile_plan

from rfplan.reports.context import Context
from rfplan.reports.formats import pdf, xlsx
from rfplan.reports.sheet import Sheet
from rfplan.reports.sheets import FILED, SHEETS

_STREAM = re.compile(rb"\bstream\r?\n.*?\bendstream", re.DOTALL)

openpyxl = pytest.importorskip("openpyxl")
pypdf = pytest.importorskip("pypdf")


@pytest.fixture
def sheets(context: Context) -> list[Sheet]:
    """Every sheet of a plan in which each text is an attack."""
    assessment = sample_assessment(hostile_plan())
    return [SHEETS[key].build(assessment, context) for key in FILED]


def test_no_cell_of_a_workbook_computes(sheets: list[Sheet]) -> None:
    book = openpyxl.load_workbook(io.BytesIO(xlsx.document(sheets)))
    cells = [cell for page in book for row in page.iter_rows() for cell in row if cell.value]
    assert len(cells) > 1000
    for cell in cells:
        assert cell.data_type in ("s", "n")
        assert cell.data_type == "n" or (cell.quotePrefix and cell.value.isprintable())


def test_no_page_runs_or_fetches_anything(sheets: list[Sheet]) -> None:
    content = pdf.document(sheets)
    told = _STREAM.sub(b"", content)  # packed bytes may spell anything, and nobody obeys them
    assert len(told) < len(content)
    for thing in (b"/JavaScript", b"/JS", b"/URI", b"/Launch", b"/EmbeddedFile", b"/AcroForm"):
        assert thing not in told
    pages = pypdf.PdfReader(io.BytesIO(content)).pages
    assert len(pages) >= len(sheets)
    for page in pages:
        assert all(line.isprintable() for line in page.extract_text().splitlines())
