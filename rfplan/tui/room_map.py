# SPDX-License-Identifier: Apache-2.0
"""The room map: how much room an antenna would have at each cell of the plan view."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from rfplan.analysis.facts import gather
from rfplan.analysis.placement import hull_places
from rfplan.model.catalog import Catalog
from rfplan.model.plan import Plan
from rfplan.model.rulebook import Rulebook
from rfplan.physics.skin_geometry import Floats, Hull
from rfplan.propose.room_map import BREAKS_RULE, Levels, room_map
from rfplan.tui.canvas import Canvas, Ink, Layer
from rfplan.tui.outline import Bools, cells_in_hull
from rfplan.tui.projection import View
from rfplan.tui.tokens import Ground, Token

MAPPED = ("top", "belly")
"""Surfaces that the plan view looks at."""

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


class KeptRoom:
    """The levels of the cells of a plan view, kept while plan, antenna, surface and view stay."""

    def __init__(self) -> None:
        self._of: Roomed | None = None
        self._view: View | None = None
        self._levels: Levels = np.zeros((0, 0), dtype=np.int8)

    def levels(self, roomed: Roomed, view: View) -> Levels:
        """Return the level of each cell."""
        if view != self._view or not roomed.is_as(self._of):
            self._levels, self._of, self._view = levels_in_plan(roomed, view), roomed, view
        return self._levels


def levels_in_plan(roomed: Roomed, view: View) -> Levels:
    """Return the level of each cell of a plan view, 0 off the hull."""
    facts = gather(roomed.plan, roomed.catalog, roomed.rulebook)
    hull = facts.scene.hull
    fs_m, bl_m, cells = places_in_plan(view, hull)
    places = hull_places(hull, roomed.on, fs_m[cells], bl_m[cells])
    levels = np.zeros(cells.shape, dtype=np.int8)
    levels[cells] = room_map(facts, facts.scene.fitted[roomed.antenna], places).levels
    return levels


def places_in_plan(view: View, hull: Hull) -> tuple[Floats, Floats, Bools]:
    """Return station and butt line of every cell's middle, and which cells lie in the hull."""
    cells = cells_in_hull(view, hull)
    fs_m, bl_m = np.broadcast_arrays(*view.grid_m(0.5, 0.5))
    return fs_m, bl_m, cells


def draw_room(canvas: Canvas, view: View, levels: Levels, antenna: str) -> None:
    """Tint the plan by room, hatch what breaks a rule, and say below what the tints mean."""
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
