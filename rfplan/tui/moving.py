# SPDX-License-Identifier: Apache-2.0
"""An antenna on the move: tried at every step, placed with enter, put back with esc."""

from __future__ import annotations

from contextlib import suppress
from dataclasses import dataclass, replace
from math import isfinite

from rfplan.edits import EditError, MoveAntenna
from rfplan.edits.places import off_the_skin
from rfplan.model.airframe import INSIDE
from rfplan.model.assessment import AntennaPlace, Assessment
from rfplan.model.findings import RANK, Finding
from rfplan.model.plan import Plan
from rfplan.reports.cells import LengthUnit
from rfplan.tui.outline import is_upright
from rfplan.tui.projection import Sight
from rfplan.tui.session import Session
from rfplan.tui.sketch import place_of
from rfplan.units import LENGTH, Place, from_unit, in_unit

STEPS: dict[LengthUnit, tuple[float, ...]] = {"in": (0.5, 2.0, 6.0), "mm": (10.0, 50.0, 150.0)}
"""Sizes of a step; the second one is taken first."""

CLICK: dict[LengthUnit, float] = {"in": 0.5, "mm": 10.0}
"""What a place that is clicked is rounded to."""

_SKIN_GIVES_WATER_LINE = ("top", "belly")


@dataclass(slots=True)
class Moving:
    """One antenna being moved; `assessment` is the plan as it would be.

    `choosing` tells that it goes by the list of places proposed, of which one is `tried`.
    """

    session: Session
    antenna: str
    was: AntennaPlace
    on: str
    at: Place
    unit: LengthUnit = "in"
    step_index: int = 1
    assessment: Assessment | None = None
    asked: bool = False
    choosing: bool = False
    tried: int | None = None

    @classmethod
    def at_rest(cls, session: Session, antenna: str, unit: LengthUnit) -> Moving:
        """Take an antenna up where it stands."""
        was = place_of(session.assessment, antenna)
        fitted = session.plan.installation.antennas[antenna]
        assert was is not None
        moving = cls(session, antenna, was, fitted.on, fitted.at, unit)
        moving.assessment = session.assessment
        return moving

    @classmethod
    def start(cls, session: Session, antenna: str, unit: LengthUnit) -> Moving:
        """Take an antenna up; one inside begins on the skin above, if it can stand there."""
        moving = cls.at_rest(session, antenna, unit)
        if moving.was.surface in INSIDE:
            with suppress(EditError):
                moving.to("top", Place(moving.at.fs_m, moving.at.bl_m, None))
        return moving

    @property
    def step(self) -> float:
        """The size of a step in the unit of the screen."""
        return STEPS[self.unit][self.step_index]

    @property
    def edit(self) -> MoveAntenna:
        """The edit that places the antenna."""
        return MoveAntenna(self.antenna, self.on, self.at)

    def next_step(self) -> None:
        """Take the next size of a step, the smallest after the largest."""
        self.step_index = (self.step_index + 1) % len(STEPS[self.unit])

    def to(self, on: str, at: Place) -> None:
        """Try a place; raises EditError for one that is not on the skin, and stays then."""
        assessment = self.session.preview(MoveAntenna(self.antenna, on, at))
        place = place_of(assessment, self.antenna)
        if place is None or not all(map(isfinite, place.point_m)):
            raise EditError(off_the_skin(self.session.plan.airframe, on, at, self.unit))
        self.take(MoveAntenna(self.antenna, on, at), assessment)

    def take(self, edit: MoveAntenna, assessment: Assessment) -> None:
        """Go to a place that has been judged."""
        self.assessment = assessment
        self.on, self.at, self.asked = edit.on, edit.at, False

    def nudge(self, right: float, down: float) -> None:
        """Go some steps aft and down the drawing, which is left, or down on an upright surface."""
        fs_m = self._added(self.at.fs_m, right)
        if is_upright(self.session.plan.airframe, self.on):
            wl_m = self._added(self._water_line_m(), -down)
            self.to(self.on, Place(fs_m, self.at.bl_m, wl_m))
        else:
            self.to(self.on, replace(self.at, fs_m=fs_m, bl_m=self._added(self.at.bl_m, -down)))

    def to_side(self, on: str) -> None:
        """Try another surface at the same station."""
        self.to(on, on_surface(self.session.plan, on, self.at, self._water_line_m()))

    def to_sight(self, sight: Sight) -> None:
        """Try the place under a cell; what the view does not tell stays as it is."""
        spots = (sight.fs_m, sight.bl_m, sight.wl_m)
        fs_m, bl_m, wl_m = (None if spot is None else self._rounded(spot) for spot in spots)
        at = replace(self.at, fs_m=self.at.fs_m if fs_m is None else fs_m)
        if bl_m is not None:
            at = replace(at, bl_m=bl_m)
        if wl_m is not None and self.on not in _SKIN_GIVES_WATER_LINE:
            at = replace(at, wl_m=wl_m)
        self.to(self.on, at)

    def objection(self) -> Finding | None:
        """Return the worst required rule that the place breaks, if any."""
        assert self.assessment is not None
        broken = [
            finding
            for finding in self.assessment.findings
            if finding.verdict.fails and self.antenna in finding.objects
        ]
        return min(broken, key=lambda finding: RANK[finding.verdict], default=None)

    def _water_line_m(self) -> float:
        if self.at.wl_m is not None:
            return self.at.wl_m
        place = place_of(self.assessment or self.session.assessment, self.antenna)
        return place.point_m[2] if place else 0.0

    def _added(self, length_m: float, steps: float) -> float:
        """A length some steps on, free of the crumbs of binary fractions."""
        number = in_unit(length_m, LENGTH, self.unit) + steps * self.step
        return from_unit(round(number, 6), LENGTH, self.unit)

    def _rounded(self, length_m: float) -> float:
        grain = CLICK[self.unit]
        return from_unit(
            round(in_unit(length_m, LENGTH, self.unit) / grain) * grain, LENGTH, self.unit
        )


def on_surface(plan: Plan, on: str, at: Place, wl_m: float) -> Place:
    """Return a place as a surface wants it, with or without a water line."""
    return replace(at, wl_m=None if on in _SKIN_GIVES_WATER_LINE else wl_m)
