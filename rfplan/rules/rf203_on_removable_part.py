# SPDX-License-Identifier: Apache-2.0
"""RF203: an antenna stands on a hatch, a door or another part that comes off."""

from rfplan.analysis.facts import Facts
from rfplan.analysis.placement import Fitted, Places
from rfplan.model.rulebook import Rule, Strictness
from rfplan.rules.room import Room
from rfplan.rules.zones import zone_room
from rfplan.sources import COMMON_PRACTICE, Citation

RULE = Rule(
    id="RF203",
    name="on-removable-part",
    title="An antenna stands on a part that opens or comes off",
    strictness=Strictness.ADVICE,
    otherwise="where the zone says `strict: required`",
    why="Its bond opens with the part, and its cable is torn unless it has slack to twist.",
    remedy="move it to fixed skin, or add a bonding strap and twist slack and say so in a waiver",
    known_limits="only zones that the airframe file lists are known",
    source=Citation(COMMON_PRACTICE),
)


def room(facts: Facts, fitted: Fitted, places: Places) -> Room | None:
    """Return the distance of the base from every removable zone of the surface."""
    return zone_room(facts.scene, fitted, places, effects=("removable",))
