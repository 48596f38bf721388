# SPDX-License-Identifier: Apache-2.0
"""RF310: a cable runs where it is hotter or colder than its rating."""

from collections.abc import Iterator

from rfplan.analysis.facts import Facts
from rfplan.analysis.placement import from_middle_m
from rfplan.model.airframe import Zone
from rfplan.model.findings import Finding
from rfplan.model.rulebook import Rule, Strictness
from rfplan.rules.room import found
from rfplan.sources import AC_43_13_1B
from rfplan.units import Missing, Range

RULE = Rule(
    id="RF310",
    name="cable-beyond-rating",
    title="A cable passes a zone outside its temperature rating",
    strictness=Strictness.ADVICE,
    why="Polyethylene softens in heat and the centre conductor creeps; cold makes jackets crack.",
    remedy="take another way, or a cable rated for the zone",
    known_limits="only nodes inside a zone that states its temperature are seen",
    source=AC_43_13_1B.at("11-115, 11-124"),
)


def check(facts: Facts) -> Iterator[Finding]:
    """Yield a finding for each run with a node in a zone that its cable is not rated for."""
    for run_id, run in facts.runs.items():
        cable = facts.catalog.cables.get(run.type)
        if cable is None or cable.rated_c is None:
            continue
        for zone_id, zone in facts.plan.airframe.zones.items():
            if zone.temperature_c is None or _fits(cable.rated_c, zone.temperature_c):
                continue
            if any(_holds(zone, facts.site.network.points[node]) for node in run.nodes):
                text = f"{run_id} ({run.type}) passes {zone_id}, which goes beyond its rating"
                yield found(RULE, facts, (run_id, zone_id), text)


def _fits(rated: Range, zone: Range) -> bool:
    ends = (rated.low, zone.low, rated.high, zone.high)
    low, cold, high, hot = (None if isinstance(end, Missing) else end for end in ends)
    colder = low is not None and cold is not None and cold < low
    return not colder and not (high is not None and hot is not None and hot > high)


def _holds(zone: Zone, point: tuple[float, float, float]) -> bool:
    """Whether a node lies in a zone round a point, or in one that has spans."""
    if zone.at is not None:
        return from_middle_m(zone.at, point) <= (zone.radius_m or 0.0)
    return not (zone.fs_m is zone.bl_m is zone.wl_m is None) and all(
        span is None
        or (
            (isinstance(span.low, Missing) or span.low <= value)
            and (isinstance(span.high, Missing) or value <= span.high)
        )
        for span, value in zip((zone.fs_m, zone.bl_m, zone.wl_m), point, strict=True)
    )
