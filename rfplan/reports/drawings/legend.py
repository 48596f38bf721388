# SPDX-License-Identifier: Apache-2.0
"""What stands beside the views: which number is which antenna, which tag is which zone, signs."""

from __future__ import annotations

from collections.abc import Sequence

from rfplan.reports.cells import LengthUnit, length
from rfplan.reports.drawing_svg import XY, Drawing, fitted
from rfplan.reports.drawings.marks import PLANE, Mark, Tag

WORDS: dict[LengthUnit, str] = {"in": "inches", "mm": "millimetres"}

SIZE = 2.2
HEAD = 2.8
LINE = 3.9

_COLUMNS = ((0.0, 7.0), (7.0, 19.0), (26.0, 43.0), (69.0, 17.0), (86.0, 13.0), (99.0, 14.0))
"""Where each column of the schedule begins, and how wide it is."""
_LAST = (113.0, 17.0)


def draw_schedule(drawing: Drawing, corner: XY, marks: Sequence[Mark], units: LengthUnit) -> float:
    """List the antennas with their places; return where the list ends."""
    x, y = corner
    drawing.text((x, y), f"Antennas, places in {WORDS[units]}", HEAD, "strong")
    heads = ("no.", "id", "type, surface", "change", "FS", "BL", "WL")
    y = _row(drawing, (x, y + LINE + 0.6), heads, "grey")
    for mark in marks:
        y = _row(drawing, (x, y), _told(mark, units), "")
    return y


def _told(mark: Mark, units: LengthUnit) -> tuple[str, ...]:
    fs_m, bl_m, wl_m = mark.point
    side = "" if abs(bl_m) < 5e-5 else ("R" if bl_m > 0.0 else "L")
    place = (
        length(fs_m, units).text,
        f"{side}{length(abs(bl_m), units).text}",
        length(wl_m, units).text,
    )
    what = f"{mark.place.type}, {mark.place.surface}"
    return str(mark.number), mark.id, what, mark.change, *place


def _row(drawing: Drawing, at: XY, texts: Sequence[str], pen: str) -> float:
    x, y = at
    for place, ((begin, width), text) in enumerate(zip((*_COLUMNS, _LAST), texts, strict=True)):
        is_number = place > 3
        edge = begin + width - 1.0 if is_number else begin
        anchor = "end" if is_number else "start"
        drawing.text((x + edge, y), fitted(text, SIZE, width - 1.0), SIZE, pen, anchor=anchor)
    return y + LINE


def draw_regions(drawing: Drawing, corner: XY, tags: Sequence[Tag], room: XY) -> float:
    """Explain the tags of zones and ground planes, each with its hatch; return where that ends."""
    x, y = corner
    drawing.text((x, y), "Zones and ground planes", HEAD, "strong")
    y += LINE + 0.6
    for tag in tags:
        if y > corner[1] + room[1]:
            drawing.text((x, y), "more in the airframe file", SIZE, "grey")
            return y + LINE
        pen, hatch = ("plane", "") if tag.hatch == PLANE else ("zone", tag.hatch)
        drawing.rect((x, y - 2.4), (7.0, 2.9), pen, hatch=hatch)
        drawing.text((x + 9.0, y), tag.tag, SIZE, "strong")
        told = ", ".join(filter(None, (f"{tag.id}: {tag.words}", _why(tag))))
        drawing.text((x + 16.0, y), fitted(told, SIZE, room[0] - 16.0), SIZE)
        y += LINE
    return y


def _why(tag: Tag) -> str:
    return getattr(tag.region, "why", None) or ""


NOTE_ROOM = 129.0

NOTES = (
    "Base, height and place of an antenna are to scale; its shape is a sign.",
    "Zones are drawn flat on the view, on the hull as far as it reaches.",
    "What lies beyond the edge of a view is cut off; measures are those of the plan.",
    "Distances to zones are from the edge of the base, all others from its middle.",
)


def draw_notes(drawing: Drawing, corner: XY, datum: str | None) -> float:
    """Say what the drawing cannot show; return where that ends."""
    x, y = corner
    drawing.text((x, y), "Notes", HEAD, "strong")
    y += LINE + 0.6
    for note in (*NOTES, f"Datum: {datum or 'not stated'}"):
        drawing.text((x, y), fitted(note, SIZE, NOTE_ROOM), SIZE)
        y += LINE
    return y


_SIGNS = (
    ("base", "base of an antenna as found, to scale"),
    ("new", "base of an antenna that is new or moved, to scale"),
    ("hidden", "antenna inside the skin"),
    ("plane", "ground plane"),
    ("frame", "frame or bulkhead"),
    ("centre", "centre line"),
)


def draw_signs(drawing: Drawing, corner: XY) -> float:
    """Explain the lines; return where that ends."""
    x, y = corner
    drawing.text((x, y), "Signs", HEAD, "strong")
    y += LINE + 0.6
    for pen, words in _SIGNS:
        if pen in ("frame", "centre"):
            drawing.line((x, y - 0.9), (x + 7.0, y - 0.9), pen)
        else:
            drawing.rect((x, y - 2.4), (7.0, 2.9), pen)
        drawing.text((x + 9.0, y), words, SIZE)
        y += LINE
    return y
