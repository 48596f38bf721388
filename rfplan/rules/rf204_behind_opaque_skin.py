# SPDX-License-Identifier: Apache-2.0
"""RF204: an inside antenna looks through skin that holds radio waves back."""

import numpy as np

from rfplan.analysis.facts import Facts
from rfplan.analysis.placement import Fitted, Places, hull_places, panel_at
from rfplan.model.rulebook import Rule, Strictness
from rfplan.rules.room import Constraint, Room
from rfplan.sources import COMMON_PRACTICE, Citation

RULE = Rule(
    id="RF204",
    name="behind-opaque-skin",
    title="An inside antenna is covered by skin that radio waves do not pass",
    strictness=Strictness.ADVICE,
    why="Metal stops radio waves and carbon nearly does; glass and aramid let them through.",
    remedy="move it under transparent skin, or to the outside",
    known_limits="only the skin straight above is looked at; side windows are not credited",
    source=Citation(COMMON_PRACTICE),
)

_OPENNESS = {"transparent": 1.0, "lossy": 0.0, "conductive": 0.0}


def room(facts: Facts, fitted: Fitted, places: Places) -> Room | None:
    """Return 1 where the skin above is transparent, 0 where it is not, NaN where unknown."""
    if not places.inside:
        return None
    scene = facts.scene
    above = hull_places(scene.hull, "top", places.point_m[:, 0], places.point_m[:, 1])
    panels = [scene.airframe.skin[id] if id else None for id in panel_at(scene.airframe, above)]
    materials = [scene.material(panel.of) if panel else None for panel in panels]
    have = np.array([[_OPENNESS[one.skin] if one else np.nan for one in materials]])
    covered = materials[0].title if materials and materials[0] else "skin of unknown material"
    text = f"{fitted.id} stands inside ({places.on}) under {covered}"
    constraint = Constraint((fitted.id,), text, RULE.strictness, RULE.source)
    return Room((constraint,), have, np.ones_like(have), "")
