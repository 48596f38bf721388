# SPDX-License-Identifier: Apache-2.0
"""What an archive asks of a PDF, looked for in the bytes: PDF/A-2b as far as it can be seen here.

The demands are those of ISO 19005-2 as remembered, clause by clause; no validator runs here.
"""

from __future__ import annotations

import io
import re
from collections.abc import Iterator
from datetime import date
from typing import Any
from xml.etree import ElementTree

import pytest
from demo_plans import assessed

from rfplan import __version__
from rfplan.reports.canonical import hashes_of
from rfplan.reports.context import Context
from rfplan.reports.formats import pdf
from rfplan.reports.sheet import Cell, Sheet
from rfplan.reports.sheets import FILED, SHEETS

pypdf = pytest.importorskip("pypdf")
ttlib = pytest.importorskip("fontTools.ttLib")
pytestmark = pytest.mark.filterwarnings("ignore::DeprecationWarning")

XMP = {
    "dc": "http://purl.org/dc/elements/1.1/",
    "rdf": "http://www.w3.org/1999/02/22-rdf-syntax-ns#",
    "xmp": "http://ns.adobe.com/xap/1.0/",
    "pdfaid": "http://www.aiim.org/pdfa/ns/id/",
}

RUNS_OR_IS_FETCHED = {
    *("/AA", "/JS", "/JavaScript", "/Launch", "/URI", "/GoToR", "/SubmitForm", "/ImportData"),
    *("/Movie", "/Sound", "/Rendition", "/EmbeddedFile", "/EmbeddedFiles", "/XFA", "/OPI", "/PS"),
    *("/Ref", "/TR", "/TR2", "/HTP", "/Encrypt", "/LZWDecode", "/Crypt", "/F", "/FFilter"),
    *("/Annots", "/AcroForm", "/OCProperties", "/SMask"),
}

COLOUR_WITHOUT_MEANING = {"k", "K", "cs", "CS", "sc", "SC", "scn", "SCN", "sh", "ri", "BI"}
"""Operators of colours that are not red, green and blue, or of images."""


@pytest.fixture(scope="module")
def content() -> bytes:
    """All filed sheets of a demo aircraft, its drawing among them."""
    assessment = assessed("amphibian")
    plan, rulebook = assessment.plan, assessment.rulebook
    context = Context(hashes_of(plan, assessment.catalog, rulebook), date=str(date(2026, 11, 25)))
    return pdf.document([SHEETS[key].build(assessment, context) for key in FILED])


@pytest.fixture(scope="module")
def reader(content: bytes) -> Any:
    return pypdf.PdfReader(io.BytesIO(content))


def objects(reader: Any) -> Iterator[Any]:
    """Yield every object of a file."""
    for number in range(1, int(reader.trailer["/Size"])):
        yield reader.get_object(pypdf.generic.IndirectObject(number, 0, reader)).get_object()


def mappings(thing: Any) -> Iterator[Any]:
    """Yield every mapping that stands in an object itself."""
    if isinstance(thing, pypdf.generic.DictionaryObject):
        yield thing
        for value in dict.values(thing):
            yield from mappings(value)
    elif isinstance(thing, pypdf.generic.ArrayObject):
        for value in list.__iter__(thing):
            yield from mappings(value)


def test_head_and_end_are_those_of_a_binary_file_that_can_be_told_apart(
    content: bytes, reader: Any
) -> None:
    assert re.match(rb"%PDF-1\.[4-7]\n%[\x80-\xff]{4}\n", content)
    assert re.search(rb"%%EOF\r?\n?\Z", content)
    assert len(reader.trailer["/ID"]) == 2
    assert "/Encrypt" not in reader.trailer and "/Info" not in reader.trailer


def test_it_says_of_itself_what_it_is_and_of_which_sheet_and_day(reader: Any) -> None:
    stream = reader.trailer["/Root"]["/Metadata"].get_object()
    assert (stream["/Type"], stream["/Subtype"]) == ("/Metadata", "/XML")
    packet = stream.get_data().decode("utf-8")
    assert re.match('<\\?xpacket begin="\ufeff" id="W5M0MpCehiHzreSzNTczkc9d"\\?>', packet)
    about = ElementTree.fromstring(packet[packet.index("<x:") : packet.index("</x:xmpmeta>") + 12])
    told = {
        name: about.findtext(f".//{name}", namespaces=XMP)
        for name in ("pdfaid:part", "pdfaid:conformance", "xmp:CreateDate", "xmp:CreatorTool")
    }
    assert list(told.values()) == ["2", "B", "2026-11-25T00:00:00+00:00", f"rfplan {__version__}"]
    title = about.findtext(".//dc:title/rdf:Alt/rdf:li", namespaces=XMP)
    assert title == "amphibian/B/design/loss_budget"


def test_a_title_is_text_and_never_more(hostile: Sheet) -> None:
    told = pypdf.PdfReader(io.BytesIO(pdf.document([hostile]))).trailer["/Root"]["/Metadata"]
    packet = told.get_object().get_data().decode("utf-8")
    about = ElementTree.fromstring(packet[packet.index("<x:") : packet.index("</x:xmpmeta>") + 12])
    title = about.find(".//dc:title/rdf:Alt/rdf:li", namespaces=XMP)
    assert title is not None and len(title) == 0
    assert title.text in (hostile.title, dict(hostile.header).get("sheet", Cell("")).text)


def test_what_red_green_and_blue_mean_is_inside(reader: Any) -> None:
    (intent,) = reader.trailer["/Root"]["/OutputIntents"]
    assert intent["/S"] == "/GTS_PDFA1"
    profile = intent["/DestOutputProfile"].get_object()
    measured = profile.get_data()
    assert (profile["/N"], measured[36:40], measured[16:20]) == (3, b"acsp", b"RGB ")
    assert int.from_bytes(measured[:4], "big") == len(measured)
    assert measured[8] <= 4


def test_every_colour_is_one_of_those_that_have_a_meaning(reader: Any) -> None:
    deepest = 0
    for page in reader.pages:
        depth = 0
        for _, operator in pypdf.generic.ContentStream(page.get_contents(), reader).operations:
            name = operator.decode()
            assert name not in COLOUR_WITHOUT_MEANING
            depth += {"q": 1, "Q": -1}.get(name, 0)
            deepest = max(deepest, depth)
        assert depth == 0
    assert 0 < deepest <= 28


def test_nothing_runs_is_fetched_or_hidden(reader: Any) -> None:
    for thing in objects(reader):
        for mapping in mappings(thing):
            found = {*mapping.keys(), *(str(one) for one in dict.values(mapping))}
            assert found.isdisjoint(RUNS_OR_IS_FETCHED), mapping
            assert mapping.get("/Filter", "/FlateDecode") == "/FlateDecode"
            assert mapping.get("/BM", "/Normal") == "/Normal"
            assert mapping.get("/S") in (None, "/GTS_PDFA1", "/Transparency")
    first = reader.trailer["/Root"]["/OpenAction"]
    assert isinstance(first, pypdf.generic.ArrayObject)  # a page to begin at, no action


def fonts(reader: Any) -> list[Any]:
    """Return the fonts of all pages, each once."""
    named = (font for page in reader.pages for font in page["/Resources"]["/Font"].values())
    return list({font.get_object()["/BaseFont"]: font.get_object() for font in named}.values())


def test_every_font_is_inside_with_what_its_letters_mean(reader: Any) -> None:
    assert len(fonts(reader)) == 2
    for font in fonts(reader):
        below = font["/DescendantFonts"][0].get_object()
        assert (font["/Subtype"], font["/Encoding"]) == ("/Type0", "/Identity-H")
        assert below["/CIDToGIDMap"] is not None and "/ToUnicode" in font
        assert re.match(r"/[A-Z]{6}\+", below["/BaseFont"])


def shown(reader: Any) -> dict[str, set[int]]:
    """Return the numbers of the letters that pages show, by the name of their font."""
    numbers: dict[str, set[int]] = {}
    for page in reader.pages:
        named = page["/Resources"]["/Font"]
        font = ""
        for operands, operator in pypdf.generic.ContentStream(
            page.get_contents(), reader
        ).operations:
            if operator == b"Tf":
                font = named[operands[0]].get_object()["/BaseFont"]
            for part in operands[0] if operator == b"TJ" else operands * (operator == b"Tj"):
                if not isinstance(part, int | float):
                    code = part if isinstance(part, bytes) else part.original_bytes
                    pairs = zip(code[::2], code[1::2], strict=True)
                    numbers.setdefault(font, set()).update(256 * one + two for one, two in pairs)
    return numbers


def test_letters_that_are_shown_are_there_and_as_wide_as_the_file_says(reader: Any) -> None:
    for font in fonts(reader):
        below = font["/DescendantFonts"][0].get_object()
        inside = ttlib.TTFont(
            io.BytesIO(below["/FontDescriptor"].get_object()["/FontFile2"].get_data())
        )
        advances, unit = inside["hmtx"].metrics, inside["head"].unitsPerEm
        order, told = inside.getGlyphOrder(), widths(below["/W"])
        glyphs, used = glyph_of(below), shown(reader)[font["/BaseFont"]]
        assert len(used) > 40
        for number in used:
            glyph = glyphs(number)
            assert 0 < glyph < len(order)
            assert told[number] == pytest.approx(1000.0 * advances[order[glyph]][0] / unit, abs=1)


def widths(told: Any) -> dict[int, float]:
    """Return the widths of letters by their numbers: `c [w ...]` or `first last w`."""
    found: dict[int, float] = {}
    items = list(told)
    while items:
        first = int(items.pop(0))
        second = items.pop(0)
        if isinstance(second, pypdf.generic.ArrayObject):
            found |= {first + place: float(width) for place, width in enumerate(second)}
        else:
            width = float(items.pop(0))
            found |= dict.fromkeys(range(first, int(second) + 1), width)
    return found


def glyph_of(below: Any) -> Any:
    """Return what turns the number of a letter into that of its glyph."""
    told = below["/CIDToGIDMap"]
    if told == "/Identity":
        return lambda cid: cid
    table = told.get_object().get_data()
    return lambda cid: int.from_bytes(table[2 * cid : 2 * cid + 2], "big")
