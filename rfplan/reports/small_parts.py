# SPDX-License-Identifier: Apache-2.0
"""Foil, clamps, sleeves and what else a change needs that has no id of its own in a plan."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from rfplan.model.assessment import Assessment
from rfplan.model.plan import GroundPlane
from rfplan.reports.cable_order import PART_NUMBER
from rfplan.reports.cells import listed, nothing, number, printed, words
from rfplan.reports.context import Context
from rfplan.reports.heading import signature
from rfplan.reports.sheet import Cell, Field, Table, number_field, table, text_field
from rfplan.reports.since_found import AS_FOUND, antenna_change, new_cables, plane_change
from rfplan.units import LENGTH, Range, in_unit

SLEEVES_PER_CABLE = 2


@dataclass(frozen=True, slots=True)
class SmallPart:
    """Something counted, or left to be counted on the aircraft."""

    name: str
    count: int | None
    size: str
    used: tuple[str, ...]


def small_parts_table(assessment: Assessment, context: Context) -> Table:
    """Return foil, clamps and label sleeves as counted, and what only the aircraft can tell."""
    fields: list[Field[SmallPart]] = [
        text_field("item", "item", lambda part: words(part.name)),
        number_field("count", "count", "", _count),
        text_field("size", "size", lambda part: words(part.size) if part.size else nothing()),
        text_field("used", "used for", lambda part: listed(part.used)),
        text_field("part_number", PART_NUMBER, lambda part: signature()),
    ]
    return table("small_parts", "Small parts", fields, _small_parts(assessment, context))


def _count(part: SmallPart) -> Cell:
    return nothing("____") if part.count is None else number(part.count, "")


def _small_parts(assessment: Assessment, context: Context) -> Iterator[SmallPart]:
    plan, cables = assessment.plan, tuple(new_cables(assessment))
    for id, plane in sorted(plan.installation.ground_planes.items()):
        if plane_change(id, plan) != AS_FOUND:
            yield SmallPart(plane.of, 1, _size(plane, context), (id,))
    if cables:
        yield SmallPart("clamp", _clamps(assessment, cables), "", cables)
        yield SmallPart("label sleeve", SLEEVES_PER_CABLE * len(cables), "", cables)
    antennas = tuple(
        id for id in sorted(plan.installation.antennas) if antenna_change(id, plan) != AS_FOUND
    )
    if antennas:
        for name in ("doubler", "gasket or sealant", "screws and nut plates", "bonding strap"):
            yield SmallPart(name, None, "", antennas)


def _clamps(assessment: Assessment, cables: tuple[str, ...]) -> int | None:
    """Clamps at the largest spacing allowed; not known where one way is not."""
    counts = [assessment.cables[id].supports for id in cables]
    return None if None in counts else sum(count for count in counts if count is not None)


def _size(plane: GroundPlane, context: Context) -> str:
    sides = _side(plane.fs_m, context), _side(plane.bl_m, context)
    return f"{' x '.join(sides)} {context.units}"


def _side(span: Range, context: Context) -> str:
    if not isinstance(span.low, float) or not isinstance(span.high, float):
        return "?"
    return printed(in_unit(span.high - span.low, LENGTH, context.units), context.units)
