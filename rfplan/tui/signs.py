# SPDX-License-Identifier: Apache-2.0
"""What stands and runs on the aircraft: signs of antennas and places, and the selected route."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from string import ascii_uppercase

import numpy as np

from rfplan.model.assessment import AntennaPlace, Assessment, PathAssessment
from rfplan.tui.glyphs import Glyphs
from rfplan.tui.labels import Side
from rfplan.tui.projection import Point
from rfplan.tui.raster import Floats
from rfplan.tui.tokens import Token, token_of
from rfplan.units import Place


@dataclass(frozen=True, slots=True)
class Focus:
    """What the drawing dwells on; `proposed` places are lettered A, B, C."""

    antenna: str | None = None
    path: str | None = None
    moving_from: Point | None = None
    ring: bool = False
    proposed: tuple[Point, ...] = ()


@dataclass(frozen=True, slots=True)
class Sign:
    """One cell that stands for a place; only the sign of an antenna has a name."""

    point_m: Point
    glyph: str
    token: Token
    name: str = ""
    selected: bool = False
    side: Side = Side.BESIDE
    """Where a view from the side has room for the name."""


def signs_of(assessment: Assessment, focus: Focus, glyphs: Glyphs) -> tuple[Sign, ...]:
    """Return every sign, what is most important last."""
    return (
        *_ghost(focus, glyphs),
        *reversed(
            [
                Sign(point_m, letter, Token.BOLD)
                for letter, point_m in zip(ascii_uppercase, focus.proposed, strict=False)
            ]
        ),
        *sorted(
            (_antenna(place, assessment, focus, glyphs) for place in assessment.antennas),
            key=lambda sign: sign.selected,
        ),
    )


def _ghost(focus: Focus, glyphs: Glyphs) -> Iterator[Sign]:
    if focus.moving_from is not None:
        yield Sign(focus.moving_from, glyphs.was, Token.TEXT)


def _antenna(place: AntennaPlace, assessment: Assessment, focus: Focus, glyphs: Glyphs) -> Sign:
    """The selected antenna in the accent, any other in the ink of its worst verdict."""
    side = {"top": Side.ABOVE, "belly": Side.BELOW}.get(place.surface, Side.BESIDE)
    if place.id == focus.antenna:
        return Sign(place.point_m, glyphs.here, Token.ACCENT, place.id, True, side)
    token = token_of(str(assessment.word_of(place.id)))
    glyph = glyphs.surface(place.surface, inside=place.inside)
    return Sign(place.point_m, glyph, token, place.id, False, side)


def route_m(assessment: Assessment, path: str | None) -> Floats:
    """Return the way of a path from its unit by the nodes of its cables, shape (n, 3)."""
    chosen = next((one for one in assessment.paths if one.id == path), None)
    points = [] if chosen is None else list(_way(assessment, chosen))
    return np.array(points, dtype=np.float64).reshape(-1, 3)


def _way(assessment: Assessment, path: PathAssessment) -> Iterator[Point]:
    plan = assessment.plan
    unit, nodes = plan.installation.units.get(path.unit), plan.airframe.route.nodes
    if unit is not None and unit.at is not None:
        yield _point(unit.at)
    for cable in path.cables:
        yield from (_point(nodes[id].at) for id in assessment.cables[cable].nodes)
    yield from (place.point_m for place in assessment.antennas if place.id == path.antenna)


def _point(place: Place) -> Point:
    return place.fs_m, place.bl_m, place.wl_m or 0.0
