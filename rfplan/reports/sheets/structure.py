# SPDX-License-Identifier: Apache-2.0
"""What the skin has to hold where antennas went up: the load of the air, and what it acts on."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

import numpy as np

from rfplan.analysis.placement import Places, panel_at
from rfplan.model.air_load import AirLoad
from rfplan.model.airframe import Panel
from rfplan.model.assessment import AntennaPlace, Assessment
from rfplan.model.catalog import AntennaType
from rfplan.model.source import UNSOURCED
from rfplan.physics.drag import blade_drag_n, bluff_drag_n
from rfplan.reports.cells import (
    AREA_UNITS,
    FORCE_UNITS,
    MASS_UNITS,
    NOT_APPLICABLE,
    area,
    force,
    length,
    listed,
    mass,
    nothing,
    quantity,
    words,
)
from rfplan.reports.check_steps import spoken
from rfplan.reports.context import Context
from rfplan.reports.heading import sheet, signature
from rfplan.reports.sheet import Cell, Field, Sheet, Table, number_field, table, text_field
from rfplan.sources import source_of
from rfplan.units import SPEED, in_unit

KEY = "structure"
TITLE = "Structure note"

LIMITS = (
    "Method: drag alone, aft, at VNE taken as equivalent airspeed, at sea-level density. A shape "
    "that antenna data does not state is reckoned as bluff. Side load, gusts, ice, propeller wash, "
    "vibration and the antenna's own mass in a manoeuvre are not computed; they can be larger.",
    "Doubler, fasteners and their strength are not judged here: they need engineering data, and "
    "no hole goes through a frame, a longeron, a spar or a pressure skin without it.",
)


def build(assessment: Assessment, context: Context) -> Sheet:
    """Return the air load on each antenna that came down or went up, and where it is held."""
    return sheet(
        assessment,
        context,
        KEY,
        TITLE,
        loads_table(assessment, context),
        attachment_table(assessment, context),
        basis_table(assessment),
        limits=LIMITS,
    )


def loads_table(assessment: Assessment, context: Context) -> Table:
    """Return the drag of each antenna that came down or went up outside the skin."""
    units = context.units
    fields: list[Field[AirLoad]] = [
        text_field("change", "change", lambda load: words(_change(load))),
        text_field("id", "antenna", lambda load: words(load.id)),
        text_field("type", "type", lambda load: words(load.type)),
        text_field("on", "on", lambda load: words(load.on)),
        number_field("fs", "FS", units, lambda load: length(load.fs_m, units)),
        number_field(
            "area", "frontal area", AREA_UNITS[units], lambda load: area(load.area_m2, units)
        ),
        text_field("shape", "shape", lambda load: words(load.shape or "not stated: bluff")),
        number_field(
            "drag", "drag at VNE", FORCE_UNITS[units], lambda load: force(load.drag_n, units)
        ),
        text_field("source", "antenna data", lambda load: _data(load, assessment)),
    ]
    title = "Air load on antennas taken down and put up since the state found"
    return table("loads", title, fields, assessment.air_loads, stub=2)


def _data(load: AirLoad, assessment: Assessment) -> Cell:
    """The document that tells area and shape, or would."""
    type = assessment.catalog.antennas[load.type]
    return words(type.sources.get(type.source or "", UNSOURCED).words())


def _change(load: AirLoad) -> str:
    return "installed" if load.installed else "removed"


@dataclass(frozen=True, slots=True)
class _Attachment:
    """An antenna that went up and the skin that holds it."""

    load: AirLoad
    place: AntennaPlace
    type: AntennaType
    panel: Panel | None


def _attachments(assessment: Assessment) -> Iterator[_Attachment]:
    airframe, types = assessment.plan.airframe, assessment.catalog.antennas
    places = {place.id: place for place in assessment.antennas}
    for load in assessment.air_loads:
        if load.installed:
            place = places[load.id]
            point, normal = np.array([place.point_m]), np.array([place.normal])
            (panel,) = panel_at(airframe, Places(place.surface, point, normal))
            skin = None if panel is None else airframe.skin[panel]
            yield _Attachment(load, place, types[load.type], skin)


def attachment_table(assessment: Assessment, context: Context) -> Table:
    """Return what each antenna that went up is held by; what no plan tells is left blank."""
    units = context.units
    fields: list[Field[_Attachment]] = [
        text_field("id", "antenna", lambda one: words(one.load.id)),
        number_field("mass", "mass", MASS_UNITS[units], lambda one: mass(one.type.mass_kg, units)),
        text_field("base", "base", lambda one: _base(one.type, context)),
        text_field("skin", "skin", lambda one: words(one.panel.of) if one.panel else nothing("?")),
        number_field("thickness", "thick", units, lambda one: _thickness(one.panel, context)),
        text_field("zones", "in zones", lambda one: listed(one.place.zones)),
        text_field("doubler", "doubler", lambda one: signature()),
        text_field("fasteners", "fasteners", lambda one: signature()),
        text_field("data", "data for it", lambda one: signature()),
    ]
    return table("attachment", "Attachment", fields, _attachments(assessment))


def _base(type: AntennaType, context: Context) -> Cell:
    if type.base is None:
        return nothing("?")
    sides = (type.base.length_m, type.base.width_m)
    return words(f"{' x '.join(length(side, context.units).text for side in sides)}")


def _thickness(panel: Panel | None, context: Context) -> Cell:
    digits = {"in": 3, "mm": 1}[context.units]
    return length(panel.thickness_m if panel else None, context.units, digits=digits)


@dataclass(frozen=True, slots=True)
class _Basis:
    figure: str
    value: Cell
    source: str


def basis_table(assessment: Assessment) -> Table:
    """Return the speed and the formulas behind the loads, with how well each is known."""
    fields: list[Field[_Basis]] = [
        text_field("figure", "figure", lambda one: words(one.figure)),
        text_field("value", "value", lambda one: one.value),
        text_field("source", "source", lambda one: words(one.source)),
    ]
    return table("basis", "What the loads rest on", fields, _basis(assessment))


def _basis(assessment: Assessment) -> Iterator[_Basis]:
    airframe = assessment.plan.airframe
    if airframe.speeds is None:
        yield _Basis("VNE", nothing("not stated"), NOT_APPLICABLE)
    else:
        source = airframe.sources.get(airframe.speeds.source or "", UNSOURCED)
        speed = in_unit(airframe.speeds.vne_m_per_s, SPEED, "kt")
        yield _Basis("VNE", quantity(speed, "kt"), source.words())
    for shape, formula, value in (
        ("streamlined", blade_drag_n, "0.000327 A V^2 in lbf, ft2, mph"),
        ("bluff", bluff_drag_n, "ten times that"),
    ):
        sources = "; ".join(spoken(one) for one in source_of(formula))
        yield _Basis(f"drag, {shape}", words(value), sources)
