# SPDX-License-Identifier: Apache-2.0
"""RF201: a port accepts only an antenna on the outside skin, and its antenna is inside."""

import numpy as np

from rfplan.analysis.facts import Facts
from rfplan.analysis.placement import Fitted, Places
from rfplan.model.rulebook import Rule, Strictness
from rfplan.rules.room import Constraint, Room, plan_source
from rfplan.sources import COMMON_PRACTICE, Citation

RULE = Rule(
    id="RF201",
    name="outside-skin-demanded",
    title="The port demands an antenna on the outside skin and it is inside",
    strictness=Strictness.REQUIRED,
    why="The unit's document accepts its antenna on the outside skin only.",
    remedy="move the antenna to the outside skin",
    known_limits="speaks only where the port says mounting: outside skin",
    source=Citation(COMMON_PRACTICE),
)


def room(facts: Facts, fitted: Fitted, places: Places) -> Room | None:
    """Return 1 where the antenna stands outside, 0 where it stands inside; 1 is needed."""
    ports = [port for port in fitted.ports if port.mounting == "outside skin"]
    if not ports:
        return None
    text = f"{fitted.id} stands inside ({places.on}); its port accepts the outside skin only"
    constraints = tuple(
        Constraint((fitted.id,), text, RULE.strictness, plan_source(facts.scene, port.source))
        for port in ports[:1]
    )
    have = np.full((1, len(places.point_m)), 0.0 if places.inside else 1.0)
    return Room(constraints, have, np.ones_like(have), "")
