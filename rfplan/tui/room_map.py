# SPDX-License-Identifier: Apache-2.0
"""The room map: how much room an antenna would have at each cell of a view of its surface."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from rfplan.analysis.facts import gather
from rfplan.analysis.placement import snap
from rfplan.analysis.scene import Scene
from rfplan.model.airframe import INSIDE, OUTER_HULL, Airframe
from rfplan.model.catalog import Catalog
from rfplan.model.plan import Plan
from rfplan.model.rulebook import Rulebook
from rfplan.propose.room_map import BREAKS_RULE, Levels, room_map
from rfplan.tui.canvas import Canvas, Ink, Layer
from rfplan.tui.layout import ViewKind
from rfplan.tui.outline import (
    AXES,
    Bools,
    cells_in_hull,
    is_in_hull,
    is_in_polygon,
    is_upright,
    plate_edges_m,
)
from rfplan.tui.projection import View
from rfplan.tui.tokens import Ground, Token
from rfplan.units import Place

_GROUNDS = (Ground.ROOM_1, Ground.ROOM_2, Ground.ROOM_3, Ground.ROOM_4)


@dataclass(frozen=True, slots=True)
class Roomed:
    """An antenna whose room is looked at on one surface; where it stands itself is no matter."""

    plan: Plan
    catalog: Catalog
    rulebook: Rulebook
    antenna: str
    on: str

    def is_as(self, other: Roomed | None) -> bool:
        """Whether this is the room of the very same plan, which is told without comparing it."""
        if other is None or self.plan is not other.plan:
            return False
        return (self.antenna, self.on) == (other.antenna, other.on)


@dataclass(frozen=True, slots=True)
class RoomSeen:
    """The level of each cell of one view."""

    kind: ViewKind
    levels: Levels


class KeptRoom:
    """The levels of the cells of a view, kept while plan, antenna, surface and view stay."""

    def __init__(self) -> None:
        self._of: Roomed | None = None
        self._view: View | None = None
        self._levels: Levels = np.zeros((0, 0), dtype=np.int8)

    def seen(self, roomed: Roomed, view: View) -> RoomSeen:
        """Return the level of each cell."""
        if view != self._view or not roomed.is_as(self._of):
            self._levels, self._of, self._view = levels_in(roomed, view), roomed, view
        return RoomSeen(view.kind, self._levels)


def view_of(airframe: Airframe, on: str) -> ViewKind | None:
    """Return the view that looks at a surface, None for what lies inside the skin."""
    if on in INSIDE:
        return None
    return ViewKind.SIDE if is_upright(airframe, on) else ViewKind.PLAN


def levels_in(roomed: Roomed, view: View) -> Levels:
    """Return the level of each cell of a view, 0 where its surface is not seen."""
    facts = gather(roomed.plan, roomed.catalog, roomed.rulebook)
    scene, fitted = facts.scene, facts.scene.fitted[roomed.antenna]
    cells = _cells_of(view, scene, roomed.on)
    _, bl_m, wl_m = fitted.point_m
    right_m, down_m = (one[cells] for one in np.broadcast_arrays(*view.grid_m(0.5, 0.5)))
    at = [
        Place(fs, bl_m, down) if view.kind is ViewKind.SIDE else Place(fs, down, wl_m)
        for fs, down in zip(right_m.tolist(), down_m.tolist(), strict=True)
    ]
    levels = np.zeros(cells.shape, dtype=np.int8)
    places = snap(scene.airframe, scene.hull, roomed.on, at)
    levels[cells] = room_map(facts, fitted, places).levels
    return levels


def _cells_of(view: View, scene: Scene, on: str) -> Bools:
    """The cells that lie wholly inside a surface; a plate is seen outside the hull only."""
    if on in OUTER_HULL:
        return cells_in_hull(view, scene.hull)
    corners = [view.grid_m(row, column) for row in (0.0, 1.0) for column in (0.0, 1.0)]
    edges = [edge for id, edge in plate_edges_m(scene.airframe) if id == on]
    cells = np.zeros((view.area.rows, view.area.columns), dtype=np.bool_)
    for edge in edges:
        seen = edge[:, AXES[view.kind]]
        cells |= np.all([is_in_polygon(*corner, seen) for corner in corners], axis=0)
    hull = [is_in_hull(scene.hull, view.kind, *corner, view.station_m) for corner in corners]
    return np.asarray(cells & ~np.any(hull, axis=0))


def draw_room(canvas: Canvas, view: View, levels: Levels, antenna: str) -> None:
    """Tint a view by room, hatch what breaks a rule, and say below what the tints mean."""
    glyphs = canvas.glyphs
    for level, (ground, sign) in enumerate(zip(_GROUNDS, glyphs.room, strict=True), start=1):
        cells = canvas.framed(levels == level, view.area)
        canvas.tint(cells, ground)
        if sign != " ":
            canvas.hatch(cells, sign, Token.WING)
    forbidden = canvas.framed(levels == BREAKS_RULE, view.area)
    canvas.tint(forbidden, Ground.FORBIDDEN)
    canvas.hatch(forbidden, glyphs.rule, Token.HATCH)
    _draw_legend(canvas, view, antenna)


def _draw_legend(canvas: Canvas, view: View, antenna: str) -> None:
    glyphs, bg = canvas.glyphs, Ground.BG
    tight, *ample = zip(glyphs.room, _GROUNDS, strict=True)
    pieces = [
        (tight[0] * 2, Token.WING, tight[1]),
        (" tight ", Token.DIM, bg),
        *((sign * 2, Token.WING, ground) for sign, ground in ample),
        (" ample ", Token.DIM, bg),
        (glyphs.rule * 2, Token.HATCH, Ground.FORBIDDEN),
        (" rule ", Token.DIM, bg),
        (glyphs.keep_out * 2, Token.HATCH, Ground.FORBIDDEN),
        (" keep-out ", Token.DIM, bg),
    ]
    row, column = view.area.row + view.area.rows - 1, view.area.column
    spare = view.area.columns - sum(len(text) for text, _, _ in pieces)
    titles = (f" room for {antenna} ", " room ", "")
    title = next(title for title in titles if len(title) <= max(0, spare))
    for text, token, ground in [(title, Token.DIM, bg), *pieces]:
        canvas.text(row, column, text, Ink(token, Layer.CAPTION, ground))
        column += len(text)
