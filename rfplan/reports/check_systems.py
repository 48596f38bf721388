# SPDX-License-Identifier: Apache-2.0
"""Ground check in fixed words for the radios and zones a plan has, and the GNSS antenna offset."""

from __future__ import annotations

from collections.abc import Iterator

from rfplan.model.assessment import AntennaPlace, Assessment
from rfplan.model.ground_checks import CheckStep
from rfplan.reports.cells import length
from rfplan.reports.check_interference import GNSS, named_once, paths_of
from rfplan.reports.check_steps import Step, cited, spoken, step
from rfplan.reports.context import Context
from rfplan.reports.since_found import AS_FOUND, antenna_change
from rfplan.sources import AC_20_165B

OFFSET, COMPENSATING = 11, 20
AIRCRAFT = "aircraft"

_OFFSET_SOURCE = spoken(AC_20_165B.at("position offset of the GNSS antenna"))


def fixed_steps(assessment: Assessment, *numbers: int) -> Iterator[Step]:
    """Yield the steps of the shipped table that this aircraft has something for."""
    steps = assessment.rulebook.ground_checks.steps.values()
    for told in sorted(steps, key=lambda one: one.number):
        if told.number in numbers:
            for object in _objects(told, assessment):
                source = cited(told.source)
                yield step(told.number, object, told.do, told.expect, told.limit, source)


def _objects(told: CheckStep, assessment: Assessment) -> list[str]:
    """What a step is done on: paths, but lines of one antenna together; zones; the aircraft."""
    if told.paths:
        paths = paths_of(assessment, *told.paths)
        return [id for id, _ in named_once(paths, each_antenna=True)]
    if told.zones:
        zones = assessment.plan.airframe.zones
        return [id for id, zone in zones.items() if zone.is_ in told.zones]
    return [AIRCRAFT]


def offset_steps(assessment: Assessment, context: Context) -> Iterator[Step]:
    """Yield one step for each GNSS antenna that moved: its new offset, to be entered."""
    receiving = {path.antenna for path in paths_of(assessment, GNSS)}
    for place in assessment.antennas:
        if place.id in receiving and antenna_change(place.id, assessment.plan) != AS_FOUND:
            do = "update the GNSS antenna offset in ADS-B and every other lever arm"
            expect = _offset(place, assessment, context)
            yield step(OFFSET, place.id, do, expect, None, _OFFSET_SOURCE)


def _offset(place: AntennaPlace, assessment: Assessment, context: Context) -> str:
    """Where the antenna is, aft of the nose and from the centre line, and how far it moved."""
    fs_m, bl_m, _ = place.point_m
    nose_m = assessment.plan.airframe.sections[0].fs_m
    units = context.units
    now = f"{length(fs_m - nose_m, units).text} {units} aft of the nose, {_side(bl_m, context)}"
    found = assessment.plan.found.antennas.get(place.id)
    if found is None:
        return now
    aft_m = fs_m - found.at.fs_m
    way = "aft" if aft_m >= 0.0 else "forward"
    moved = f"{length(abs(aft_m), units).text} {units} {way}"
    return f"{now}; moved {moved}, from {_side(found.at.bl_m, context)}"


def _side(bl_m: float, context: Context) -> str:
    told = length(abs(bl_m), context.units)
    if told.value is None or abs(float(told.text)) == 0.0:
        return "on the centre line"
    return f"{told.text} {context.units} {'left' if bl_m < 0.0 else 'right'} of it"


def compensating_steps(assessment: Assessment) -> Iterator[Step]:
    """Yield one step for each check that a waiver or an acceptance asks for."""
    for finding in assessment.findings:
        note = finding.waiver
        if note is not None and note.check:
            object = ", ".join(finding.objects)
            source = f"waiver {note.id} by {note.who}"
            yield step(COMPENSATING, object, note.check, "as the check says", None, source)
    for point in assessment.open_points:
        accepted = point.acceptance
        if accepted is not None and accepted.check:
            source = f"acceptance by {accepted.who}"
            yield step(COMPENSATING, point.id, accepted.check, "as the check says", None, source)
