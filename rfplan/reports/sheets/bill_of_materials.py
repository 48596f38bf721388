# SPDX-License-Identifier: Apache-2.0
"""What the shop orders for the change from the state found, and what comes out of the aircraft."""

from __future__ import annotations

from rfplan.model.assessment import Assessment
from rfplan.model.weight import WeightItem
from rfplan.reports.cable_order import cable_table, spools_table
from rfplan.reports.cells import MASS_UNITS, length, mass, words
from rfplan.reports.context import Context
from rfplan.reports.heading import sheet, signature
from rfplan.reports.materials import antennas_table, parts_table, plugs_table
from rfplan.reports.sheet import Field, Sheet, Table, number_field, table, text_field
from rfplan.reports.since_found import (
    CHANGED,
    MOVED,
    antenna_change,
    cable_change,
    part_change,
)
from rfplan.reports.small_parts import small_parts_table

KEY = "bill_of_materials"
TITLE = "Bill of materials"

LIMITS = (
    "Method: what differs from the state found is ordered. Cable is the sum of the cut lengths of "
    "one type. Waste and spool length are the shop's: they count only where the policy states "
    "them. The catalogue names kinds, not makers' numbers: nothing is ordered before its part "
    "number is filled in.",
    "No piece is joined. Pieces are cut longest first, each from the spool that it leaves least "
    "of; another way to cut may do with a spool less. Left-overs in the shop are not known here.",
)


def build(assessment: Assessment, context: Context) -> Sheet:
    """Return what is ordered, with where it is used, and what comes out."""
    return sheet(
        assessment,
        context,
        KEY,
        TITLE,
        cable_table(assessment, context),
        spools_table(assessment, context),
        plugs_table(assessment),
        parts_table(assessment),
        antennas_table(assessment),
        small_parts_table(assessment, context),
        removed_table(assessment, context),
        limits=LIMITS,
    )


def _comes_out(item: WeightItem, assessment: Assessment) -> bool:
    """Whether a thing leaves the aircraft; what only moves goes back in, plugs go with cables."""
    fitted = assessment.plan.installation
    if item.installed or item.kind == "plugs":
        return False
    if item.kind == "antenna" and item.id in fitted.antennas:
        return antenna_change(item.id, assessment.plan) != MOVED
    if item.kind == "part" and item.id in fitted.parts:
        return part_change(item.id, assessment.plan) != CHANGED
    if item.kind == "cable" and item.id in assessment.cables:
        return cable_change(item.id, assessment) != MOVED
    return True


def removed_table(assessment: Assessment, context: Context) -> Table:
    """Return what comes out of the aircraft and has to be accounted for."""
    units = context.units
    fields: list[Field[WeightItem]] = [
        text_field("kind", "kind", lambda item: words(item.kind)),
        text_field("id", "id", lambda item: words(item.id)),
        text_field("type", "type", lambda item: words(item.type)),
        number_field("station", "station", units, lambda item: length(item.arm_m, units)),
        number_field("mass", "mass", MASS_UNITS[units], lambda item: mass(item.mass_kg, units)),
        text_field("goes_to", "goes to", lambda item: signature()),
    ]
    removed = [item for item in assessment.weight.items if _comes_out(item, assessment)]
    return table("removed", "Removed", fields, removed, stub=2)
