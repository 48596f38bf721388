# SPDX-License-Identifier: Apache-2.0
"""The placement drawing: views to scale, a legend, then a detail and a section of each antenna."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Sequence
from functools import partial

from rfplan.model.assessment import Assessment
from rfplan.reports.context import Context
from rfplan.reports.drawing import Drawing
from rfplan.reports.drawing_svg import svg_file
from rfplan.reports.drawings.arrangement import draw_views, view_pages
from rfplan.reports.drawings.details import CELL, draw_cell
from rfplan.reports.drawings.legend import draw_legend, legend_pages
from rfplan.reports.drawings.marks import Mark, Subject, subject_of
from rfplan.reports.drawings.page import BORDER, KEY, Page, new_page
from rfplan.reports.heading import sheet_id
from rfplan.reports.strokes import Picture

EACH = 2
"""Details on a page."""
BETWEEN = 2.0
"""Between two details, in millimetres."""

_Draw = Callable[[Drawing], None]


def placement(assessment: Assessment, context: Context) -> tuple[Picture, ...]:
    """Return the placement drawing, page by page."""
    subject = subject_of(assessment, context)
    contents = list(_contents(subject))
    pictures = []
    for number, (title, scales, draw) in enumerate(contents, start=1):
        page = Page(number, len(contents), f"Placement of antennas: {title}", scales)
        drawing = new_page(page, subject)
        draw(drawing)
        pictures.append(drawing.picture())
    return tuple(pictures)


def placement_svg(assessment: Assessment, context: Context) -> str:
    """Return the placement drawing as one SVG file, its pages below each other."""
    return svg_file(placement(assessment, context), sheet_id(assessment.plan, KEY))


def _contents(subject: Subject) -> Iterator[tuple[str, str, _Draw]]:
    """Yield what each page shows, at which scales, and what draws it."""
    for windows in view_pages(subject):
        scale = f"1:{windows[0].scale}"
        yield "views", scale, partial(draw_views, windows=windows, subject=subject)
    for columns in legend_pages(subject):
        yield "legend", "", partial(draw_legend, columns=columns)
    for start in range(0, len(subject.marks), EACH):
        some = subject.marks[start : start + EACH]
        title = " and ".join(str(mark.number) for mark in some)
        yield title, "as stated", partial(_draw_details, marks=some, subject=subject)


def _draw_details(drawing: Drawing, *, marks: Sequence[Mark], subject: Subject) -> None:
    for place, mark in enumerate(marks):
        y = BORDER + BETWEEN + place * (CELL[1] + BETWEEN)
        draw_cell(drawing, (BORDER + BETWEEN, y), mark, subject)
