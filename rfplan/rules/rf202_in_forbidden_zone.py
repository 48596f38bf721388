# SPDX-License-Identifier: Apache-2.0
"""RF202: an antenna stands in, or too near, a zone where it may not stand."""

from rfplan.analysis.facts import Facts
from rfplan.analysis.placement import Fitted, Places
from rfplan.model.rulebook import Rule, Strictness
from rfplan.rules.room import Room
from rfplan.rules.zones import zone_room
from rfplan.sources import COMMON_PRACTICE, Citation

RULE = Rule(
    id="RF202",
    name="in-forbidden-zone",
    title="An antenna stands in a zone where it may not stand",
    strictness=Strictness.REQUIRED,
    otherwise="where the zone says `strict: advice`, or the tables say it of its kind",
    why="Zones hold what must stay free: escape panels, pyrotechnic straps, tanks, moving parts.",
    remedy="move the antenna clear of the zone and its keep-off",
    known_limits="zones are rectangles in station and butt line or circles round a place; the base "
    "counts, not the mast",
    source=Citation(COMMON_PRACTICE),
)


def room(facts: Facts, fitted: Fitted, places: Places) -> Room | None:
    """Return the distance of the base from every forbidden or cautioned zone of the surface."""
    return zone_room(facts.scene, fitted, places, effects=("forbidden", "caution"))
