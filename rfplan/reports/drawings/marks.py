# SPDX-License-Identifier: Apache-2.0
"""Antennas, zones and ground planes with the numbers by which a drawing calls them."""

from __future__ import annotations

import math
from dataclasses import dataclass

from rfplan.model.airframe import Airframe, Zone
from rfplan.model.assessment import AntennaPlace, Assessment
from rfplan.model.plan import GroundPlane
from rfplan.reports.cells import LengthUnit, length
from rfplan.reports.context import Context
from rfplan.reports.drawings.shapes import Point
from rfplan.reports.since_found import AS_FOUND, antenna_change

ON_CENTRE_M = 5e-5
"""A butt line nearer to the centre line than this has no side."""


@dataclass(frozen=True, slots=True)
class Mark:
    """One antenna as drawn: its number, its place, its base and how far it stands out."""

    number: int
    place: AntennaPlace
    length_m: float
    width_m: float
    height_m: float
    change: str

    @property
    def id(self) -> str:
        """The antenna's own name."""
        return self.place.id

    @property
    def point(self) -> Point:
        """The middle of the base."""
        return self.place.point_m

    def told(self, units: LengthUnit) -> tuple[str, str, str]:
        """Station, butt line with its side in front, and water line in words."""
        fs_m, bl_m, wl_m = self.point
        side = "" if abs(bl_m) < ON_CENTRE_M else ("R" if bl_m > 0.0 else "L")
        butt_line = f"{side}{length(abs(bl_m), units).text}"
        return length(fs_m, units).text, butt_line, length(wl_m, units).text

    @property
    def tip(self) -> Point:
        """The end of the antenna, straight off its surface."""
        x, y, z = (
            at + along * self.height_m
            for at, along in zip(self.place.point_m, self.place.normal, strict=True)
        )
        return x, y, z

    @property
    def is_new(self) -> bool:
        """Whether the antenna was not found like this."""
        return self.change != AS_FOUND


def _marks(assessment: Assessment) -> list[Mark]:
    """The antennas that have a place, numbered from nose to tail."""
    standing = [one for one in assessment.antennas if all(map(math.isfinite, one.point_m))]
    ordered = sorted(standing, key=lambda one: (one.point_m[0], one.point_m[1], one.id))
    return [_mark(number, place, assessment) for number, place in enumerate(ordered, start=1)]


def _mark(number: int, place: AntennaPlace, assessment: Assessment) -> Mark:
    type = assessment.catalog.antennas[place.type]
    length_m, width_m = (type.base.length_m, type.base.width_m) if type.base else (0.0, 0.0)
    change = antenna_change(place.id, assessment.plan)
    return Mark(number, place, length_m, width_m, type.height_m or 0.0, change)


@dataclass(frozen=True, slots=True)
class Tag:
    """One region of the aircraft with the tag by which the legend explains it."""

    tag: str
    id: str
    region: Zone | GroundPlane
    hatch: str
    words: str

    @property
    def why(self) -> str:
        """The reason that the airframe file gives for a zone."""
        return (self.region.why or "") if isinstance(self.region, Zone) else ""


PLANE = "plane"


@dataclass(frozen=True, slots=True)
class Subject:
    """What a drawing shows: an assessment, and its antennas and regions numbered."""

    assessment: Assessment
    context: Context
    marks: tuple[Mark, ...]
    tags: tuple[Tag, ...]

    @property
    def airframe(self) -> Airframe:
        """The airframe of the plan."""
        return self.assessment.plan.airframe

    @property
    def units(self) -> LengthUnit:
        """The unit lengths are told in."""
        return self.context.units


def subject_of(assessment: Assessment, context: Context) -> Subject:
    """Return an assessment as a drawing shows it."""
    return Subject(assessment, context, tuple(_marks(assessment)), tuple(_tags(assessment)))


def _tags(assessment: Assessment) -> list[Tag]:
    """Zones as Z1, Z2, ..., ground planes as G1, G2, ..., in the order of the files."""
    plan, kinds = assessment.plan, assessment.rulebook.zone_kinds
    zones = [
        Tag(f"Z{number}", id, zone, kinds[zone.is_].effect, kinds[zone.is_].title)
        for number, (id, zone) in enumerate(plan.airframe.zones.items(), start=1)
    ]
    planes = [
        Tag(f"G{number}", id, plane, PLANE, plane.of)
        for number, (id, plane) in enumerate(plan.installation.ground_planes.items(), start=1)
    ]
    return [*zones, *planes]
