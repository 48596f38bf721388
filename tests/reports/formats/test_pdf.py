# SPDX-License-Identifier: Apache-2.0
"""Pages to print, read back by another library: all text is there, each page says what it is."""

from __future__ import annotations

import io
import sys
import time
from dataclasses import replace
from datetime import UTC, datetime

import pytest

from rfplan.model.assessment import Assessment
from rfplan.reports.cells import nothing, words
from rfplan.reports.context import Context
from rfplan.reports.documents import MissingExtraError, PaperName
from rfplan.reports.formats import pdf
from rfplan.reports.page_columns import SHORT
from rfplan.reports.sheet import Sheet
from rfplan.reports.sheets import FILED, SHEETS

pypdf = pytest.importorskip("pypdf")
pytestmark = pytest.mark.filterwarnings("ignore::DeprecationWarning")


def pages_of(*sheets: Sheet, paper: PaperName = "a4") -> list[str]:
    reader = pypdf.PdfReader(io.BytesIO(pdf.document(sheets, paper)))
    return [page.extract_text() for page in reader.pages]


def squeezed(text: str) -> str:
    """Return a text without the blanks and breaks that setting it puts in or takes out."""
    return "".join(text.split())


@pytest.fixture
def filed(busy: Assessment, context: Context) -> list[Sheet]:
    """All sheets of a sample with something to say on each."""
    return [SHEETS[key].build(busy, context) for key in FILED]


def test_every_number_and_word_of_every_sheet_is_on_its_pages(filed: list[Sheet]) -> None:
    for sheet in filed:
        text = squeezed("".join(pages_of(sheet)))
        for table in sheet.tables:
            for cell in (cell for row in table.rows for cell in row):
                for word in cell.text.split():
                    if set(word) != {"_"}:
                        assert word[:14] in text, (sheet.key, word)


def test_each_sheet_begins_a_page_of_its_own(filed: list[Sheet]) -> None:
    pages = pages_of(*filed)
    begun = [sheet.title for page in pages for sheet in filed if page.find(sheet.title + "\n") > 0]
    assert len(pages) >= len(filed)
    assert {sheet.title for sheet in filed} <= {*begun}


def test_each_page_tells_its_number_of_all(filed: list[Sheet]) -> None:
    pages = pages_of(*filed)
    for number, page in enumerate(pages, start=1):
        assert f"page {number} of {len(pages)}" in page


def test_each_page_of_a_draft_says_so(filed: list[Sheet]) -> None:
    assert all("DRAFT: verdict FAIL" in page for page in pages_of(*filed))


def test_no_page_of_what_is_filed_says_draft(small: Sheet) -> None:
    assert not any("DRAFT" in page for page in pages_of(small))


@pytest.mark.parametrize(("paper", "width", "height"), [("a4", 297, 210), ("letter", 279.4, 215.9)])
def test_pages_lie_sideways_in_the_size_asked_for(
    small: Sheet, paper: PaperName, width: float, height: float
) -> None:
    (page,) = pypdf.PdfReader(io.BytesIO(pdf.document([small], paper))).pages
    found = float(page.mediabox.width), float(page.mediabox.height)
    assert found == pytest.approx((width / 25.4 * 72, height / 25.4 * 72), abs=0.1)


def test_text_is_never_more_than_text(hostile: Sheet) -> None:
    content = pdf.document([hostile])
    (page, *_) = pypdf.PdfReader(io.BytesIO(content)).pages
    text = squeezed(page.extract_text())
    for attack in ("=HYPERLINK(1)", "<script>x</script>", "back\\slash", "&lt;", "**bold**"):
        assert squeezed(attack) in text
    for thing in (b"/JavaScript", b"/JS", b"/URI", b"/Launch", b"/OpenAction /S", b"/EmbeddedFile"):
        assert thing not in content


def test_a_letter_that_the_fonts_do_not_have_is_told_by_its_number(small: Sheet) -> None:
    (page,) = pages_of(replace(small, notes=("\u4e2d \U0001f6e9 \u03a9",)))
    assert "\\u4e2d \\U0001f6e9 \u03a9" in page


def test_a_drawing_is_on_pages_of_its_own_text_as_text(filed: list[Sheet]) -> None:
    sheet = next(sheet for sheet in filed if sheet.pictures)
    pages = pages_of(sheet)
    assert len(pages) > len(sheet.pictures)
    for picture, page in zip(sheet.pictures, pages[-len(sheet.pictures) :], strict=True):
        told = squeezed(page)
        assert all(squeezed(text.text) in told for text in picture.texts)
        assert "DRAFT: verdict FAIL" in page and sheet.title in page


def test_all_fonts_are_inside(small: Sheet) -> None:
    (page,) = pypdf.PdfReader(io.BytesIO(pdf.document([small]))).pages
    fonts = page["/Resources"]["/Font"]
    assert len(fonts) >= 2
    for font in fonts.values():
        below = font.get_object()["/DescendantFonts"][0].get_object()
        assert "/FontFile2" in below["/FontDescriptor"].get_object()


def test_a_row_taller_than_a_page_goes_on_overleaf_and_loses_nothing(small: Sheet) -> None:
    (table,) = small.tables
    columns = (table.columns[0], replace(table.columns[0], key="text", title="text"))
    texts = [" ".join(f"w{n}" for n in range(at, at + 300)) for at in range(0, 3900, 300)]
    rows = tuple((words("row"), words(text)) for text in texts)
    tall = replace(table, columns=columns, rows=rows)
    pages = pages_of(replace(small, tables=(tall,)))
    assert len(pages) > 2
    whole = squeezed("".join(pages))
    assert all(f"w{number}" in whole for number in range(3900))
    assert all("Paths, continued" in page for page in pages[1:-1])


def test_one_row_of_many_narrow_columns_stays_on_the_page(small: Sheet) -> None:
    (table,) = small.tables
    columns = tuple(replace(table.columns[0], key=f"c{n}", title=f"c{n}") for n in range(60))
    row = tuple(words("unbreakable" * 20) for _ in columns)
    text = "".join(pages_of(replace(small, tables=(replace(table, columns=columns, rows=(row,)),))))
    assert squeezed(text).count("unbreak") >= 60


def test_the_last_row_of_a_table_and_the_notes_share_a_page(small: Sheet) -> None:
    (table,) = small.tables
    for count in range(20, 60):
        rows = tuple((words(f"path{number}"), words("1")) for number in range(count))
        pages = pages_of(replace(small, tables=(replace(table, rows=rows),), notes=("note",) * 6))
        assert f"path{count - 1}" in pages[-1] and pages[-1].count("note") == 6


@pytest.mark.parametrize("count", [2, SHORT])
def test_a_short_table_is_not_torn(small: Sheet, count: int) -> None:
    (table,) = small.tables
    for before in range(15, 50):
        above = tuple((words(f"path{number}"), words("1")) for number in range(before))
        rows = tuple((words(f"last{number}"), words("1")) for number in range(count))
        tables = replace(table, rows=above), replace(table, rows=rows)
        pages = pages_of(replace(small, tables=tables))
        assert len([page for page in pages if "last" in page]) == 1


def test_a_column_that_is_empty_in_every_row_is_named_and_left_out(small: Sheet) -> None:
    (table,) = small.tables
    rows = tuple((row[0], nothing()) for row in table.rows)
    (page,) = pages_of(replace(small, tables=(replace(table, rows=rows),)))
    assert "Empty in every row: loss." in page


@pytest.mark.parametrize("paper", ["a4", "letter"])
def test_hashes_stand_whole_in_the_heading(filed: list[Sheet], paper: PaperName) -> None:
    page = pages_of(filed[0], paper=paper)[0]
    hashes = [cell.text for label, cell in filed[0].header if "hash" in label]
    assert len(hashes) == 3 and all(one in page for one in hashes)


def test_the_same_sheets_give_the_same_bytes_at_another_time(
    small: Sheet, monkeypatch: pytest.MonkeyPatch
) -> None:
    before = pdf.document([small])
    later = time.time() + 1.0e8
    monkeypatch.setattr(time, "time", lambda: later)
    monkeypatch.setenv("TZ", "Asia/Tokyo")
    time.tzset()
    assert pdf.document([small]) == before


def test_the_date_of_the_document_is_that_of_its_sheets(small: Sheet) -> None:
    dated = replace(small, header=(("date", words("2026-11-20")),))
    about = pypdf.PdfReader(io.BytesIO(pdf.document([dated]))).xmp_metadata
    assert about.xmp_create_date.replace(tzinfo=UTC) == datetime(2026, 11, 20, tzinfo=UTC)


def test_without_the_library_a_sentence_says_how_to_get_it(
    small: Sheet, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setitem(sys.modules, "fpdf", None)
    with pytest.raises(MissingExtraError, match=r"pip install 'rfplan\[pdf\]'"):
        pdf.document([small])
