# SPDX-License-Identifier: Apache-2.0
"""A drawing as SVG in millimetres: text stays text, everything is escaped, nothing is fetched."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from functools import cache
from html import escape

from rfplan.reports.sheet import fit_to_show
from rfplan.reports.wrapping import display_width

XY = tuple[float, float]

FONT = "DejaVu Sans, Liberation Sans, Arial, sans-serif"

_WIDTHS = (
    ("ijlI.,:;'|!", 0.34),
    (" ()[]ftr-/", 0.42),
    ("mwMW@%", 0.98),
    ("ABCDEFGHJKLNOPQRSTUVXYZ&+<>=", 0.76),
)
"""Widths of characters of that font in parts of its size, on the wide side."""
_WIDE, _USUAL, _BOLD = 1.05, 0.64, 1.12

STYLE = """\
text { font-family: FONT; fill: #111; stroke: none; white-space: pre }
path, line, rect, circle { fill: none; stroke: #111; stroke-width: .25; stroke-linejoin: round }
.outline { stroke-width: .5 }
.thin { stroke-width: .13 }
.hidden { stroke-width: .25; stroke-dasharray: 1.6 .9 }
.centre { stroke-width: .18; stroke-dasharray: 6 1.2 1.2 1.2 }
.frame { stroke: #3a5a8c; stroke-width: .25; stroke-dasharray: 4 1 }
.rule { stroke: #c4c8cc; stroke-width: .13 }
.zone { stroke: #8a4b08; stroke-width: .2 }
.plane { stroke: #2f6f3e; stroke-width: .3; stroke-dasharray: 2.4 1 }
.plane { fill: #2f6f3e; fill-opacity: .1 }
.base { fill: #fff; stroke-width: .4 }
.new { fill: #ffd9b3; stroke-width: .5 }
.dimension { stroke: #7a0f2b; stroke-width: .18 }
.arrow { fill: #7a0f2b; stroke: none }
.dimension_text { fill: #7a0f2b }
.paper { fill: #fff; stroke: none }
.bar { fill: #111; stroke-width: .13 }
.balloon { fill: #fff; stroke-width: .3 }
.grey { fill: #555 }
.alert { fill: #a01010; font-weight: bold }
.strong { font-weight: bold }
""".replace("FONT", FONT)


def number(value: float) -> str:
    """Return a length on paper to a thousandth of a millimetre, without idle zeros."""
    text = f"{value:z.3f}"
    return text.rstrip("0").rstrip(".")


def text_width(text: str, size: float, *, strong: bool = False) -> float:
    """Return how wide a text stands at most."""
    width = sum(map(_character_width, fit_to_show(text)))
    return width * size * (_BOLD if strong else 1.0)


@cache
def _character_width(character: str) -> float:
    if not character.isascii():
        return _WIDE * display_width(character)
    return next((width for some, width in _WIDTHS if character in some), _USUAL)


def fitted(text: str, size: float, room: float) -> str:
    """Return a text cut with '...' where it would be wider than its room."""
    shown = fit_to_show(text)
    if text_width(shown, size) <= room:
        return shown
    while shown and text_width(f"{shown}...", size) > room:
        shown = shown[:-1]
    return f"{shown.rstrip()}..."


class Drawing:
    """What has been drawn so far; x to the right, y down, in millimetres on paper."""

    def __init__(self, width: float, height: float) -> None:
        self.width, self.height = width, height
        self._parts: list[str] = []
        self._defined: list[str] = []

    def line(self, one: XY, other: XY, pen: str = "") -> None:
        """Draw a straight line."""
        (x1, y1), (x2, y2) = one, other
        ends = f'x1="{number(x1)}" y1="{number(y1)}" x2="{number(x2)}" y2="{number(y2)}"'
        self._parts.append(f"<line {ends}{_pen(pen)}/>")

    def path(self, points: Sequence[XY], pen: str = "", *, closed: bool = False) -> None:
        """Draw straight lines from point to point."""
        if points:
            way = "L".join(f"{number(x)} {number(y)}" for x, y in points)
            self._parts.append(f'<path d="M{way}{"Z" if closed else ""}"{_pen(pen)}/>')

    def rect(self, corner: XY, size: XY, pen: str = "", *, hatch: str = "") -> None:
        """Draw a rectangle from its upper left corner, hatched if a pattern is named."""
        fill = f' style="fill:url(#{hatch})"' if hatch else ""
        self._parts.append(f"<rect {_box(corner, size)}{_pen(pen)}{fill}/>")

    def circle(self, middle: XY, radius: float, pen: str = "", *, hatch: str = "") -> None:
        """Draw a circle, hatched if a pattern is named."""
        fill = f' style="fill:url(#{hatch})"' if hatch else ""
        x, y = middle
        where = f'cx="{number(x)}" cy="{number(y)}" r="{number(radius)}"'
        self._parts.append(f"<circle {where}{_pen(pen)}{fill}/>")

    def text(self, at: XY, text: str, size: float, pen: str = "", *, anchor: str = "start") -> None:
        """Write text with its base line at a point: `start`, `middle` or `end` of it there."""
        where = f'x="{number(at[0])}" y="{number(at[1])}" font-size="{number(size)}"'
        side = "" if anchor == "start" else f' text-anchor="{anchor}"'
        self._parts.append(f"<text {where}{side}{_pen(pen)}>{escape(fit_to_show(text))}</text>")

    def upright(self, at: XY, text: str, size: float, pen: str = "") -> None:
        """Write text upwards, its middle at a point."""
        x, y = (number(one) for one in at)
        turn = f'transform="rotate(-90 {x} {y})" text-anchor="middle" font-size="{number(size)}"'
        self._parts.append(
            f'<text x="{x}" y="{y}" {turn}{_pen(pen)}>{escape(fit_to_show(text))}</text>'
        )

    def clip(self, corner: XY, size: XY) -> None:
        """Begin a group of which nothing shows outside a rectangle."""
        name = f"clip{len(self._defined)}"
        self._defined.append(f'<clipPath id="{name}"><rect {_box(corner, size)}/></clipPath>')
        self._parts.append(f'<g clip-path="url(#{name})">')

    def clip_to(self, points: Sequence[XY]) -> None:
        """Begin a group of which nothing shows outside a closed line."""
        name = f"clip{len(self._defined)}"
        way = "L".join(f"{number(x)} {number(y)}" for x, y in points)
        self._defined.append(f'<clipPath id="{name}"><path d="M{way}Z"/></clipPath>')
        self._parts.append(f'<g clip-path="url(#{name})">')

    def end(self) -> None:
        """End the group begun last."""
        self._parts.append("</g>")

    def define(self, definition: str) -> None:
        """Add a pattern that hatches refer to; it comes from this program, never from a file."""
        self._defined.append(definition)

    def svg(self, title: str) -> str:
        """Return the whole drawing as one SVG file of ASCII letters."""
        size = f'width="{number(self.width)}mm" height="{number(self.height)}mm"'
        box = f'viewBox="0 0 {number(self.width)} {number(self.height)}"'
        lines = (
            f'<svg xmlns="http://www.w3.org/2000/svg" {size} {box}>',
            f"<title>{escape(fit_to_show(title))}</title>",
            f"<style>\n{STYLE}</style>",
            "<defs>",
            *self._defined,
            "</defs>",
            f'<rect width="{number(self.width)}" height="{number(self.height)}" class="paper"/>',
            *self._parts,
            "</svg>\n",
        )
        return "\n".join(lines).encode("ascii", "xmlcharrefreplace").decode("ascii")


def _pen(pen: str) -> str:
    return f' class="{pen}"' if pen else ""


def _box(corner: XY, size: XY) -> str:
    x, y, width, height = (number(one) for one in (*corner, *size))
    return f'x="{x}" y="{y}" width="{width}" height="{height}"'


def spread(targets: Sequence[float], gap: float, low: float, high: float) -> list[float]:
    """Return places as near to rising targets as may be, no two nearer than the gap.

    All stand between low and high where there is room for them.
    """
    blocks: list[tuple[float, int]] = []
    for place, target in enumerate(targets):
        blocks.append((target - place * gap, 1))
        while len(blocks) > 1 and blocks[-2][0] > blocks[-1][0]:
            (one, many), (other, more) = blocks[-2:]
            blocks[-2:] = [((one * many + other * more) / (many + more), many + more)]
    level = [value for value, count in blocks for _ in range(count)]
    top = high - gap * (len(level) - 1)
    return [max(low, min(top, one)) + place * gap for place, one in enumerate(level)]


def bounds(points: Iterable[float], margin: float) -> tuple[float, float]:
    """Return the least and the most of some numbers, with a margin on both sides."""
    values = list(points)
    return min(values) - margin, max(values) + margin
