# SPDX-License-Identifier: Apache-2.0
"""RF403: an antenna stands nearer to its unit than the unit's document allows."""

from collections.abc import Iterator

import numpy as np

from rfplan.analysis.facts import Facts
from rfplan.analysis.placement import Fitted, Places
from rfplan.analysis.scene import Scene
from rfplan.analysis.spacing import centre_distance_m
from rfplan.model.plan import Port
from rfplan.model.rulebook import Rule, Strictness
from rfplan.rules.room import Constraint, Room, plan_source
from rfplan.sources import COMMON_PRACTICE, Citation
from rfplan.units import Place

RULE = Rule(
    id="RF403",
    name="unit-too-near",
    title="An antenna stands nearer to its unit than the port allows",
    strictness=Strictness.REQUIRED,
    why="The document states a least distance; with a small allowed loss both may not fit.",
    remedy="move the antenna away, or agree with the equipment's maker on another cable",
    known_limits="straight line from the unit's point to the middle of the base",
    source=Citation(COMMON_PRACTICE),
)


def room(facts: Facts, fitted: Fitted, places: Places) -> Room | None:
    """Return the straight distance to each unit whose port asks for one, and the need."""
    asking = list(_asking(facts.scene, fitted))
    if not asking:
        return None
    constraints = tuple(
        Constraint(
            (fitted.id, unit),
            f"{fitted.id} is {{value}} from {unit}; its port needs {{limit}}",
            RULE.strictness,
            plan_source(facts.scene, port.source),
            off=unit,
        )
        for unit, port, _ in asking
    )
    points_m = np.array([(at.fs_m, at.bl_m, at.wl_m or 0.0) for _, _, at in asking])
    have = centre_distance_m(places, points_m)
    needs = np.array([[port.distance_m] for _, port, _ in asking])
    return Room(constraints, have, needs + np.zeros_like(have), "m")


def _asking(scene: Scene, fitted: Fitted) -> Iterator[tuple[str, Port, Place]]:
    """Each unit behind the antenna that has a place and a port that asks for a distance."""
    installation = scene.plan.installation
    for path in installation.paths.values():
        id, _, port_id = path.chain[0].partition(".")
        unit = installation.units[id]
        port = unit.ports[port_id]
        ends_here = path.chain[-1].partition(".")[0] == fitted.id
        if ends_here and port.distance_m is not None and unit.at is not None:
            yield id, port, unit.at
