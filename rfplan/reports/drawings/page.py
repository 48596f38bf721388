# SPDX-License-Identifier: Apache-2.0
"""A page of a drawing: A3 across, its border, its title block, its scale bar."""

from __future__ import annotations

from dataclasses import dataclass
from itertools import pairwise

from rfplan.model.assessment import Assessment
from rfplan.model.plan import Person
from rfplan.reports.cells import LengthUnit
from rfplan.reports.drawing_svg import XY, Drawing, fitted
from rfplan.reports.drawings.marks import Subject
from rfplan.reports.drawings.paper import Window, rules
from rfplan.reports.heading import sheet_id
from rfplan.reports.outcome import is_draft

WIDTH, HEIGHT = 420.0, 297.0
BORDER = 10.0
BLOCK = 26.0
"""Height of the title block, along the lower border."""

KEY = "placement"

TEXT, SMALL = 2.5, 2.1
_PAD = 1.3

CAUTION = (
    "Planning aid. Equipment and airframe data, licensed practice and the local authority prevail.",
    "Measure on the aircraft before drilling. True to scale where printed at 100 %.",
)


@dataclass(frozen=True, slots=True)
class Page:
    """One page: where its upper edge is, its number, and the scales on it."""

    top: float
    number: int
    pages: int
    title: str
    scales: str

    @property
    def corner(self) -> XY:
        """The upper left corner inside the border."""
        return BORDER, self.top + BORDER

    @property
    def room(self) -> XY:
        """What is left for the drawing inside border and title block."""
        return WIDTH - 2.0 * BORDER, HEIGHT - 2.0 * BORDER - BLOCK


def draw_page(drawing: Drawing, page: Page, subject: Subject) -> None:
    """Draw border and title block of a page."""
    left, top = BORDER, page.top + BORDER
    drawing.rect((left, top), (WIDTH - 2.0 * BORDER, HEIGHT - 2.0 * BORDER), "outline")
    y = page.top + HEIGHT - BORDER - BLOCK
    drawing.line((left, y), (WIDTH - BORDER, y), "outline")
    x = left
    for width, fields in _columns(page, subject):
        _column(drawing, (x, y), width, fields)
        x += width
        if x < WIDTH - BORDER - 0.1:
            drawing.line((x, y), (x, y + BLOCK), "")


_Fields = tuple[tuple[str, str, str], ...]
"""Label, text and pen of each field of a column, from top to bottom."""


def _columns(page: Page, subject: Subject) -> tuple[tuple[float, _Fields], ...]:
    assessment, context = subject.assessment, subject.context
    plan, revision = assessment.plan, assessment.plan.revision
    day = revision.date.isoformat() if revision.date else "-"
    draft = ("DRAFT", str(assessment.verdict), "alert")
    verdict = ("verdict", str(assessment.verdict), "strong")
    return (
        (
            116.0,
            (
                ("drawing", sheet_id(plan, KEY), "strong"),
                ("title", page.title, "strong"),
                ("plan", plan.title, ""),
                ("", CAUTION[0], "grey"),
                ("", CAUTION[1], "grey"),
            ),
        ),
        (
            64.0,
            (
                ("aircraft", plan.airframe.name, "strong"),
                ("serial", ", ".join(filter(None, (plan.serial, plan.variant))) or "-", ""),
                ("state", str(plan.state), ""),
                ("file", context.plan_file or "-", "grey"),
            ),
        ),
        (
            42.0,
            (
                ("revision", revision.letter or "-", "strong"),
                ("status", revision.status or "-", ""),
                ("date", context.date or day, ""),
                draft if is_draft(assessment) else verdict,
            ),
        ),
        (92.0, (*_people(assessment), ("", "", ""))),
        (
            86.0,
            (
                ("page", f"{page.number} of {page.pages}", "strong"),
                ("scale", f"{page.scales}; lengths in {context.units}", ""),
                ("tool", f"rfplan {context.version}", ""),
                ("plan hash", context.hashes.plan, "grey"),
            ),
        ),
    )


def _people(assessment: Assessment) -> _Fields:
    """Who prepared, checked and released; a line to sign on where nobody is named."""
    people = assessment.plan.people
    return tuple(
        (role, _signed(people.get(role)), "") for role in ("prepared", "checked", "released")
    )


def _signed(person: Person | None) -> str:
    if person is None or person.name == "?":
        return "______________________"
    day = person.date.isoformat() if person.date else ""
    return ", ".join(filter(None, (person.name, person.role, person.stamp, day)))


def _column(drawing: Drawing, corner: XY, width: float, fields: _Fields) -> None:
    x, y = corner
    step = BLOCK / max(len(fields), 4)
    for place, (label, text, pen) in enumerate(fields):
        line = y + step * place + step / 2.0 + 0.9
        label_width = 17.0 if label else 0.0
        drawing.text((x + _PAD, line), label, SMALL, "grey")
        size = TEXT if label else SMALL
        room = width - label_width - 2.0 * _PAD
        drawing.text((x + _PAD + label_width, line), fitted(text, size, room), size, pen)


def draw_scale_bar(drawing: Drawing, window: Window, at: XY, units: LengthUnit) -> None:
    """Draw a bar of a few round lengths, so that a copy of another size can be measured too."""
    ticks = [(metres, name) for metres, name in rules((0.0, 100.0), window.scale, units)]
    ticks = ticks[:4]
    x, y = at
    for place, (one, other) in enumerate(pairwise(ticks)):
        start, end = x + one[0] * window.per_m, x + other[0] * window.per_m
        drawing.rect((start, y), (end - start, 1.4), "" if place % 2 else "bar")
    for metres, name in ticks:
        drawing.text((x + metres * window.per_m, y - 0.8), name, SMALL, anchor="middle")
    end = x + ticks[-1][0] * window.per_m
    drawing.text((end + 3.0, y + 1.4), f"{units}, 1:{window.scale}", SMALL)
