# SPDX-License-Identifier: Apache-2.0
"""What the change from the state found weighs, and what it makes of the empty weight and CG."""

from __future__ import annotations

from rfplan.analysis.weight import stated_mass
from rfplan.model.assessment import Assessment
from rfplan.model.weight import WeightItem
from rfplan.reports.balance import (
    MOMENT_UNITS,
    balance_table,
    judgement_table,
    moment_cell,
    sums_table,
)
from rfplan.reports.cells import MASS_UNITS, LengthUnit, length, mass, nothing, number, words
from rfplan.reports.context import Context
from rfplan.reports.heading import sheet
from rfplan.reports.sheet import Cell, Field, Sheet, Table, number_field, table, text_field
from rfplan.reports.since_found import MOVED, antenna_change

KEY = "weight_balance"
TITLE = "Weight and balance"

LIMITS = (
    "Method: what is removed counts negative at the station where it was found; a cable counts "
    "along its route, its drops and loops at their ends. Stations only: lateral and vertical "
    "balance are not computed.",
    "A station is that of the place, of the middle of the route, midway between the ends where no "
    "route is known, or of the plug ends. Brackets, doublers, screws, clamps and sealant are not "
    "in the plan: weigh them, or the aircraft.",
    "An unknown mass is in no sum; where the plan states bounds for all that is unknown, weight "
    "and CG are told between them. Whether a change is negligible is remembered from a handbook "
    "and needs both of its criteria.",
)


def build(assessment: Assessment, context: Context) -> Sheet:
    """Return what came out and went in since the state found, and what that adds up to."""
    return sheet(
        assessment,
        context,
        KEY,
        TITLE,
        balance_table(assessment, context),
        judgement_table(assessment, context),
        items_table(assessment, context),
        across_table(assessment, context),
        sums_table(assessment, context),
        unknown_table(assessment),
        limits=LIMITS,
    )


def items_table(assessment: Assessment, context: Context) -> Table:
    """Return every item with mass, station and moment; what is removed counts negative."""
    units = context.units
    fields: list[Field[WeightItem]] = [
        text_field("change", "change", lambda item: words(_change(item))),
        text_field("kind", "kind", lambda item: words(item.kind)),
        text_field("id", "id", lambda item: words(item.id)),
        text_field("type", "type", lambda item: words(item.type)),
        number_field("count", "count", "", lambda item: number(item.count, "")),
        number_field("mass", "mass", MASS_UNITS[units], lambda item: _signed(item, context)),
        number_field("arm", "station", units, lambda item: length(item.arm_m, units)),
        number_field("moment", "moment", MOMENT_UNITS[units], lambda item: _turning(item, units)),
        text_field("basis", "taken at", lambda item: words(item.basis)),
    ]
    title = "What came out and what went in since the state found"
    return table("items", title, fields, assessment.weight.items, stub=3)


def across_table(assessment: Assessment, context: Context) -> Table:
    """Return the antennas that moved at their station: aside, up or to the other side."""
    units, plan = context.units, assessment.plan
    found, fitted = plan.found.antennas, plan.installation.antennas
    weighed = {item.id for item in assessment.weight.items if item.kind == "antenna"}
    moved = [id for id in sorted(fitted) if antenna_change(id, plan) == MOVED and id not in weighed]
    fields: list[Field[str]] = [
        text_field("id", "antenna", words),
        number_field("fs", "station", units, lambda one: length(fitted[one].at.fs_m, units)),
        text_field("was_on", "was on", lambda one: words(found[one].on)),
        number_field("was_bl", "was at BL", units, lambda one: length(found[one].at.bl_m, units)),
        text_field("on", "is on", lambda one: words(fitted[one].on)),
        number_field("bl", "is at BL", units, lambda one: length(fitted[one].at.bl_m, units)),
        text_field("moment", "moment", lambda one: words("unchanged")),
    ]
    return table("across", "Moved at the same station", fields, moved)


def _signed(item: WeightItem, context: Context) -> Cell:
    """The mass, negative where it comes out, also where its station is not known; or its bounds."""
    sign = 1.0 if item.installed else -1.0
    if item.mass_kg is None and item.within_kg is not None:
        ends = sorted(sign * end for end in item.within_kg)
        return words(" .. ".join(mass(end, context.units).text for end in ends))
    return mass(None if item.mass_kg is None else sign * item.mass_kg, context.units)


def _turning(item: WeightItem, units: LengthUnit) -> Cell:
    """The moment, or its bounds where the mass has some."""
    within = item.moment_within_kg_m
    if item.mass_kg is None and within is not None:
        return words(" .. ".join(moment_cell(end, units).text for end in within))
    return moment_cell(item.moment_kg_m, units)


def _change(item: WeightItem) -> str:
    return "installed" if item.installed else "removed"


def unknown_table(assessment: Assessment) -> Table:
    """Return the items that no sum holds, and what is missing of each."""
    fields: list[Field[WeightItem]] = [
        text_field("item", "item", lambda item: words(f"{item.kind} {item.id}")),
        text_field("change", "change", lambda item: words(_change(item))),
        number_field("count", "count", "", lambda item: number(item.count, "")),
        text_field("missing", "not known", lambda item: words(_missing(item))),
        text_field("source", "bounds from", lambda item: _bounds_from(item, assessment)),
    ]
    return table("open", "Open: in no sum above", fields, assessment.weight.unknown, stub=2)


def _bounds_from(item: WeightItem, assessment: Assessment) -> Cell:
    """Where the bounds of a mass come from, if the plan states any."""
    stated = stated_mass(assessment.plan, item.id, item.type)
    if stated is None or item.within_kg is None:
        return nothing()
    return words(assessment.plan.source(stated.source).words())


def _missing(item: WeightItem) -> str:
    missing = {"mass": item.mass_kg, "station": item.arm_m}
    return " and ".join(name for name, value in missing.items() if value is None)
