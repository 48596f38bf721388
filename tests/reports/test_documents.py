# SPDX-License-Identifier: Apache-2.0
"""The date of a document comes from its sheets, never from a clock."""

from __future__ import annotations

from datetime import UTC, datetime

import pytest

from rfplan.reports.cells import words
from rfplan.reports.documents import (
    LIBRARIES,
    NO_DATE,
    MissingExtraError,
    library,
    made_on,
    missing_library,
    told,
)
from rfplan.reports.sheet import Sheet


def dated(*texts: str) -> Sheet:
    return Sheet("k", "Title", tuple(("date", words(text)) for text in texts), (), ())


def test_the_first_date_that_a_sheet_tells_counts() -> None:
    sheets = [dated(), dated("undated"), dated("2026-11-20"), dated("2027-01-01")]
    assert made_on(sheets) == datetime(2026, 11, 20, tzinfo=UTC)


def test_without_a_date_it_is_always_the_same_one() -> None:
    assert made_on([dated(), dated("31.12.2026")]) == made_on([]) == NO_DATE


def test_what_a_heading_tells_is_found_by_its_label() -> None:
    cell = told(dated("2026-11-20"), "date")
    assert cell is not None and cell.text == "2026-11-20"
    assert told(dated(), "date") is None


def test_a_library_that_is_not_there_is_asked_for_by_its_extra(
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    assert missing_library("pdf") == missing_library("text") == ""
    monkeypatch.setitem(LIBRARIES, "pdf", "no_such_library_at_all")
    with pytest.raises(MissingExtraError, match=r"pip install 'rfplan\[pdf\]'"):
        library("pdf")
