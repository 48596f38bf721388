# SPDX-License-Identifier: Apache-2.0
"""Drawings as SVG in millimetres: text stays text, everything is escaped, nothing is fetched."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from html import escape
from itertools import groupby

from rfplan.reports.sheet import fit_to_show
from rfplan.reports.strokes import (
    LETTERINGS,
    PAPER,
    PENS,
    Circle,
    Lettering,
    Lines,
    Pen,
    Picture,
    Points,
    Text,
)

FONT = "DejaVu Sans, Liberation Sans, Arial, sans-serif"


def number(value: float) -> str:
    """Return a length on paper to a thousandth of a millimetre, without idle zeros."""
    text = f"{value:z.3f}"
    return text.rstrip("0").rstrip(".")


def style() -> str:
    """Return the rules that give every pen its look, for all drawings of a file."""
    lines = [
        f".drawing text {{ font-family: {FONT}; white-space: pre }}",
        ".drawing path, .drawing circle { stroke-linejoin: round }",
        *(f".drawing .{name} {{ {_pen(pen)} }}" for name, pen in PENS.items()),
        *(f".drawing .{name} {{ {_lettering(one)} }}" for name, one in LETTERINGS.items()),
    ]
    return "\n".join(lines)


def _pen(pen: Pen) -> str:
    if pen.colour is None:
        return f"fill: {pen.fill}; stroke: none"
    dashes = f"; stroke-dasharray: {_numbers(pen.dashes)}" if pen.dashes else ""
    line = f"stroke: {pen.colour}; stroke-width: {number(pen.width)}{dashes}"
    return f"fill: {pen.fill or 'none'}; {line}"


def _lettering(lettering: Lettering) -> str:
    return f"fill: {lettering.colour}{'; font-weight: bold' if lettering.bold else ''}"


def svg_file(pictures: Sequence[Picture], title: str) -> str:
    """Return pictures below each other as one SVG file of ASCII letters."""
    width = max((one.width for one in pictures), default=0.0)
    height = sum(one.height for one in pictures)
    lines = [
        f'<svg xmlns="http://www.w3.org/2000/svg" class="drawing" {_size(width, height)}>',
        f"<title>{escape(fit_to_show(title))}</title>",
        f"<style>\n{style()}\n</style>",
    ]
    top = 0.0
    for place, picture in enumerate(pictures):
        lines += [
            f'<g transform="translate(0 {number(top)})">',
            *_content(picture, f"page{place}"),
            "</g>",
        ]
        top += picture.height
    return _ascii([*lines, "</svg>\n"])


def svg_element(picture: Picture, name: str) -> str:
    """Return a picture as an element of a page that holds the style; `name` is its own there."""
    head = f'<svg class="drawing" {_size(picture.width, picture.height)}>'
    return _ascii([head, *_content(picture, name), "</svg>"])


def _size(width: float, height: float) -> str:
    x, y = number(width), number(height)
    return f'width="{x}mm" height="{y}mm" viewBox="0 0 {x} {y}"'


def _content(picture: Picture, name: str) -> Iterator[str]:
    """Yield what is drawn: shapes that are cut off at the same line together, then the texts."""
    edges = list(dict.fromkeys(edge for shape in picture.shapes for edge in shape.inside))
    names = {edge: f"{name}-{place}" for place, edge in enumerate(edges)}
    paper = f'width="{number(picture.width)}" height="{number(picture.height)}" fill="{PAPER}"'
    yield f"<rect {paper}/>"
    if edges:
        yield "<defs>"
        yield from (
            f'<clipPath id="{names[edge]}"><path d="{_way([edge], closed=True)}"/></clipPath>'
            for edge in edges
        )
        yield "</defs>"
    for inside, shapes in groupby(picture.shapes, lambda shape: shape.inside):
        yield from (f'<g clip-path="url(#{names[edge]})">' for edge in inside)
        yield from map(_shape, shapes)
        yield from ("</g>" for _ in inside)
    yield from map(_text, picture.texts)


def _shape(shape: Lines | Circle) -> str:
    if isinstance(shape, Lines):
        return f'<path class="{shape.pen}" d="{_way(shape.runs, closed=shape.closed)}"/>'
    x, y = map(number, shape.middle)
    return f'<circle class="{shape.pen}" cx="{x}" cy="{y}" r="{number(shape.radius)}"/>'


def _way(runs: Sequence[Points], *, closed: bool) -> str:
    end = "Z" if closed else ""
    return "".join(f"M{'L'.join(map(_numbers, points))}{end}" for points in runs)


def _text(text: Text) -> str:
    x, y = map(number, text.at)
    side = "" if text.anchor == "start" else f' text-anchor="{text.anchor}"'
    where = f'x="{x}" y="{y}" font-size="{number(text.size)}"{side}'
    return f'<text class="{text.lettering}" {where}>{escape(text.text)}</text>'


def _numbers(values: Sequence[float]) -> str:
    return " ".join(map(number, values))


def _ascii(lines: Sequence[str]) -> str:
    return "\n".join(lines).encode("ascii", "xmlcharrefreplace").decode("ascii")
