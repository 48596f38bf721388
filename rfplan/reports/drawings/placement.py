# SPDX-License-Identifier: Apache-2.0
"""The placement drawing: views to scale, then a detail and a section of each antenna."""

from __future__ import annotations

from collections.abc import Sequence

from rfplan.model.assessment import Assessment
from rfplan.reports.context import Context
from rfplan.reports.drawing_svg import Drawing
from rfplan.reports.drawings.arrangement import draw_arrangement, windows
from rfplan.reports.drawings.details import CELL, draw_cell
from rfplan.reports.drawings.marks import Mark, subject_of
from rfplan.reports.drawings.page import HEIGHT, KEY, WIDTH, Page, draw_page
from rfplan.reports.drawings.regions import define_hatches
from rfplan.reports.heading import sheet_id

COLUMNS, ROWS = 2, 3
BETWEEN = 2.0
"""Between two cells, in millimetres."""


def placement_svg(assessment: Assessment, context: Context) -> str:
    """Return the placement drawing as one SVG file, its pages below each other."""
    subject = subject_of(assessment, context)
    cells = _pages_of(subject.marks)
    pages = 1 + len(cells)
    drawing = Drawing(WIDTH, HEIGHT * pages)
    define_hatches(drawing)
    scale = windows(subject, 0.0)[0].scale
    first = Page(0.0, 1, pages, "Placement of antennas: arrangement", f"1:{scale}")
    draw_page(drawing, first, subject)
    draw_arrangement(drawing, first, subject)
    for place, some in enumerate(cells, start=1):
        title = f"Placement of antennas: {some[0].number} to {some[-1].number}"
        page = Page(HEIGHT * place, place + 1, pages, title, "as stated")
        draw_page(drawing, page, subject)
        for spot, mark in enumerate(some):
            draw_cell(drawing, _corner(page, spot), mark, subject)
    return drawing.svg(sheet_id(assessment.plan, KEY))


def _pages_of(numbered: Sequence[Mark]) -> list[Sequence[Mark]]:
    each = COLUMNS * ROWS
    return [numbered[start : start + each] for start in range(0, len(numbered), each)]


def _corner(page: Page, spot: int) -> tuple[float, float]:
    row, column = divmod(spot, COLUMNS)
    x, y = page.corner
    return (
        x + BETWEEN + column * (CELL[0] + BETWEEN),
        y + BETWEEN + row * (CELL[1] + BETWEEN),
    )
