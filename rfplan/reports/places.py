# SPDX-License-Identifier: Apache-2.0
"""Where things of a plan are: stations, butt lines and water lines as columns of a sheet."""

from __future__ import annotations

from collections.abc import Callable
from typing import TypeVar

from rfplan.model.assessment import Assessment
from rfplan.model.plan import Unit
from rfplan.reports.cells import LengthUnit, length
from rfplan.reports.sheet import Cell, Field, number_field
from rfplan.units import Place

T = TypeVar("T")
Spot = tuple[float | None, float | None, float | None]

NOWHERE: Spot = (None, None, None)


def spot_fields(units: LengthUnit, told: Callable[[T], Spot]) -> list[Field[T]]:
    """Return three columns: aft of the datum, right of the centre line, above the water line."""

    def field(key: str, title: str, axis: int) -> Field[T]:
        def cell(thing: T) -> Cell:
            return length(told(thing)[axis], units)

        return number_field(key, title, units, cell)

    return [field("fs", "FS", 0), field("bl", "BL", 1), field("wl", "WL", 2)]


def spot_of(place: Place | None) -> Spot:
    """Return a place as typed; its water line may be left to the skin."""
    return NOWHERE if place is None else (place.fs_m, place.bl_m, place.wl_m)


def node_spot(node: str | None, assessment: Assessment) -> Spot:
    """Return where a node of the route is."""
    known = assessment.plan.airframe.route.nodes.get(node or "")
    return spot_of(known.at) if known else NOWHERE


def unit_spot(unit: Unit, assessment: Assessment) -> Spot:
    """Return where a unit is: its place, else its node."""
    return spot_of(unit.at) if unit.at else node_spot(unit.node, assessment)


def antenna_spot(id: str, assessment: Assessment) -> Spot:
    """Return where an antenna stands, on the skin where there is one under it."""
    place = next((one for one in assessment.antennas if one.id == id), None)
    return place.point_m if place else NOWHERE
