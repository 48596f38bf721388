# SPDX-License-Identifier: Apache-2.0
"""Hostile words wherever a file may hold words stay words on every sheet in every format."""

from __future__ import annotations

import csv
import io
import json
import re
from html.parser import HTMLParser

import pytest
from sample import sample_assessment
from sheet_tables import hostile_plan

from rfplan.model.assessment import Assessment
from rfplan.reports.context import Context
from rfplan.reports.formats import csv as commas
from rfplan.reports.formats import html, markdown, text
from rfplan.reports.formats import json as programs
from rfplan.reports.sheets import SHEETS

NUMBER = re.compile(r"[-+]?[0-9]+(\.[0-9]+)?")


@pytest.fixture(scope="module")
def hostile() -> Assessment:
    return sample_assessment(hostile_plan())


@pytest.mark.parametrize("key", SHEETS)
def test_a_page_holds_no_element_of_theirs(key: str, hostile: Assessment, context: Context) -> None:
    page = html.write(SHEETS[key].build(hostile, context))
    found: list[str] = []
    reader = HTMLParser()
    reader.handle_starttag = lambda tag, attrs: found.append(tag)  # type: ignore[method-assign]
    reader.feed(page)
    assert "article" in found
    assert not {"script", "b", "img", "a", "iframe"} & set(found)
    assert page.isascii()


@pytest.mark.parametrize("key", SHEETS)
def test_a_terminal_is_sent_nothing_but_what_can_be_seen(
    key: str, hostile: Assessment, context: Context
) -> None:
    sheet = SHEETS[key].build(hostile, context)
    for told in (text.write(sheet, width=100), markdown.write(sheet)):
        assert all(line.isprintable() for line in told.splitlines())


@pytest.mark.parametrize("key", SHEETS)
def test_a_spreadsheet_is_given_nothing_to_compute(
    key: str, hostile: Assessment, context: Context
) -> None:
    told = commas.write(SHEETS[key].build(hostile, context))
    for row in csv.reader(io.StringIO(told, newline="")):
        for cell in row:
            assert not cell.startswith(tuple("=+-@\t\r")) or NUMBER.fullmatch(cell), cell


@pytest.mark.parametrize("key", SHEETS)
def test_programs_read_one_object(key: str, hostile: Assessment, context: Context) -> None:
    assert json.loads(programs.write(SHEETS[key].build(hostile, context)))["sheet"] == key
