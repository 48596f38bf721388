# SPDX-License-Identifier: Apache-2.0
"""Hatching as lines: what a zone means for an antenna, told by their angle, distance and colour."""

from __future__ import annotations

import math
from collections.abc import Iterator, Sequence
from itertools import pairwise

from rfplan.reports.strokes import XY, Points

HATCHES = {
    "forbidden": (45.0, 1.5),
    "edge": (0.0, 1.8),
    "removable": (-45.0, 2.0),
    "hot": (70.0, 1.3),
    "caution": (-70.0, 2.4),
    "sensor": (90.0, 1.6),
    "allowed": (15.0, 3.0),
}
"""Angle from level, rising to the right, and distance of the lines in millimetres, by pen."""


def hatched(outline: Sequence[XY], name: str) -> tuple[Points, ...]:
    """Return the lines that hatch a shape without dents; on a page they all keep step."""
    angle, step = HATCHES[name]
    along = math.cos(math.radians(angle)), -math.sin(math.radians(angle))
    across = -along[1], along[0]
    reaches = [_dot(point, across) for point in outline]
    first, last = math.ceil(min(reaches) / step), math.floor(max(reaches) / step)
    cuts = (_cut(outline, across, along, place * step) for place in range(first, last + 1))
    return tuple(cut for cut in cuts if cut is not None)


def _cut(outline: Sequence[XY], across: XY, along: XY, reach: float) -> Points | None:
    """Return the ends of one line inside a shape; None where it only touches a corner."""
    ends = sorted(_crossings(outline, across, reach), key=lambda end: _dot(end, along))
    if len(ends) < 2 or math.dist(ends[0], ends[-1]) < 0.1:
        return None
    return ends[0], ends[-1]


def _crossings(outline: Sequence[XY], across: XY, reach: float) -> Iterator[XY]:
    """Yield where the edges of a shape meet the line at some distance from the page's corner."""
    for one, other in pairwise([*outline, outline[0]]):
        here, there = _dot(one, across) - reach, _dot(other, across) - reach
        if (here <= 0.0) != (there <= 0.0):
            part = here / (here - there)
            yield one[0] + (other[0] - one[0]) * part, one[1] + (other[1] - one[1]) * part


def _dot(one: XY, other: XY) -> float:
    return one[0] * other[0] + one[1] * other[1]


def round_outline(middle: XY, radius: float) -> Points:
    """Return a circle as a line of many corners."""
    turns = (math.tau * place / 72 for place in range(72))
    return tuple(
        (middle[0] + radius * math.cos(turn), middle[1] + radius * math.sin(turn)) for turn in turns
    )
