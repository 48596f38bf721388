# SPDX-License-Identifier: Apache-2.0
"""A page of a drawing: one size that A4 and Letter both take, its frame, its title block."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from itertools import pairwise

from rfplan.model.assessment import Assessment
from rfplan.model.plan import Person
from rfplan.reports.cells import LengthUnit
from rfplan.reports.drawing import Drawing, fitted, text_width
from rfplan.reports.drawings.marks import Subject
from rfplan.reports.drawings.paper import Window, rules
from rfplan.reports.heading import sheet_id
from rfplan.reports.outcome import is_draft
from rfplan.reports.page_setting import lines_of
from rfplan.reports.sheet import fit_to_show
from rfplan.reports.strokes import XY

WIDTH, HEIGHT = 252.0, 184.0
"""Fits between the margins of A4 and of Letter held sideways, so that nothing is scaled."""

BORDER = 1.0
FRAME: XY = (WIDTH - 2.0 * BORDER, HEIGHT - 2.0 * BORDER)
BLOCK, CAUTIONS = 22.0, 4.2
"""Heights of the title block and of the cautions under it."""

FLOOR = HEIGHT - BORDER - BLOCK - CAUTIONS
"""Where the drawing ends and the title block begins."""

KEY = "placement"
UNITS: dict[LengthUnit, str] = {"in": "inches", "mm": "millimetres"}

TEXT, SMALL = 2.5, 2.1
_PAD, _LABEL = 1.3, 16.0
COLUMNS = (86.0, 42.0, 62.0, 60.0)
"""Widths of the columns of the title block."""

CAUTION = (
    "Planning aid: equipment and airframe data, licensed practice and the local authority prevail. "
    "Measure on the aircraft before drilling."
)
TRUE = f"True to scale where this frame is {FRAME[0]:.0f} mm wide."


@dataclass(frozen=True, slots=True)
class Page:
    """One page: its number of all, what it shows, and the scales on it."""

    number: int
    pages: int
    title: str
    scales: str


def new_page(page: Page, subject: Subject) -> Drawing:
    """Return a drawing that holds the frame and the title block of a page."""
    drawing = Drawing(WIDTH, HEIGHT)
    drawing.rect((BORDER, BORDER), FRAME, "outline")
    drawing.line((BORDER, FLOOR), (WIDTH - BORDER, FLOOR), "outline")
    columns = _columns(page, subject)
    x, low = BORDER, FLOOR + BLOCK
    for width, fields in columns:
        if x > BORDER:
            drawing.line((x, FLOOR), (x, low))
        _column(drawing, (x, FLOOR), width, fields)
        x += width
    drawing.line((BORDER, low), (WIDTH - BORDER, low), "thin")
    base, right = low + CAUTIONS - 1.3, WIDTH - BORDER - _PAD
    room = FRAME[0] - 4.0 * _PAD - text_width(TRUE, SMALL)
    drawing.text((BORDER + _PAD, base), fitted(CAUTION, SMALL, room), SMALL, "grey")
    drawing.text((right, base), TRUE, SMALL, "grey", anchor="end")
    return drawing


_Fields = tuple[tuple[str, str, str], ...]
"""Label, text and lettering of each field of a column, from top to bottom."""


def _columns(page: Page, subject: Subject) -> tuple[tuple[float, _Fields], ...]:
    """What the title block says, column by column with its width."""
    assessment, context = subject.assessment, subject.context
    plan = assessment.plan
    plan_lines = _lines(plan.title, COLUMNS[0], 2)
    aircraft = _listed(plan.airframe.name, plan.serial, plan.variant)
    drawing: _Fields = (
        ("drawing", sheet_id(plan, KEY), "strong"),
        ("title", page.title, "strong"),
        *_field("plan", plan_lines),
        ("aircraft", aircraft, "plain"),
    )
    printed: _Fields = (
        ("page", f"{page.number} of {page.pages}", "strong"),
        ("scale", _listed(page.scales, f"lengths in {UNITS[context.units]}"), "plain"),
        ("file", context.plan_file or "-", "plain"),
        ("tool", f"rfplan {context.version}", "plain"),
        ("plan hash", context.hashes.plan, "grey"),
    )
    fields = drawing, _revision(subject), tuple(_people(assessment)), printed
    return tuple(zip(COLUMNS, fields, strict=True))


def _listed(*texts: str | None) -> str:
    return ", ".join(filter(None, texts))


def _lines(text: str, width: float, most: int) -> list[str]:
    """Return a text in so many lines at most; the last one holds the rest, cut where it must be."""
    room = width - _LABEL - 2.0 * _PAD
    lines = lines_of(fit_to_show(text), room, lambda line: text_width(line, TEXT))
    return [*lines[: most - 1], " ".join(lines[most - 1 :])]


def _field(label: str, lines: Sequence[str]) -> _Fields:
    return tuple((label if not place else "", line, "plain") for place, line in enumerate(lines))


def _revision(subject: Subject) -> _Fields:
    assessment, plan = subject.assessment, subject.assessment.plan
    revision = plan.revision
    day = revision.date.isoformat() if revision.date else "-"
    draft = is_draft(assessment)
    return (
        ("revision", revision.letter or "-", "strong"),
        ("status", revision.status or "-", "plain"),
        ("date", subject.context.date or day, "plain"),
        ("state", str(plan.state), "plain"),
        (
            "DRAFT" if draft else "verdict",
            str(assessment.verdict),
            "alert" if draft else "strong",
        ),
    )


def _people(assessment: Assessment) -> Iterator[tuple[str, str, str]]:
    """Who prepared, checked and released; a line to sign on where nobody is named."""
    for role in ("prepared", "checked", "released"):
        person = assessment.plan.people.get(role)
        name, more = ("______________________", "") if person is None else _signed(person)
        yield role, name, "plain"
        yield "", more, "grey"


def _signed(person: Person) -> tuple[str, str]:
    day = person.date.isoformat() if person.date else ""
    name = "" if person.name == "?" else person.name
    return (
        _listed(name, day) or "______________________",
        _listed(person.role, person.stamp),
    )


def _column(drawing: Drawing, corner: XY, width: float, fields: _Fields) -> None:
    x, y = corner
    step = BLOCK / len(fields)
    for place, (label, text, lettering) in enumerate(fields):
        line = y + step * (place + 0.5) + 0.9
        drawing.text((x + _PAD, line), label, SMALL, "grey")
        shown = fitted(text, TEXT, width - _LABEL - 2.0 * _PAD)
        drawing.text((x + _PAD + _LABEL, line), shown, TEXT, lettering)


def draw_scale_bar(drawing: Drawing, window: Window, right: XY, units: LengthUnit) -> None:
    """Draw a bar of a few round lengths that ends at a point, so that any copy can be measured."""
    ticks = [
        (metres * window.per_m, name) for metres, name in rules((0.0, 100.0), window.scale, units)
    ]
    ticks = ticks[:4]
    told = f"{units}, 1:{window.scale}"
    x, y = right[0] - text_width(told, SMALL) - 3.0 - ticks[-1][0], right[1]
    for place, ((start, _), (end, _)) in enumerate(pairwise(ticks)):
        drawing.rect((x + start, y), (end - start, 1.4), "line" if place % 2 else "bar")
    for at, name in ticks:
        drawing.text((x + at, y - 0.8), name, SMALL, anchor="middle")
    drawing.text((right[0], y + 1.4), told, SMALL, anchor="end")
