# SPDX-License-Identifier: Apache-2.0
"""At which station does a thing of the plan lie?"""

from __future__ import annotations

from rfplan.model.airframe import Airframe
from rfplan.model.plan import Installation


def station_m(member: str, fitted: Installation, airframe: Airframe) -> float | None:
    """Return the station of a unit, antenna or part, by its place, else its node; None unknown."""
    if member in fitted.antennas:
        return fitted.antennas[member].at.fs_m
    if member in fitted.units:
        unit = fitted.units[member]
        return unit.at.fs_m if unit.at else node_station_m(unit.node, airframe)
    part = fitted.parts.get(member)
    return node_station_m(part.at, airframe) if part else None


def node_station_m(node: str | None, airframe: Airframe) -> float | None:
    """Return the station of a node of the route; None where there is no such node."""
    known = airframe.route.nodes.get(node or "")
    return known.at.fs_m if known else None
