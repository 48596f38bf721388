# SPDX-License-Identifier: Apache-2.0
"""Ground check of the lines: continuity, supply, bond, loss at three frequencies, VSWR."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from rfplan.model.assessment import AntennaPlace, Assessment, BandLoss, PathAssessment
from rfplan.model.plan import GroundPlane, Installation, Port
from rfplan.physics.mismatch import return_loss_db, vswr_from_return_loss
from rfplan.physics.mismatched_line import return_loss_at_unit_db
from rfplan.reports.cells import (
    decibels,
    frequency,
    nothing,
    number,
    printed,
    quantity,
    words,
)
from rfplan.reports.check_steps import Step, blanks, cited, numbered, spoken, step
from rfplan.reports.labels import assembly_ends
from rfplan.reports.sheet import Cell, Field, Table, number_field, table, text_field
from rfplan.sources import COMMON_PRACTICE, Citation
from rfplan.units import RESISTANCE, Missing, Range, in_unit

EQUIPMENT = "the documents on the loss-budget sheet"

CONTINUITY, SUPPLY, BOND, LOSS, VSWR = 2, 3, 4, 5, 6

PRACTICE = spoken(Citation(COMMON_PRACTICE))


def port_of(path: PathAssessment, assessment: Assessment) -> Port:
    """Return the port a path begins at."""
    return assessment.plan.installation.units[path.unit].ports[path.port]


def continuity_steps(assessment: Assessment) -> Iterator[Step]:
    """Yield one step for each assembly, both conductors and the insulation between them."""
    ends = assembly_ends(assessment.plan.installation, assessment.catalog)
    for id in sorted(assessment.cables):
        do = f"{ends[id].near} to {ends[id].far}"
        yield step(CONTINUITY, id, do, "through, open", None, PRACTICE)


def supply_steps(assessment: Assessment) -> Iterator[Step]:
    """Yield one step for each antenna that its receiver feeds."""
    for path in assessment.paths:
        port = port_of(path, assessment)
        if port.feed_v is not None:
            do = "volts, then current"
            limit_v = assessment.catalog.antennas[_type(path, assessment)].supply_v
            limit = words(_span(limit_v, "V")) if limit_v else nothing()
            yield Step(SUPPLY, path.id, do, _supply(path, port), limit, EQUIPMENT)


def _supply(path: PathAssessment, port: Port) -> Cell:
    """What arrives at the antenna as predicted; else what the port sends."""
    least_v, most_v = path.feed.antenna_v if path.feed else (None, None)
    if least_v is not None and most_v is not None:
        return words(f"{printed(least_v, 'V', 2)} .. {printed(most_v, 'V', 2)} V")
    return words(f"{_span(port.feed_v, 'V')} less the drop") if port.feed_v else nothing("?")


def _span(span: Range, unit: str) -> str:
    ends = ("?" if isinstance(end, Missing) else printed(end, "") for end in (span.low, span.high))
    return f"{' .. '.join(ends)} {unit}"


def bond_steps(assessment: Assessment) -> Iterator[Step]:
    """Yield one step for each antenna outside the skin: its base to what it stands on."""
    bond, fitted = assessment.rulebook.ground_checks.bond, assessment.plan.installation
    for antenna in assessment.antennas:
        if antenna.inside or bond is None:
            continue
        limit = quantity(in_unit(bond.most_ohm, RESISTANCE, "mohm"), "mohm")
        do = f"base to {plane_under(antenna, fitted) or 'its ground'}"
        yield Step(BOND, antenna.id, do, words("within limit"), limit, cited(bond.source))


def plane_under(place: AntennaPlace, fitted: Installation) -> str | None:
    """Return the ground plane an antenna names, else the first that is laid under it."""
    named = fitted.antennas[place.id].ground_plane
    lies_under = (id for id, plane in fitted.ground_planes.items() if _holds(plane, place))
    return named or next(lies_under, None)


def _holds(plane: GroundPlane, place: AntennaPlace) -> bool:
    spans = zip((plane.fs_m, plane.bl_m), place.point_m, strict=False)
    return plane.on == place.surface and all(
        not isinstance(span.low, Missing)
        and not isinstance(span.high, Missing)
        and span.low <= at_m <= span.high
        for span, at_m in spans
    )


@dataclass(frozen=True, slots=True)
class _Point:
    """One frequency at which the loss of a path is read."""

    path: PathAssessment
    band: BandLoss
    frequency_hz: float
    expected_db: float | None


def loss_table(assessment: Assessment) -> Table:
    """Return the loss of each path at up to three frequencies of each band, with its window."""
    agree_db = assessment.plan.policy.agree_db
    fields: list[Field[tuple[str, _Point]]] = [
        text_field("step", "step", lambda row: words(row[0])),
        text_field("path", "path", lambda row: words(row[1].path.id)),
        number_field("at", "at", "MHz", lambda row: frequency(row[1].frequency_hz)),
        number_field("expected", "expected", "dB", lambda row: decibels(row[1].expected_db)),
        number_field("agrees", "+-", "dB", lambda row: decibels(agree_db)),
        number_field("least", "least", "dB", lambda row: _end(row[1].band, "min")),
        number_field("most", "most", "dB", lambda row: _end(row[1].band, "max")),
        *blanks(),
    ]
    every = (point for path in assessment.paths for point in _points(path))
    points = [point for point in every if _can_be_compared(point)]
    title = "5 Loss, plug to plug; expected at 20 degC, limits as on the loss-budget sheet"
    return table("loss", title, fields, numbered(points, lambda _: LOSS), stub=2)


def _points(path: PathAssessment) -> Iterator[_Point]:
    seen: set[tuple[float, float | None, float | None]] = set()
    for band in path.bands:
        hertz = (band.low_hz, band.mid_hz, band.high_hz)
        for one_hz, expected_db in zip(hertz, band.nominal_db, strict=True):
            key = one_hz, band.window.min_db, band.window.max_db
            if key not in seen:
                seen.add(key)
                yield _Point(path, band, one_hz, expected_db)


def _can_be_compared(point: _Point) -> bool:
    """Whether a reading has a prediction or a limit to stand beside."""
    window = point.band.window
    return point.expected_db is not None or {window.min_stated, window.max_stated} != {"none"}


def _end(band: BandLoss, side: str) -> Cell:
    window = band.window
    limit_db = window.min_db if side == "min" else window.max_db
    stated = window.min_stated if side == "min" else window.max_stated
    return nothing("none") if stated == "none" else decibels(limit_db)


def vswr_steps(assessment: Assessment) -> Iterator[Step]:
    """Yield one step for each path: a sweep over its bands from the plug at the unit.

    A loop of long waves has no VSWR, and neither its data nor those of its receiver state one.
    """
    for path in assessment.paths:
        port = port_of(path, assessment)
        if port.vswr is None and assessment.catalog.antennas[_type(path, assessment)].vswr is None:
            continue
        sweep = ", ".join(dict.fromkeys(_sweep(band) for band in path.bands))
        limit = nothing("none stated") if port.vswr is None else quantity(port.vswr, "", digits=2)
        expect = _expected_vswr(path, assessment)
        yield Step(VSWR, path.id, f"{sweep} MHz", expect, limit, EQUIPMENT)


def _sweep(band: BandLoss) -> str:
    return " .. ".join(dict.fromkeys(frequency(one).text for one in (band.low_hz, band.high_hz)))


def _expected_vswr(path: PathAssessment, assessment: Assessment) -> Cell:
    """The worst VSWR of the antenna as the line shows it at the unit, its nominal loss taken."""
    vswr = assessment.catalog.antennas[_type(path, assessment)].vswr
    losses = [one for band in path.bands for one in band.nominal_db]
    known = [one for one in losses if one is not None]
    if vswr is None or vswr <= 1.0 or len(known) < len(losses):
        return nothing("?")
    at_unit_db = return_loss_at_unit_db(return_loss_db(vswr), min(known))
    return number(float(vswr_from_return_loss(at_unit_db)), "", digits=2)


def _type(path: PathAssessment, assessment: Assessment) -> str:
    return assessment.plan.installation.antennas[path.antenna].type
