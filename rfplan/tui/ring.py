# SPDX-License-Identifier: Apache-2.0
"""The ring of the distance an antenna needs, round the neighbour it is tightest with."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from rfplan.model.assessment import AntennaPlace, Assessment, SpacingFact
from rfplan.model.findings import Verdict
from rfplan.reports.cells import LengthUnit
from rfplan.tui.canvas import Canvas, Layer, Pen
from rfplan.tui.dots import DOTS_ACROSS, DOTS_DOWN
from rfplan.tui.labels import Label
from rfplan.tui.projection import Point, View
from rfplan.tui.tokens import Token, token_of
from rfplan.units import show_length

RING_ID = "ring"
DASH = (1.0, 2.0)


@dataclass(frozen=True, slots=True)
class Ring:
    """A needed distance round a neighbour; `token` tells whether it is kept."""

    centre_m: Point
    radius_m: float
    caption: str
    token: Token


def tightest(assessment: Assessment, antenna: str) -> SpacingFact | None:
    """Return the pair of an antenna with the least room, if any rule speaks of one."""
    judged = [
        (fact.margin_m, fact.a, fact.b, fact)
        for fact in assessment.spacing
        if antenna in (fact.a, fact.b) and fact.margin_m is not None and fact.need_m is not None
    ]
    return min(judged, key=lambda row: row[:3])[3] if judged else None


def ring_round(assessment: Assessment, antenna: str, unit: LengthUnit) -> Ring | None:
    """Return the ring for an antenna; between base edges it is wider by both bases."""
    fact = tightest(assessment, antenna)
    if fact is None or fact.need_m is None:
        return None
    places = {place.id: place for place in assessment.antennas}
    here, other = places[antenna], places[fact.b if fact.a == antenna else fact.a]
    caption = f"{length_words(fact.need_m, unit)} from {other.id}"
    return Ring(other.point_m, _radius_m(fact, here, other), caption, _token(fact))


def _radius_m(fact: SpacingFact, here: AntennaPlace, other: AntennaPlace) -> float:
    bases_m = here.radius_m + other.radius_m if fact.datum == "edge" else 0.0
    return (fact.need_m or 0.0) + bases_m


def _token(fact: SpacingFact) -> Token:
    """Dim while the distance is kept; a broken advice is plain, the rest in its verdict's ink."""
    if fact.verdict in (None, Verdict.PASS):
        return Token.DIM
    return Token.TEXT if fact.verdict is Verdict.ADVICE else token_of(str(fact.verdict))


def length_words(length_m: float, unit: LengthUnit) -> str:
    """Return a length without needless digits: '36 in', '24.5 in', '914 mm'."""
    return show_length(length_m, unit, 1 if unit == "in" else 0).replace(".0 ", " ")


def draw_ring(canvas: Canvas, view: View, ring: Ring) -> None:
    """Draw the ring as a view sees it."""
    pen = Pen(ring.token, Layer.RING, dash=DASH)
    canvas.circle(
        view.dot_of(ring.centre_m), ring.radius_m * view.camera.dots_per_m, pen, view.area
    )


def caption_tries(view: View, ring: Ring) -> Iterator[Label]:
    """Yield places for the caption: over the ring and under it as far as the view goes, beside."""
    area, width = view.area, len(ring.caption)
    row, column = view.cell_of(ring.centre_m)
    radius = ring.radius_m * view.camera.dots_per_m
    down, across = int(radius / DOTS_DOWN), int(radius / DOTS_ACROSS)
    middle = max(area.column, min(area.column + area.columns - width, column - width // 2))
    over, under = max(area.row, row - down - 1), min(area.row + area.rows - 1, row + down + 1)
    for try_row, start in (
        (over, middle),
        (under, middle),
        (over + 1, middle),
        (under - 1, middle),
        (row, column + across + 2),
        (row, column - across - 1 - width),
    ):
        yield Label(RING_ID, try_row, start, ring.caption)
