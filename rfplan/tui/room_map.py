# SPDX-License-Identifier: Apache-2.0
"""The room map: how much room an antenna would have at each cell of the plan view."""

from __future__ import annotations

import numpy as np
from numpy.typing import NDArray

from rfplan.physics.skin_geometry import Floats, Hull
from rfplan.tui.canvas import Canvas, Ink, Layer
from rfplan.tui.outline import Bools, cells_in_hull
from rfplan.tui.projection import View
from rfplan.tui.tokens import Ground, Token

Levels = NDArray[np.int8]
"""One number for each cell of the plan: 0 nothing, 1 tight to 4 ample, 5 breaks a rule."""

BREAKS_RULE = 5
_GROUNDS = (Ground.ROOM_1, Ground.ROOM_2, Ground.ROOM_3, Ground.ROOM_4)


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
        (f" room for {antenna} ", Token.DIM, bg),
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
    for text, token, ground in pieces:
        canvas.text(row, column, text, Ink(token, Layer.CAPTION, ground))
        column += len(text)
