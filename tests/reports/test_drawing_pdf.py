# SPDX-License-Identifier: Apache-2.0
"""Drawings on pages to print: true size, cut off where they end, every text as text."""

from __future__ import annotations

import io
import re

import pytest

from rfplan.reports.documents import NO_DATE, PaperName
from rfplan.reports.drawing import Drawing, box
from rfplan.reports.drawing_pdf import draw
from rfplan.reports.paper import HEAD_MM, SIZES_MM, Paper
from rfplan.reports.strokes import PENS, Picture

pypdf = pytest.importorskip("pypdf")
pytestmark = pytest.mark.filterwarnings("ignore::DeprecationWarning")


def page_of(picture: Picture, paper: PaperName = "a4") -> tuple[str, str]:
    """Return the text of a page with a picture, and how its shapes are drawn."""
    page = Paper(paper, NO_DATE, "")
    page.start("Drawn", "drawn")
    draw(page, picture)
    (read,) = pypdf.PdfReader(io.BytesIO(page.content())).pages
    return read.extract_text(), read.get_contents().get_data().decode("latin-1")


@pytest.mark.parametrize("paper", ["a4", "letter"])
def test_a_millimetre_of_the_drawing_is_one_on_paper(paper: PaperName) -> None:
    drawing = Drawing(200.0, 100.0)
    drawing.line((10.0, 20.0), (60.0, 20.0), "outline")
    _, shapes = page_of(drawing.picture(), paper)
    scale = re.search(r"([\d.]+) 0 0 -[\d.]+ 0 [\d.]+ cm", shapes)
    assert scale and float(scale[1]) == pytest.approx(72.0 / 25.4, abs=1e-3)
    left, top = (SIZES_MM[paper][0] - 200.0) / 2.0 + 10.0, HEAD_MM + 20.0
    ends = re.search(r"([\d.]+) ([\d.]+) m ([\d.]+) ([\d.]+) l", shapes)
    assert ends and [float(one) for one in ends.groups()] == pytest.approx(
        [left, top, left + 50.0, top], abs=1e-3
    )


def test_open_lines_stay_open_and_closed_ones_are_closed_and_filled() -> None:
    drawing = Drawing(200.0, 100.0)
    drawing.runs([((0.0, 0.0), (9.0, 0.0), (9.0, 9.0))], "line")
    assert " h" not in page_of(drawing.picture())[1]
    drawing.rect((10.0, 10.0), (5.0, 5.0), "base")
    assert re.search(r" l h B\b", page_of(drawing.picture())[1])


def test_shapes_are_cut_off_within_both_lines() -> None:
    drawing = Drawing(200.0, 100.0)
    with drawing.within(box((0.0, 0.0), (9.0, 9.0))), drawing.within(box((1.0, 1.0), (9.0, 9.0))):
        drawing.circle((5.0, 5.0), 30.0)
    assert len(re.findall(r"h W n", page_of(drawing.picture())[1])) == 2


def test_texts_are_text_wherever_they_are_anchored() -> None:
    drawing = Drawing(200.0, 100.0)
    drawing.text((50.0, 10.0), "12.5 aft of fr27", 2.5, "measure", anchor="middle")
    drawing.text((190.0, 20.0), "right of it", 2.5, "strong", anchor="end")
    text, _ = page_of(drawing.picture())
    assert "12.5 aft of fr27" in text and "right of it" in text


@pytest.mark.parametrize("name", PENS)
def test_every_pen_can_be_drawn_with(name: str) -> None:
    drawing = Drawing(200.0, 100.0)
    drawing.rect((10.0, 10.0), (5.0, 5.0), name)
    _, shapes = page_of(drawing.picture())
    painted = {(True, False): "S", (False, True): "f", (True, True): "B"}
    pen = PENS[name]
    assert re.search(rf"h {painted[pen.colour is not None, pen.fill is not None]}\b", shapes)
