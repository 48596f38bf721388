# SPDX-License-Identifier: Apache-2.0
"""A grid of cells to draw on: lines of dots, signs and words, each with its place in the order."""

from __future__ import annotations

import unicodedata
from dataclasses import dataclass
from enum import IntEnum
from itertools import pairwise

import numpy as np
from numpy.typing import NDArray

from rfplan.tui.dots import BIT, DOTS_ACROSS, DOTS_DOWN, characters
from rfplan.tui.glyphs import Glyphs, Tier
from rfplan.tui.layout import Area
from rfplan.tui.raster import Floats, circle, stroke
from rfplan.tui.runs import Run
from rfplan.tui.tokens import Ground, Token

Bools = NDArray[np.bool_]
Cells = NDArray[np.uint8]


class Layer(IntEnum):
    """What a cell shows where several things meet: the highest."""

    NONE = 0
    HATCH = 1
    INNER = 2
    OUTLINE = 3
    RING = 4
    ROUTE = 5
    CAPTION = 6
    GLYPH = 7
    LABEL = 8


@dataclass(frozen=True, slots=True)
class Pen:
    """How a line is drawn; lengths of a dash are in dots."""

    token: Token
    layer: Layer
    thick: bool = False
    dash: tuple[float, float] | None = None


@dataclass(frozen=True, slots=True)
class Ink:
    """How words are written; without a ground they stand on what is there."""

    token: Token
    layer: Layer = Layer.LABEL
    ground: Ground | None = None


_TOKENS = tuple(Token)
_GROUNDS = tuple(Ground)
_TOKEN_INDEX = {token: index for index, token in enumerate(_TOKENS)}
_GROUND_INDEX = {ground: index for index, ground in enumerate(_GROUNDS)}
_BITS = np.array(BIT, dtype=np.uint8)
_BLANK = ord(" ")

_DASH_STRETCH = {Tier.FULL: 1.0, Tier.BLOCKS: 2.0, Tier.ASCII: 4.0}
"""By how much a dash grows in a tier whose signs cover several dots."""


@dataclass(frozen=True, slots=True)
class Picture:
    """A finished grid: code point, ink and ground of every cell."""

    points: NDArray[np.uint32]
    inks: Cells
    grounds: Cells

    def rows(self) -> list[list[Run]]:
        """Return every row as runs, together exactly as wide as the canvas."""
        return [self.row(index) for index in range(len(self.points))]

    def row(self, index: int) -> list[Run]:
        """Return one row as runs."""
        inks, grounds = self.inks[index], self.grounds[index]
        text = self.points[index].tobytes().decode("utf-32-le")
        turns = np.flatnonzero((np.diff(inks) != 0) | (np.diff(grounds) != 0)) + 1
        edges = [0, *turns.tolist(), len(text)]
        return [
            Run(text[start:stop], _TOKENS[inks[start]], _GROUNDS[grounds[start]])
            for start, stop in pairwise(edges)
            if stop > start
        ]

    def text(self) -> str:
        """Return the characters alone, a line for each row."""
        return "\n".join(row.tobytes().decode("utf-32-le") for row in self.points)


class Canvas:
    """Cells under the pen; the order of drawing does not matter between layers."""

    def __init__(self, rows: int, columns: int, glyphs: Glyphs) -> None:
        self.glyphs = glyphs
        self.area = Area(0, 0, rows, columns)
        shape = (rows, columns)
        self._dots: Bools = np.zeros((rows, DOTS_DOWN, columns, DOTS_ACROSS), dtype=np.bool_)
        self._dot_layer: Cells = np.zeros(shape, dtype=np.uint8)
        self._dot_ink: Cells = np.zeros(shape, dtype=np.uint8)
        self._points = np.full(shape, _BLANK, dtype=np.uint32)
        self._layer: Cells = np.zeros(shape, dtype=np.uint8)
        self._ink: Cells = np.zeros(shape, dtype=np.uint8)
        self._ground: Cells = np.zeros(shape, dtype=np.uint8)

    def copy(self) -> Canvas:
        """Return a canvas with the same drawing, to draw on further."""
        twin = Canvas.__new__(Canvas)
        for name, value in vars(self).items():
            setattr(twin, name, value.copy() if isinstance(value, np.ndarray) else value)
        return twin

    def polyline(self, points: Floats, pen: Pen, within: Area | None = None) -> None:
        """Draw through points given in dots from the top left corner; NaN lifts the pen."""
        if len(points) < 2:
            return
        tier = self.glyphs.tier
        stretch = _DASH_STRETCH[tier]
        dash = None if pen.dash is None else (pen.dash[0] * stretch, pen.dash[1] * stretch)
        area = within or self.area
        near = _lifted_outside(points, area)
        across, down = stroke(near, thick=pen.thick and tier is Tier.FULL, dash=dash)
        column, row = across // DOTS_ACROSS, down // DOTS_DOWN
        kept = (row >= area.row) & (row < area.row + area.rows)
        kept &= (column >= area.column) & (column < area.column + area.columns)
        row, column, across, down = row[kept], column[kept], across[kept], down[kept]
        self._dots[row, down % DOTS_DOWN, column, across % DOTS_ACROSS] = True
        above = self._dot_layer[row, column] <= pen.layer
        row, column = row[above], column[above]
        self._dot_layer[row, column] = pen.layer
        self._dot_ink[row, column] = _TOKEN_INDEX[pen.token]

    def circle(
        self, centre: tuple[float, float], radius: float, pen: Pen, within: Area | None = None
    ) -> None:
        """Draw a circle; centre and radius in dots."""
        self.polyline(circle(centre, radius), pen, within)

    def text(self, row: int, column: int, text: str, ink: Ink) -> None:
        """Write from a cell on; what lies outside is cut, what is higher in the order stays."""
        if not 0 <= row < self.area.rows:
            return
        for at, point in enumerate(_one_cell_each(text, self.glyphs.tier), start=column):
            if 0 <= at < self.area.columns and self._layer[row, at] <= ink.layer:
                self._points[row, at] = point
                self._layer[row, at] = ink.layer
                self._ink[row, at] = _TOKEN_INDEX[ink.token]
                if ink.ground is not None:
                    self._ground[row, at] = _GROUND_INDEX[ink.ground]

    def hatch(self, cells: Bools, glyph: str, token: Token) -> None:
        """Fill cells with a sign that any line or word covers; the first hatch stays."""
        free = cells & (self._layer < Layer.HATCH)
        self._points[free] = ord(glyph)
        self._layer[free] = Layer.HATCH
        self._ink[free] = _TOKEN_INDEX[token]

    def framed(self, cells: Bools, area: Area) -> Bools:
        """Return cells of an area as cells of the whole canvas."""
        framed = np.zeros(self._layer.shape, dtype=np.bool_)
        framed[area.row : area.row + area.rows, area.column : area.column + area.columns] = cells
        return framed

    def written(self, layer: Layer) -> set[tuple[int, int]]:
        """Return the cells that carry text of one layer."""
        rows, columns = np.nonzero(self._layer == layer)
        return set(zip(rows.tolist(), columns.tolist(), strict=True))

    def tint(self, cells: Bools, ground: Ground) -> None:
        """Lay a ground under cells."""
        self._ground[cells] = _GROUND_INDEX[ground]

    def picture(self) -> Picture:
        """Return the grid as it looks now."""
        signs = np.array([ord(sign) for sign in characters(self.glyphs.tier)], dtype=np.uint32)
        pattern = np.einsum("rdca,da->rc", self._dots, _BITS, dtype=np.uint8)
        lined = (pattern > 0) & (self._dot_layer >= self._layer)
        points = np.where(lined, signs[pattern], self._points)
        inks = np.where(lined, self._dot_ink, self._ink)
        return Picture(points, inks, self._ground.copy())

    def rows(self) -> list[list[Run]]:
        """Return the grid as runs of text."""
        return self.picture().rows()


def _lifted_outside(points: Floats, area: Area) -> Floats:
    """Lift the pen over segments that lie wholly to one side, so that a close look stays quick."""
    edges = (
        (area.column * DOTS_ACROSS, (area.column + area.columns) * DOTS_ACROSS),
        (area.row * DOTS_DOWN, (area.row + area.rows) * DOTS_DOWN),
    )
    beyond = np.zeros(len(points) - 1, dtype=np.bool_)
    for axis, (low, high) in enumerate(edges):
        values = points[:, axis]
        beyond |= (np.maximum(values[:-1], values[1:]) < low - 1.0) | (
            np.minimum(values[:-1], values[1:]) > high + 1.0
        )
    if not beyond.any():
        return points
    gaps = np.flatnonzero(beyond) + 1
    return np.insert(points, gaps, np.nan, axis=0)


def _one_cell_each(text: str, tier: Tier) -> list[int]:
    """Code points that each take one cell; any other shows as a question mark."""
    return [ord(sign if _is_narrow(sign, tier) else "?") for sign in text]


def _is_narrow(sign: str, tier: Tier) -> bool:
    if sign.isascii():
        return sign.isprintable()
    return (
        tier is not Tier.ASCII
        and sign.isprintable()
        and not unicodedata.combining(sign)
        and unicodedata.category(sign) not in ("Mn", "Me", "Cf")
        and unicodedata.east_asian_width(sign) not in ("W", "F")
    )
