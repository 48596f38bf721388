# SPDX-License-Identifier: Apache-2.0
"""Metres to dots and back: plan, side and section at one scale, and round numbers for the rulers.

A cell is taken as twice as high as wide, so its dots are square and one scale serves both ways.
"""

from __future__ import annotations

import math
from dataclasses import dataclass, replace
from typing import NamedTuple

import numpy as np

from rfplan.reports.cells import LengthUnit
from rfplan.tui.dots import DOTS_ACROSS, DOTS_DOWN
from rfplan.tui.layout import Area, ViewKind
from rfplan.tui.raster import Floats
from rfplan.units import LENGTH, from_unit, in_unit

Point = tuple[float, float, float]


class Sight(NamedTuple):
    """The place under a cell as far as a view tells it; None is the way one looks along."""

    fs_m: float | None
    bl_m: float | None
    wl_m: float | None


@dataclass(frozen=True, slots=True)
class Camera:
    """What all views look at: the point in their middle and the scale they share."""

    middle_m: Point
    dots_per_m: float

    def zoomed(self, factor: float, about_m: Point) -> Camera:
        """Return a closer look (factor above 1) in which `about_m` stays where it is."""
        pairs = zip(self.middle_m, about_m, strict=True)
        fs_m, bl_m, wl_m = (about + (middle - about) / factor for middle, about in pairs)
        return Camera((fs_m, bl_m, wl_m), self.dots_per_m * factor)

    def panned(self, fs_m: float = 0.0, bl_m: float = 0.0, wl_m: float = 0.0) -> Camera:
        """Return a look at a middle moved by some metres."""
        x_m, y_m, z_m = self.middle_m
        return replace(self, middle_m=(x_m + fs_m, y_m + bl_m, z_m + wl_m))


_AXES = {
    ViewKind.PLAN: ((0, 1.0), (1, -1.0)),
    ViewKind.SIDE: ((0, 1.0), (2, -1.0)),
    ViewKind.SECTION: ((1, 1.0), (2, -1.0)),
}
"""For each view the coordinate that runs right and the one that runs down, with its sense.

The nose is left: seen from above the right side is up, from the left the nose is ahead.
"""


@dataclass(frozen=True, slots=True)
class View:
    """One look at the aircraft in its area of the canvas; a section also has a station."""

    kind: ViewKind
    area: Area
    camera: Camera
    station_m: float | None = None

    @property
    def centre_dot(self) -> tuple[float, float]:
        """The middle of the cell in the middle of the area, where the camera's middle falls."""
        column = self.area.column + self.area.columns // 2
        row = self.area.row + self.area.rows // 2
        return (column + 0.5) * DOTS_ACROSS, (row + 0.5) * DOTS_DOWN

    def dots_of(self, points_m: Floats) -> Floats:
        """Return where points (FS, BL, WL in the last axis) fall, in dots right and down."""
        return np.stack(
            [
                centre + sense * (points_m[..., axis] - middle_m) * self.camera.dots_per_m
                for centre, middle_m, (axis, sense) in self._ways()
            ],
            axis=-1,
        )

    def dot_of(self, point_m: Point) -> tuple[float, float]:
        """Return where one point falls, in dots right and down."""
        right, down = (
            centre + sense * (point_m[axis] - middle_m) * self.camera.dots_per_m
            for centre, middle_m, (axis, sense) in self._ways()
        )
        return right, down

    def cell_of(self, point_m: Point) -> tuple[int, int]:
        """Return row and column of the cell a point falls in, whether in the area or not."""
        right, down = self.dot_of(point_m)
        return math.floor(down / DOTS_DOWN), math.floor(right / DOTS_ACROSS)

    def place_of(self, row: int, column: int) -> Sight:
        """Return the place under the middle of a cell."""
        return self.place_of_dot((column + 0.5) * DOTS_ACROSS, (row + 0.5) * DOTS_DOWN)

    def place_of_dot(self, right: float, down: float) -> Sight:
        """Return the place under a spot given in dots."""
        place: list[float | None] = [self.station_m, None, None]
        for spot, (centre, middle_m, (axis, sense)) in zip(
            (right, down), self._ways(), strict=True
        ):
            place[axis] = middle_m + sense * (spot - centre) / self.camera.dots_per_m
        return Sight(*place)

    def grid_m(self, row_part: float, column_part: float) -> tuple[Floats, Floats]:
        """Return both coordinates at one spot of every cell of the area, shapes (1, c), (r, 1).

        Parts run from 0, the upper or left edge of a cell, to 1.
        """
        area, per_dot_m = self.area, 1.0 / self.camera.dots_per_m
        across = (area.column + np.arange(area.columns) + column_part) * DOTS_ACROSS
        down = (area.row + np.arange(area.rows) + row_part) * DOTS_DOWN
        (x, x_m, (_, x_sense)), (y, y_m, (_, y_sense)) = self._ways()
        right_m = np.asarray(x_m + x_sense * per_dot_m * (across - x), dtype=np.float64)
        down_m = np.asarray(y_m + y_sense * per_dot_m * (down - y), dtype=np.float64)
        return right_m[None, :], down_m[:, None]

    def _ways(self) -> tuple[tuple[float, float, tuple[int, float]], ...]:
        """Right, then down: the centre in dots, the camera's middle, and the axis."""
        axes = _AXES[self.kind]
        return tuple(
            (centre, self.camera.middle_m[axis], (axis, sense))
            for centre, (axis, sense) in zip(self.centre_dot, axes, strict=True)
        )


class Tick(NamedTuple):
    """A round number of a ruler and where it stands."""

    value_m: float
    number: int


_ROUND = (1, 2, 5)


def ticks(low_m: float, high_m: float, unit: LengthUnit, least_gap_m: float) -> list[Tick]:
    """Return round numbers of the unit between two ends, at least a gap apart."""
    step = round_step(in_unit(least_gap_m, LENGTH, unit))
    first = math.ceil(in_unit(low_m, LENGTH, unit) / step - 1e-9)
    last = math.floor(in_unit(high_m, LENGTH, unit) / step + 1e-9)
    return [
        Tick(from_unit(float(index * step), LENGTH, unit), index * step)
        for index in range(first, last + 1)
    ]


def round_step(least: float) -> int:
    """Return the smallest of 1, 2, 5, 10, 20, 50 ... that is not below a number."""
    power = int(10 ** math.floor(math.log10(max(least, 1.0))))
    steps = (figure * power for figure in (*_ROUND, 10))
    return next(step for step in steps if step >= least - 1e-9)
