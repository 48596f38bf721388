# SPDX-License-Identifier: Apache-2.0
"""HTML: one file that needs nothing, text from files stays text, every verdict has its word."""

from __future__ import annotations

import re
from dataclasses import dataclass, field, replace
from html.parser import HTMLParser

import pytest
from hypothesis import given
from hypothesis import strategies as st

from rfplan.model.assessment import Assessment
from rfplan.model.findings import Verdict
from rfplan.reports.cells import NOT_APPLICABLE, nothing, verdict_cell, words
from rfplan.reports.context import Context
from rfplan.reports.formats import html
from rfplan.reports.formats.html import INKS, STYLE, css_text
from rfplan.reports.heading import signature
from rfplan.reports.page_columns import PAGE, SHORT
from rfplan.reports.sheet import Column, Sheet, Table
from rfplan.reports.sheets import SHEETS

TAGS = {
    *("html", "meta", "title", "style", "body", "article", "section", "h1", "h2", "p", "dl", "div"),
    *("dt", "dd", "table", "thead", "tbody", "tr", "th", "td", "span", "wbr"),
}
DRAWN = {"svg", "g", "defs", "clippath", "rect", "path", "circle", "text"}
ATTRIBUTES = {
    *("lang", "charset", "http-equiv", "content", "name", "class", "colspan", "rowspan", "scope"),
}
EMPTY = {"meta", "wbr"}


@dataclass
class Reader(HTMLParser):
    """What a browser makes of a file: its tags, its attributes, and the text of each element."""

    tags: list[str] = field(default_factory=list)
    attributes: set[str] = field(default_factory=set)
    texts: dict[str, list[str]] = field(default_factory=dict)
    inks: list[tuple[str, str]] = field(default_factory=list)
    open: list[tuple[str, str]] = field(default_factory=list)

    def __post_init__(self) -> None:
        super().__init__(convert_charrefs=True)

    def handle_starttag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        self.tags.append(tag)
        self.attributes |= {name for name, _ in attrs}
        if tag not in EMPTY:
            self.open.append((tag, dict(attrs).get("class") or ""))
            self.texts.setdefault(tag, []).append("")

    def handle_endtag(self, tag: str) -> None:
        assert self.open.pop()[0] == tag

    def handle_data(self, data: str) -> None:
        for tag in {tag for tag, _ in self.open}:
            self.texts[tag][-1] += data
        for ink in [name for tag, name in self.open if tag == "span"][:1]:
            self.inks.append((ink, data))


def read(text: str) -> Reader:
    """Return a file as it is understood; every element has to be closed."""
    reader = Reader()
    reader.feed(text)
    reader.close()
    assert reader.open == []
    return reader


def drafted(sheet: Sheet, name: str = "kite/A/design/small") -> Sheet:
    header = (
        ("sheet", words(name)),
        ("DRAFT", words("verdict FAIL, revision draft", "DRAFT")),
        *sheet.header,
    )
    return replace(sheet, header=header)


# --- the file -----------------------------------------------------------------------------------


def test_a_small_sheet_is_title_facts_table_and_notes(small: Sheet) -> None:
    reader = read(html.write(small))
    assert reader.texts["h1"] == ["Small sheet"]
    assert (reader.texts["dt"], reader.texts["dd"]) == (["state"], ["design"])
    assert reader.texts["th"] == ["path", "loss dB", "gnss1", "com1"]
    assert reader.texts["td"] == ["2.86", "?"]
    assert reader.texts["p"] == ["A note."]


@pytest.mark.parametrize("key", SHEETS)
def test_every_sheet_holds_every_text_of_its_cells(
    key: str, busy: Assessment, context: Context
) -> None:
    sheet = SHEETS[key].build(busy, context)
    reader = read(html.write(sheet))
    assert set(reader.tags) <= (TAGS | DRAWN if sheet.pictures else TAGS)
    told = {*reader.texts["th"], *reader.texts.get("td", []), *reader.texts["dd"]}
    cells = [cell for table in sheet.tables for row in table.rows for cell in row]
    texts = {cell.text for cell in [*cells, *(cell for _, cell in sheet.header)]}
    assert texts - {NOT_APPLICABLE} <= told
    assert set(sheet.notes) <= set(reader.texts["p"])


def test_a_file_needs_nothing_and_runs_nothing(small: Sheet) -> None:
    text = html.write(drafted(small))
    assert text.isascii()
    assert "default-src 'none'" in text
    assert not re.search(r"https?:|url\(|@import|<script|<link|<img|\son\w+=|javascript:", text)


def test_a_table_without_rows_says_none(small: Sheet) -> None:
    empty = replace(small, tables=(replace(small.tables[0], rows=()),))
    reader = read(html.write(empty))
    assert reader.texts["p"] == ["none", "A note."]
    assert "table" not in reader.tags


def test_several_sheets_share_a_file_and_each_has_its_own_pages(small: Sheet) -> None:
    text = html.document([small, replace(small, title="Other")])
    reader = read(text)
    assert reader.texts["h1"] == ["Small sheet", "Other"]
    assert reader.texts["title"] == ["Small sheet, Other"]
    for number in range(2):
        assert f'<article class="page{number}">' in text
        assert f".page{number} {{ page: page{number} }}" in text


# --- drawings -----------------------------------------------------------------------------------


@pytest.fixture
def placement(busy: Assessment, context: Context) -> Sheet:
    return SHEETS["placement"].build(busy, context)


def test_a_drawing_is_in_the_file_text_as_text(placement: Sheet) -> None:
    reader = read(html.write(placement))
    drawn = [text.text for picture in placement.pictures for text in picture.texts]
    assert reader.texts["text"] == drawn
    assert reader.tags.count("svg") == len(placement.pictures) > 2


def test_a_drawing_is_printed_at_its_size_each_page_on_one_of_its_own(placement: Sheet) -> None:
    text = html.write(placement)
    assert text.count('width="252mm" height="184mm" viewBox="0 0 252 184"') == len(
        placement.pictures
    )
    _, printed = STYLE.read_text("utf-8").split("@media print")
    rule = re.search(r"\.drawing \{(.*?)\}", printed)
    assert rule and "break-before: page" in rule[1] and "max-width: none" in rule[1]


def test_two_drawings_in_a_file_share_no_name_and_one_style(placement: Sheet) -> None:
    text = html.document([placement, placement])
    names = re.findall(r'\bid="([^"]*)"', text)
    assert names and len(names) == len({*names})
    assert set(re.findall(r"url\(#([^)]*)\)", text)) == {*names}
    assert text.count(".drawing .outline {") == 1


def test_a_file_without_drawings_says_nothing_of_their_pens(small: Sheet) -> None:
    assert ".outline" not in html.write(small)


# --- text from files ----------------------------------------------------------------------------


def test_hostile_texts_stay_text(hostile: Sheet) -> None:
    reader = read(html.write(drafted(hostile, '"}</style><script>x</script>')))
    assert set(reader.tags) <= TAGS
    assert reader.attributes <= ATTRIBUTES
    rows = [row[0].text for row in hostile.tables[0].rows]
    assert reader.texts["th"] == ["text", *rows]
    assert reader.texts["p"][1:] == list(hostile.notes)
    assert [text for text in reader.texts["dd"] if text in rows] == rows


def test_a_hostile_column_title_and_label_stay_text() -> None:
    bad = "\"><b onclick=x>'&amp;"
    table = Table("t", bad, (Column("c", bad, bad),), ((words(bad),),))
    reader = read(html.write(Sheet("k", bad, ((bad, words(bad)),), (table,), (bad,))))
    assert set(reader.tags) <= TAGS
    assert reader.attributes <= ATTRIBUTES
    assert reader.texts["h1"] == reader.texts["h2"] == reader.texts["dt"] == [bad]
    assert reader.texts["th"] == [f"{bad} {bad}", bad]


@given(st.text())
def test_a_text_in_the_style_cannot_leave_its_string(text: str) -> None:
    told = css_text(text)
    assert re.fullmatch(r'"[A-Za-z0-9\\ ]*"', told)
    escape = re.compile(r"\\([0-9a-f]+) ")
    assert escape.sub(lambda code: chr(int(code[1], 16)), told[1:-1]) == text


@given(st.text(alphabet="a<&>\"' -/_.\u4e2d", max_size=80))
def test_any_text_comes_back_as_it_was(text: str) -> None:
    table = Table("t", "T", (Column("c", "c"),), ((words(text),),))
    reader = read(html.write(Sheet("k", "K", (), (table,), ())))
    assert reader.texts["th"][-1] == text


# --- colours and marks --------------------------------------------------------------------------


def test_every_verdict_has_a_colour_and_its_word() -> None:
    table = Table(
        "t", "T", (Column("c", "c"),), tuple((verdict_cell(verdict),) for verdict in Verdict)
    )
    reader = read(html.write(Sheet("k", "K", (), (table,), ())))
    assert {word: ink for ink, word in reader.inks} == {
        str(verdict): INKS[verdict] for verdict in Verdict
    }


def test_every_colour_is_told_for_light_and_for_dark() -> None:
    style = STYLE.read_text("utf-8")
    light, dark = style.split("@media screen and (prefers-color-scheme: dark)")
    for ink in {*INKS.values()}:
        assert f".{ink}" in style
        assert f"--{ink}: #" in light
        assert f"--{ink}: #" in dark


def test_a_draft_is_marked_on_every_page(small: Sheet) -> None:
    text = html.document([small, drafted(small)])
    assert read(text).texts["p"][0] == "DRAFT: verdict FAIL, revision draft"
    rule = re.search(r"^\.draft \{(.*?)\}", STYLE.read_text("utf-8"), re.DOTALL | re.MULTILINE)
    assert rule
    assert "position: fixed" in rule[1]
    assert "DRAFT" not in html.write(small)


def test_pages_are_numbered_and_named(small: Sheet) -> None:
    text = html.write(drafted(small))
    assert 'counter(page) " of " counter(pages)' in text
    assert f"@bottom-left {{ content: {css_text('kite/A/design/small')} }}" in text
    assert "size: landscape" in text
    assert "thead { display: table-header-group }" in text


def test_a_wide_table_is_folded_with_its_stub_in_front() -> None:
    columns = tuple(Column(f"c{number}", f"c{number}") for number in range(PAGE))
    table = Table("t", "T", columns, (tuple(words(f"v{number}") for number in range(PAGE)),))
    reader = read(html.write(Sheet("k", "K", (), (table,), ())))
    assert reader.tags.count("table") > 1
    assert all(text.strip().startswith("c0") for text in reader.texts["thead"])
    assert all(text.strip().startswith("v0") for text in reader.texts["tbody"])


def test_a_column_that_is_empty_in_every_row_is_named_and_left_out(small: Sheet) -> None:
    columns = (Column("path", "path"), Column("waiver", "waiver"), Column("on", "on"))
    rows = ((words("gnss1"), nothing(), words("top")), (words("com1"), nothing(), nothing()))
    table = Table("t", "T", columns, rows)
    reader = read(html.write(replace(small, tables=(table,))))
    assert reader.texts["th"] == ["path", "on", "gnss1", "com1"]
    assert "Empty in every row: waiver." in reader.texts["p"]


def test_a_short_table_is_kept_on_one_page(small: Sheet) -> None:
    row = (words("gnss1"), words("2.86"))
    for count, short in ((SHORT, True), (SHORT + 1, False)):
        table = replace(small.tables[0], rows=(row,) * count)
        text = html.write(replace(small, tables=(table,)))
        assert ('<section class="short">' in text) == short


def test_a_shared_heading_spans_its_columns() -> None:
    titles = ("margin to min", "margin to max")
    columns = tuple(Column(title, title, "dB", "right") for title in titles)
    table = Table("t", "T", columns, ((words("1"), words("2")),), stub=0)
    text = html.write(Sheet("k", "K", (), (table,), ()))
    assert '<th colspan="2" scope="colgroup">margin to <span class="unit">dB</span></th>' in text
    assert read(text).texts["th"] == ["margin to dB", "min", "max"]


def test_a_place_to_sign_is_wide_enough_to_sign(small: Sheet) -> None:
    table = Table("t", "T", (Column("c", "c"),), ((signature(),),))
    assert '<span class="sign">________</span>' in html.write(replace(small, tables=(table,)))


def test_a_long_hash_is_kept_whole(small: Sheet) -> None:
    sheet = replace(small, header=(("plan hash", words("0123456789abcdef" * 4)),))
    assert read(html.write(sheet)).texts["dd"] == ["0123456789abcdef" * 4]
