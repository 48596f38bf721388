# SPDX-License-Identifier: Apache-2.0
"""Where each antenna stands and how far from what can be measured, with the drawing to scale."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass

from rfplan.model.assessment import Assessment
from rfplan.model.plan import GroundPlane
from rfplan.reports.cells import (
    NOT_APPLICABLE,
    LengthUnit,
    length,
    nothing,
    words,
    words_or_nothing,
)
from rfplan.reports.context import Context
from rfplan.reports.drawings.details import look_at
from rfplan.reports.drawings.marks import Mark, Subject, Tag, subject_of
from rfplan.reports.drawings.measures import Measure, along, to_centre_line, to_zone
from rfplan.reports.drawings.placement import placement
from rfplan.reports.drawings.shapes import Span, region_spans
from rfplan.reports.heading import sheet
from rfplan.reports.places import spot_fields
from rfplan.reports.sheet import Cell, Field, Sheet, Table, number_field, table, text_field

KEY = "placement"
TITLE = "Placement of antennas"

LIMITS = (
    "The drawing is part of this sheet as HTML and as PDF, and a file of its own by rfplan "
    "drawing; it is true to scale where its frame is as wide as it says.",
    "FS aft of the datum, BL right of the centre line positive, WL up; places are those of the "
    "middle of the base. Distances to zones are from the edge of the base, all others from its "
    "middle. Measure on the aircraft before drilling.",
)


def build(assessment: Assessment, context: Context) -> Sheet:
    """Return places, distances, zones and ground planes, and the drawing that shows them."""
    subject = subject_of(assessment, context)
    return sheet(
        assessment,
        context,
        KEY,
        TITLE,
        _places(subject),
        _distances(subject),
        _regions(subject),
        limits=LIMITS,
        pictures=placement(assessment, context),
    )


def _places(subject: Subject) -> Table:
    units = subject.units
    fields: list[Field[Mark]] = [
        text_field("number", "no.", lambda mark: words(str(mark.number))),
        text_field("antenna", "antenna", lambda mark: words(mark.id)),
        text_field("type", "type", lambda mark: words(mark.place.type)),
        text_field("surface", "surface", lambda mark: words(mark.place.surface)),
        text_field("change", "change", lambda mark: words(mark.change)),
        *spot_fields(units, lambda mark: mark.point),
        number_field(
            "base_length", "base, length", units, lambda mark: _size(mark.length_m, units)
        ),
        number_field("base_width", "base, width", units, lambda mark: _size(mark.width_m, units)),
        number_field("height", "height", units, lambda mark: _size(mark.height_m, units)),
    ]
    return table("places", "Places", fields, subject.marks, stub=2)


def _size(size_m: float, units: LengthUnit) -> Cell:
    """A size of an antenna; one that its type does not tell is not zero."""
    return length(size_m or None, units)


@dataclass(frozen=True, slots=True)
class _Distances:
    """How far one antenna is from what is near: along the station, across, from a zone."""

    mark: Mark
    along: Measure
    also_along: Measure | None
    across: Measure | None
    zone: Measure | None


def _distances(subject: Subject) -> Table:
    rows = [_measured(mark, subject) for mark in subject.marks]
    units = subject.units
    fields: list[Field[_Distances]] = [
        text_field("number", "no.", lambda row: words(str(row.mark.number))),
        text_field("antenna", "antenna", lambda row: words(row.mark.id)),
        *_pair("along", "along", units, lambda row: row.along),
    ]
    if any(row.also_along for row in rows):
        fields += _pair("also_along", "along, other edge", units, lambda row: row.also_along)
    fields += _pair("across", "across", units, lambda row: row.across)
    fields += _pair("zone", "nearest zone", units, lambda row: row.zone)
    title = "Distances to what can be measured on the aircraft"
    return table("distances", title, fields, rows, stub=2)


def _measured(mark: Mark, subject: Subject) -> _Distances:
    look = look_at(mark, subject.airframe)
    first, *others = along(mark, look, subject.airframe)
    return _Distances(
        mark=mark,
        along=first,
        also_along=others[0] if others else None,
        across=to_centre_line(mark, look),
        zone=to_zone(mark, look, subject.tags),
    )


def _pair(
    key: str, title: str, units: LengthUnit, told: Callable[[_Distances], Measure | None]
) -> list[Field[_Distances]]:
    """Return a distance and what it is measured from."""

    def distance(row: _Distances) -> Cell:
        measure = told(row)
        return nothing() if measure is None else length(measure.length_m, units)

    def where(row: _Distances) -> Cell:
        measure = told(row)
        return words_or_nothing(measure.words if measure else None)

    return [number_field(key, title, units, distance), text_field(f"{key}_at", "at", where)]


def _regions(subject: Subject) -> Table:
    units = subject.units
    fields: list[Field[Tag]] = [
        text_field("tag", "tag", lambda tag: words(tag.tag)),
        text_field("id", "id", lambda tag: words(tag.id)),
        text_field("what", "what", lambda tag: words(tag.words)),
        text_field("surface", "surface", lambda tag: words_or_nothing(tag.region.on)),
        *(
            number_field(f"{line}_{end}", f"{title} {end}", units, cell)
            for axis, (line, title) in enumerate((("fs", "FS"), ("bl", "BL"), ("wl", "WL")))
            for place, end in enumerate(("from", "to"))
            for cell in [_reaches(axis, place, units)]
        ),
        number_field("radius", "radius", units, lambda tag: _told(_radius_m(tag), units)),
        number_field("keep_off", "keep off", units, lambda tag: _told(_keep_off_m(tag), units)),
        text_field("why", "why", lambda tag: words_or_nothing(tag.why)),
    ]
    return table("regions", "Zones and ground planes", fields, subject.tags, stub=2)


def _reaches(axis: int, end: int, units: LengthUnit) -> Callable[[Tag], Cell]:
    """Return how an end of a region along an axis is told."""
    return lambda tag: _told(_spans(tag)[axis][end], units)


def _spans(tag: Tag) -> Sequence[Span]:
    """How far a region reaches along each axis; a round one to both sides of its middle."""
    region = tag.region
    if isinstance(region, GroundPlane) or region.at is None:
        return region_spans(region)
    middle, radius_m = region.at, region.radius_m or 0.0
    places = middle.fs_m, middle.bl_m, middle.wl_m or 0.0
    return [(place - radius_m, place + radius_m) for place in places]


def _radius_m(tag: Tag) -> float | None:
    return None if isinstance(tag.region, GroundPlane) else tag.region.radius_m


def _keep_off_m(tag: Tag) -> float | None:
    return None if isinstance(tag.region, GroundPlane) else tag.region.keep_off_m or None


def _told(length_m: float | None, units: LengthUnit) -> Cell:
    """A length, or that there is none: a region without end that way, nothing to keep off."""
    return length(length_m, units, absent=NOT_APPLICABLE)
