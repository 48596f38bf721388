# SPDX-License-Identifier: Apache-2.0
"""The drawing as a pane: what stays where it is is drawn once, and drawn on at every key."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass

from rfplan.model.assessment import AntennaPlace, Assessment
from rfplan.model.plan import Plan
from rfplan.model.rulebook import ZoneKind
from rfplan.tui.airframe_view import Drawing, draw
from rfplan.tui.backdrop import Backdrop, backdrop
from rfplan.tui.layout import ViewKind
from rfplan.tui.projection import Camera, Point, Sight
from rfplan.tui.room_map import KeptRoom, Roomed, RoomSeen, view_of
from rfplan.tui.signs import Focus
from rfplan.tui.stage import Paper, Stage, fit_stage


@dataclass(frozen=True, slots=True)
class _Asked:
    """What a backdrop depends on; plans are compared by what of them is drawn."""

    paper: Paper
    kinds: tuple[ViewKind, ...]
    surface: str
    camera: Camera | None


class Sketch:
    """The drawing of a plan at a size, with the zoom that its user chose."""

    def __init__(self) -> None:
        self.drawing: Drawing | None = None
        self._asked: _Asked | None = None
        self._plan: Plan | None = None
        self._backdrop: Backdrop | None = None
        self._camera: Camera | None = None
        self._home: Stage | None = None
        self._room = KeptRoom()

    def draw(
        self,
        assessment: Assessment,
        focus: Focus,
        paper: Paper,
        kinds: tuple[ViewKind, ...],
        zone_kinds: Mapping[str, ZoneKind],
        roomed: Roomed | None = None,
    ) -> Drawing:
        """Return the drawing of an assessment on a paper."""
        place = place_of(assessment, focus.antenna)
        surface = "belly" if place is not None and place.surface == "belly" else "top"
        self._prepare(assessment.plan, _Asked(paper, kinds, surface, self._camera), zone_kinds)
        assert self._backdrop is not None
        room = self._seen(self._backdrop.stage, roomed)
        self.drawing = draw(assessment, focus, self._backdrop, room)
        return self.drawing

    def _seen(self, stage: Stage, roomed: Roomed | None) -> RoomSeen | None:
        kind = view_of(roomed.plan.airframe, roomed.on) if roomed is not None else None
        view = stage.view(kind) if kind is not None else None
        return None if view is None or roomed is None else self._room.seen(roomed, view)

    def shows(self, kind: ViewKind) -> bool:
        """Whether a view is drawn."""
        return self._backdrop is not None and self._backdrop.stage.view(kind) is not None

    def _prepare(self, plan: Plan, asked: _Asked, zone_kinds: Mapping[str, ZoneKind]) -> None:
        if asked == self._asked and _same_backdrop(plan, self._plan):
            return
        home = fit_stage(plan.airframe, asked.kinds, asked.paper)
        if self._home is None or home.home != self._home.home:
            self._camera = None
        self._home = home
        stage = home if self._camera is None else home.looking(self._camera)
        self._backdrop = backdrop(plan, zone_kinds, stage, asked.surface)
        self._plan = plan
        self._asked = _Asked(asked.paper, asked.kinds, asked.surface, self._camera)

    def zoom(self, factor: float, about_m: Point) -> None:
        """Look closer (above 1) or wider round a point."""
        if self._backdrop is not None:
            self._camera = self._backdrop.stage.zoomed(factor, about_m).camera

    def zoom_home(self) -> None:
        """Look at the whole aircraft."""
        self._camera = None

    def antenna_at(self, row: int, column: int) -> str | None:
        """Return the antenna drawn at a cell or beside it."""
        return self.drawing.hit(row, column) if self.drawing else None

    def sight(self, row: int, column: int) -> Sight | None:
        """Return the place under a cell, as far as the view there tells it."""
        view = self.drawing.stage.view_at(row, column) if self.drawing else None
        return None if view is None else view.place_of(row, column)


def _same_backdrop(plan: Plan, other: Plan | None) -> bool:
    return (
        other is not None
        and plan.airframe is other.airframe
        and plan.installation.ground_planes is other.installation.ground_planes
    )


def place_of(assessment: Assessment, antenna: str | None) -> AntennaPlace | None:
    """Return where an antenna stands."""
    return next((place for place in assessment.antennas if place.id == antenna), None)
