# SPDX-License-Identifier: Apache-2.0
"""Drawings as SVG: well formed, inert, every pen told, names of their own beside each other."""

from __future__ import annotations

import re
from xml.etree import ElementTree

import pytest
from sheet_tables import HOSTILE

from rfplan.reports.drawing import Drawing, box
from rfplan.reports.drawing_svg import number, style, svg_element, svg_file
from rfplan.reports.formats.html import STYLE
from rfplan.reports.strokes import LETTERINGS, PENS, Picture

SVG = "{http://www.w3.org/2000/svg}"


def picture() -> Picture:
    """Return a page with a shape of each kind and a hostile text."""
    drawing = Drawing(100.0, 50.0)
    drawing.line((1.0, 2.0), (3.0, 4.0), "outline")
    with drawing.within(box((10.0, 10.0), (20.0, 20.0))):
        drawing.circle((5.0, 6.0), 7.5, "zone")
        drawing.runs([((0.0, 0.0), (1.0, 1.0)), ((2.0, 0.0), (3.0, 1.0))], "hot")
    drawing.text((1.0, 2.0), HOSTILE, 2.5, "strong", anchor="end")
    return drawing.picture()


def test_a_hostile_text_stays_text() -> None:
    svg = svg_file([picture()], HOSTILE)
    root = ElementTree.fromstring(svg)
    assert svg.isascii()
    assert not [one for one in root.iter() if "script" in one.tag]
    (text,) = [one.text for one in root.iter(f"{SVG}text")]
    assert text and "<script>alert(1)</script>" in text and text.isprintable()


@pytest.mark.parametrize(
    ("value", "text"), [(1.0, "1"), (-0.0001, "0"), (0.1 + 0.2, "0.3"), (12.3456, "12.346")]
)
def test_numbers_are_written_short_and_never_as_minus_zero(value: float, text: str) -> None:
    assert number(value) == text


def test_shapes_are_where_they_were_drawn() -> None:
    root = ElementTree.fromstring(svg_file([picture()], "t"))
    line, hot = root.iter(f"{SVG}g"), root.findall(f".//{SVG}path[@class='hot']")
    assert [one.get("d") for one in root.iter(f"{SVG}path") if one.get("class") == "outline"] == [
        "M1 2L3 4"
    ]
    assert hot[0].get("d") == "M0 0L1 1M2 0L3 1"
    (circle,) = root.iter(f"{SVG}circle")
    assert (circle.get("cx"), circle.get("cy"), circle.get("r")) == ("5", "6", "7.5")
    assert len(list(line)) == 2


def test_pages_stand_below_each_other_each_with_its_own_names() -> None:
    root = ElementTree.fromstring(svg_file([picture(), picture()], "t"))
    assert root.get("viewBox") == "0 0 100 100"
    moved = [one.get("transform") for one in root if one.tag == f"{SVG}g"]
    assert moved == ["translate(0 0)", "translate(0 50)"]
    names = [one.get("id") for one in root.iter(f"{SVG}clipPath")]
    assert len(names) == len({*names}) == 2


def test_what_a_shape_is_cut_off_at_is_there() -> None:
    element = svg_element(picture(), "a")
    root = ElementTree.fromstring(element)
    links = re.findall(r'clip-path="url\(#([^)]*)\)"', element)
    assert links == [one.get("id") for one in root.iter("clipPath")] == ["a-0"]


def test_every_pen_and_lettering_has_its_rule_and_reaches_no_text_of_a_page() -> None:
    rules = style().splitlines()
    for name in (*PENS, *LETTERINGS):
        assert len([rule for rule in rules if rule.startswith(f".drawing .{name} {{")]) == 1
    assert all(rule.startswith(".drawing ") for rule in rules)
    assert not {*PENS} & {*LETTERINGS}
    page = set(re.findall(r"\.([a-z]+)", STYLE.read_text("utf-8")))
    assert not page & {*PENS, *LETTERINGS}
