# SPDX-License-Identifier: Apache-2.0
"""RF206: a flat base stands on skin more curved than it bears."""

import numpy as np

from rfplan.analysis.facts import Facts
from rfplan.analysis.placement import Fitted, Places
from rfplan.model.airframe import OUTER_HULL
from rfplan.model.rulebook import Rule, Strictness
from rfplan.model.source import Source
from rfplan.physics.skin_geometry import base_gap_m
from rfplan.rules.room import Constraint, Room
from rfplan.sources import COMMON_PRACTICE, Citation

RULE = Rule(
    id="RF206",
    name="base-on-curved-skin",
    title="A flat base leaves a gap on curved skin",
    strictness=Strictness.ADVICE,
    otherwise="where a document of the antenna states the gap that its base bears",
    why="A gap leaks, and tightening the base over it deforms the skin.",
    remedy="use a shim of the height of the gap, a curved base, or a flatter place",
    known_limits="the skin is the smooth loft; the base is taken as flat and stiff",
    source=Citation(COMMON_PRACTICE),
)


def room(facts: Facts, fitted: Fitted, places: Places) -> Room | None:
    """Return the gap under the corners of the base against the gap that the antenna bears."""
    base = fitted.type.base
    if base is None or places.on not in OUTER_HULL:
        return None
    place = (places.point_m[:, 0], places.across_m)
    gap = base_gap_m(facts.scene.hull, places.on, place, (base.length_m, base.width_m))[None, :]
    stated = fitted.type.gap_m
    limit_m = facts.rulebook.limits.base_gap_m if stated is None else stated
    own = fitted.type.sources.get(fitted.type.source or "") or Source("unknown")
    constraint = Constraint(
        (fitted.id,),
        f"{fitted.id} leaves a gap of {{value}} under its base; it bears {{limit}}",
        Strictness.ADVICE if stated is None or own.unverified else Strictness.REQUIRED,
        RULE.source if stated is None else own,
    )
    return Room((constraint,), gap, np.full_like(gap, limit_m), "m", sense=-1.0)
