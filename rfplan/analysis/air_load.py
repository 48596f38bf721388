# SPDX-License-Identifier: Apache-2.0
"""What load does the air put on each antenna that was moved, added or removed?"""

from __future__ import annotations

from rfplan.model.air_load import AirLoad
from rfplan.model.airframe import INSIDE
from rfplan.model.catalog import AntennaType, Catalog
from rfplan.model.plan import Antenna, Plan
from rfplan.physics.drag import blade_drag_n, bluff_drag_n


def air_loads(plan: Plan, catalog: Catalog) -> tuple[AirLoad, ...]:
    """Return what came down since the state found, then what went up; nothing inside the skin."""
    found, fitted = plan.found.antennas, plan.installation.antennas
    ids = sorted({**found, **fitted})
    changed = [id for id in ids if _standing(found.get(id)) != _standing(fitted.get(id))]
    came_down = [
        _load(id, found[id], plan, catalog, installed=False) for id in changed if id in found
    ]
    went_up = [
        _load(id, fitted[id], plan, catalog, installed=True) for id in changed if id in fitted
    ]
    return tuple(load for load in (*came_down, *went_up) if load.on not in INSIDE)


def _standing(antenna: Antenna | None) -> tuple[object, ...] | None:
    """What the load depends on: which antenna, and where."""
    return None if antenna is None else (antenna.type, antenna.on, antenna.at)


def _load(id: str, antenna: Antenna, plan: Plan, catalog: Catalog, *, installed: bool) -> AirLoad:
    type, speeds = catalog.antennas[antenna.type], plan.airframe.speeds
    return AirLoad(
        id=id,
        type=antenna.type,
        on=antenna.on,
        fs_m=antenna.at.fs_m,
        installed=installed,
        area_m2=type.frontal_area_m2,
        shape=type.shape,
        drag_n=None if speeds is None else _drag_n(type, speeds.vne_m_per_s),
    )


def _drag_n(type: AntennaType, speed_m_per_s: float) -> float | None:
    if type.frontal_area_m2 is None:
        return None
    formula = blade_drag_n if type.shape == "streamlined" else bluff_drag_n
    return float(formula(type.frontal_area_m2, speed_m_per_s))
