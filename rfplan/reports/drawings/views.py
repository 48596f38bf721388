# SPDX-License-Identifier: Apache-2.0
"""One view of the whole aircraft: stations ruled, hull, plates, zones, antennas, their numbers."""

from __future__ import annotations

from collections.abc import Sequence

from rfplan.model.airframe import INSIDE, Airframe
from rfplan.reports.cells import LengthUnit, length
from rfplan.reports.drawing import Drawing, text_width
from rfplan.reports.drawings.marks import Mark, Subject
from rfplan.reports.drawings.paper import Window, rules
from rfplan.reports.drawings.regions import Box, along, draw_regions, draw_tags
from rfplan.reports.drawings.shapes import ABOVE, BELOW, LEFT, WL, Look, hull_outline, plates
from rfplan.reports.drawings.spreading import spread
from rfplan.reports.strokes import XY

TEXT = 2.5
SMALL = 2.2
TITLE = 3.5
BALLOON = 2.3
BALLOON_GAP = 5.4

TITLE_ROOM = 6.0
BALLOON_ROOM = 8.0
RULER_ROOM = 4.0
FRAME_ROOM = 4.5
"""What is written round a view, in millimetres."""


ABOVE_ROOM = TITLE_ROOM + BALLOON_ROOM
BELOW_ROOM = RULER_ROOM + FRAME_ROOM + BALLOON_ROOM


def draw_view(drawing: Drawing, window: Window, subject: Subject) -> None:
    """Draw one view with everything in it and round it."""
    airframe, units = subject.airframe, subject.units
    shown = [mark for mark in subject.marks if seen_in(mark, window.look)]
    with drawing.within(window.outline):
        boxes = draw_regions(drawing, window, subject.tags, airframe)
        draw_rules(drawing, window, units)
        draw_structure(drawing, window, airframe)
        draw_frames(drawing, window, airframe)
        for mark in shown:
            draw_antenna(drawing, window, mark)
    leaders = _balloons(drawing, window, shown)
    occupied = [one for leader in leaders for one in along(*leader)]
    draw_tags(drawing, boxes, [*occupied, *(antenna_box(window, mark) for mark in shown)])
    _frame_names(drawing, window, airframe, units)
    _rulers(drawing, window, units)
    drawing.text((window.left, window.top - ABOVE_ROOM + 4.0), window.look.title, TITLE, "strong")


def seen_in(mark: Mark, look: Look) -> bool:
    """Whether a view shows an antenna: the side sees all, the plans their own side."""
    if look is LEFT:
        return True
    if look is BELOW:
        return mark.place.surface == "belly"
    return mark.place.surface not in ("belly", "left", "right")


def draw_rules(drawing: Drawing, window: Window, units: LengthUnit) -> None:
    """Rule the stations, and the butt or water lines."""
    for fs_m, _ in rules(window.right_m, window.scale, units):
        x, _ = window.xy(fs_m, 0.0)
        drawing.line((x, window.top), (x, window.bottom), "rule")
    for up_m, _ in rules(window.up_m, window.scale, units):
        _, y = window.xy(0.0, up_m)
        drawing.line((window.left, y), (window.right, y), "rule")


def _rulers(drawing: Drawing, window: Window, units: LengthUnit) -> None:
    """Write the ruled stations below a view, butt or water lines to its left."""
    for fs_m, name in rules(window.right_m, window.scale, units):
        x, _ = window.xy(fs_m, 0.0)
        width = text_width(name, SMALL)
        drawing.rect((x - width / 2.0, window.bottom + 0.9), (width, 2.3), "paper")
        drawing.text((x, window.bottom + 2.9), name, SMALL, "grey", anchor="middle")
    for up_m, name in rules(window.up_m, window.scale, units):
        _, y = window.xy(0.0, up_m)
        drawing.text((window.left - 1.0, y + 0.8), _side(name, window), SMALL, "grey", anchor="end")
    across = "WL" if window.look.up == WL else "BL"
    drawing.text((window.left - 3.0, window.bottom + 2.9), "FS", SMALL, "grey", anchor="end")
    drawing.text((window.left - 1.0, window.top - 1.0), across, SMALL, "grey", anchor="end")


def _side(name: str, window: Window) -> str:
    """A butt line with its side, L or R; a water line as it is."""
    if window.look.up == WL or name == "0":
        return name
    right = name.startswith("-") == (window.look.sense < 0.0)
    return f"{'R' if right else 'L'}{name.removeprefix('-')}"


def draw_structure(drawing: Drawing, window: Window, airframe: Airframe) -> None:
    """Draw hull and plates; the centre line in the plans."""
    for _, corners in plates(airframe):
        flat = [window.look.flat(corner) for corner in corners]
        drawing.outline([window.xy(*one) for one in flat], "thin")
    outline = [window.xy(*one) for one in hull_outline(airframe, window.look)]
    drawing.outline(outline, "outline")
    if window.look.up != WL:
        ends = window.right_m
        drawing.line(window.xy(ends[0], 0.0), window.xy(ends[1], 0.0), "centre")


def draw_frames(drawing: Drawing, window: Window, airframe: Airframe) -> None:
    """Draw the frames that lie in a view."""
    for frame in airframe.frames.values():
        if window.right_m[0] <= frame.fs_m <= window.right_m[1]:
            x, _ = window.xy(frame.fs_m, 0.0)
            drawing.line((x, window.top), (x, window.bottom), "frame")


def _frame_names(drawing: Drawing, window: Window, airframe: Airframe, units: LengthUnit) -> None:
    """Write the names of the frames below the ruler, beside each other."""
    frames = sorted(airframe.frames.items(), key=lambda item: item[1].fs_m)
    if not frames:
        return
    names = [f"{id} {length(frame.fs_m, units).text}" for id, frame in frames]
    targets = [window.xy(frame.fs_m, 0.0)[0] for _, frame in frames]
    widest = max(text_width(name, SMALL) for name in names) + 1.0
    row = window.bottom + RULER_ROOM + 2.9
    for x, target, name in zip(
        spread(targets, widest, window.left, window.right), targets, names, strict=True
    ):
        width = text_width(name, SMALL)
        drawing.line((target, window.bottom), (x, row - 2.4), "frame")
        drawing.rect((x - width / 2.0, row - 2.1), (width, 2.6), "paper")
        drawing.text((x, row), name, SMALL, "grey", anchor="middle")


def draw_antenna(drawing: Drawing, window: Window, mark: Mark) -> None:
    """Draw the base to scale, and in the side view how far the antenna stands out."""
    pen = "new" if mark.is_new else "base"
    x, y = window.of(mark.point)
    if mark.place.surface in INSIDE:
        pen = "hidden"
    if window.look is LEFT and mark.place.surface not in ("left", "right"):
        drawing.outline(_silhouette(window, mark), pen)
    elif mark.length_m:
        across = mark.width_m * window.per_m
        along_ = mark.length_m * window.per_m
        drawing.rect((x - along_ / 2.0, y - across / 2.0), (along_, across), pen)
    drawing.line((x - 1.2, y), (x + 1.2, y), "thin")
    drawing.line((x, y - 1.2), (x, y + 1.2), "thin")


def _silhouette(window: Window, mark: Mark) -> list[XY]:
    """The base on the skin and a third of it at the tip; only length and height are to scale."""
    (x, y), (tip_x, tip_y) = window.of(mark.point), window.of(mark.tip)
    half = mark.length_m * window.per_m / 2.0
    return [(x - half, y), (x + half, y), (tip_x + half / 3.0, tip_y), (tip_x - half / 3.0, tip_y)]


def antenna_box(window: Window, mark: Mark) -> Box:
    """Return the box on paper that an antenna takes, a little larger than it is."""
    x, y = window.of(mark.point)
    half = max(mark.length_m * window.per_m / 2.0, 1.2) + 0.5
    side = max(mark.width_m * window.per_m / 2.0, 1.2) + 0.5
    if window.look is not LEFT:
        return x - half, y - side, x + half, y + side
    tip = window.of(mark.tip)[1]
    return x - half, min(y, tip) - 0.5, x + half, max(y, tip) + 0.5


def _balloons(drawing: Drawing, window: Window, shown: Sequence[Mark]) -> list[tuple[XY, XY]]:
    """Number the antennas in rows above and below a view; return the leaders."""
    upper = [mark for mark in shown if _is_upper(mark, window)]
    lower = [mark for mark in shown if mark not in upper]
    below = window.bottom + RULER_ROOM + FRAME_ROOM + BALLOON
    leaders = _row(drawing, window, upper, window.top - BALLOON_ROOM / 2.0)
    return [*leaders, *_row(drawing, window, lower, below)]


def _is_upper(mark: Mark, window: Window) -> bool:
    """Whether an antenna is numbered above a view: what points up, in the plans its own half."""
    if window.look is LEFT:
        return mark.place.normal[2] >= 0.0
    up_m = window.look.flat(mark.point)[1]
    return up_m > (-1e-6 if window.look is ABOVE else 1e-6)


def _row(
    drawing: Drawing, window: Window, shown: Sequence[Mark], row: float
) -> list[tuple[XY, XY]]:
    ordered = sorted(shown, key=lambda mark: (window.of(mark.point)[0], mark.number))
    targets = [window.of(mark.point) for mark in ordered]
    xs = spread([x for x, _ in targets], BALLOON_GAP, window.left, window.right)
    toward = 1.0 if row < window.top else -1.0
    leaders = [((x, row + toward * BALLOON), target) for x, target in zip(xs, targets, strict=True)]
    for leader in leaders:
        drawing.line(*leader, "thin")
    for x, mark in zip(xs, ordered, strict=True):
        draw_balloon(drawing, (x, row), mark)
    return leaders


def draw_balloon(drawing: Drawing, at: XY, mark: Mark) -> None:
    """Draw the number of an antenna in a circle."""
    drawing.circle(at, BALLOON, "balloon")
    drawing.text((at[0], at[1] + 0.9), str(mark.number), TEXT, "strong", anchor="middle")
