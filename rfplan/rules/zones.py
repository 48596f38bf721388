# SPDX-License-Identifier: Apache-2.0
"""What the zone rules share: the distance of an antenna's base from zones of some effects."""

from __future__ import annotations

import numpy as np

from rfplan.analysis.placement import (
    Fitted,
    Places,
    clearances_m,
    half_base_m,
)
from rfplan.analysis.scene import Scene
from rfplan.model.airframe import Zone
from rfplan.model.rulebook import Strictness
from rfplan.rules.room import Constraint, Room, plan_source


def zone_room(
    scene: Scene, fitted: Fitted, places: Places, *, effects: tuple[str, ...]
) -> Room | None:
    """Return have: distance of the base edge from each zone; need: the zone's keep-off."""
    zones = {
        id: zone
        for id, zone in scene.zones_on.get(places.on, {}).items()
        if scene.rulebook.zone_kinds[zone.is_].effect in effects
    }
    if not zones:
        return None
    base = half_base_m(fitted.type)
    have = clearances_m(list(zones.values()), places, base)
    need = np.array([[zone.keep_off_m] for zone in zones.values()]) + np.zeros_like(have)
    constraints = tuple(_constraint(scene, fitted, id, zone) for id, zone in zones.items())
    return Room(constraints, have, need, "m")


def _constraint(scene: Scene, fitted: Fitted, id: str, zone: Zone) -> Constraint:
    kind = scene.rulebook.zone_kinds[zone.is_]
    named = f"{id}, {kind.title}" + (f" ({zone.why})" if zone.why else "")
    return Constraint(
        (fitted.id, id),
        f"{fitted.id} is {{value}} from {named}; keep off {{limit}}",
        Strictness(zone.strict) if zone.strict else kind.strict,
        plan_source(scene, zone.source),
        text_within=f"{fitted.id} stands on {named}",
        off=id,
    )
