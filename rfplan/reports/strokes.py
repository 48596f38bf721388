# SPDX-License-Identifier: Apache-2.0
"""What a drawing is made of: shapes, each with its pen, and texts over them, in mm on paper.

x runs to the right, y down. Whoever writes a drawing to a file looks up its pens here.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal, TypeAlias

XY = tuple[float, float]
Points: TypeAlias = tuple[XY, ...]
Anchor = Literal["start", "middle", "end"]

INK, PAPER = "#111111", "#ffffff"


@dataclass(frozen=True, slots=True)
class Pen:
    """How a line is drawn, and what fills what it encloses; widths and dashes in millimetres."""

    colour: str | None = INK
    width: float = 0.25
    dashes: tuple[float, ...] = ()
    fill: str | None = None


PENS = {
    "line": Pen(),
    "outline": Pen(width=0.5),
    "thin": Pen(width=0.13),
    "hidden": Pen(dashes=(1.6, 0.9)),
    "centre": Pen(width=0.18, dashes=(6.0, 1.2, 1.2, 1.2)),
    "frame": Pen("#3a5a8c", dashes=(4.0, 1.0)),
    "rule": Pen("#c4c8cc", width=0.13),
    "zone": Pen("#8a4b08", width=0.2),
    "plane": Pen("#2f6f3e", width=0.3, dashes=(2.4, 1.0), fill="#eaf1ec"),
    "base": Pen(width=0.4, fill=PAPER),
    "new": Pen(width=0.5, fill="#ffd9b3"),
    "dimension": Pen("#7a0f2b", width=0.18),
    "arrow": Pen(None, fill="#7a0f2b"),
    "paper": Pen(None, fill=PAPER),
    "bar": Pen(width=0.13, fill=INK),
    "balloon": Pen(width=0.3, fill=PAPER),
    "forbidden": Pen("#8a4b08", width=0.2),
    "edge": Pen("#4d7ea8", width=0.2),
    "removable": Pen("#6b6b6b", width=0.2),
    "hot": Pen("#b03030", width=0.2),
    "caution": Pen("#8f7a1e", width=0.2),
    "sensor": Pen("#5b3f8c", width=0.2),
    "allowed": Pen("#3d8a4a", width=0.2),
}
"""The pens by name; those that hatch are named by what a zone means for an antenna."""


@dataclass(frozen=True, slots=True)
class Lettering:
    """How a text is set."""

    colour: str = INK
    bold: bool = False


LETTERINGS = {
    "plain": Lettering(),
    "strong": Lettering(bold=True),
    "grey": Lettering("#555555"),
    "alert": Lettering("#a01010", bold=True),
    "measure": Lettering("#7a0f2b"),
}


@dataclass(frozen=True, slots=True)
class Lines:
    """Straight lines from point to point, in one run or several; closed ones may be filled."""

    runs: tuple[Points, ...]
    pen: str
    closed: bool
    inside: tuple[Points, ...]
    """The closed lines outside of which nothing of it shows."""


@dataclass(frozen=True, slots=True)
class Circle:
    """A circle."""

    middle: XY
    radius: float
    pen: str
    inside: tuple[Points, ...]


@dataclass(frozen=True, slots=True)
class Text:
    """One line of text: `at` is on its base line, at the start, middle or end of it."""

    at: XY
    text: str
    size: float
    lettering: str
    anchor: Anchor


@dataclass(frozen=True, slots=True)
class Picture:
    """One page of a drawing as it was drawn."""

    width: float
    height: float
    shapes: tuple[Lines | Circle, ...]
    texts: tuple[Text, ...]
