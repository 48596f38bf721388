# SPDX-License-Identifier: Apache-2.0
"""RF501: two antennas, or an antenna and a feature, stand nearer than their rule asks."""

from __future__ import annotations

from dataclasses import replace

import numpy as np

from rfplan.analysis.facts import Facts
from rfplan.analysis.placement import Fitted, Places, clearances_m, half_base_m, lies_on
from rfplan.analysis.scene import Scene
from rfplan.analysis.spacing import centre_distance_m, skin_distances_m
from rfplan.model.airframe import Zone
from rfplan.model.rulebook import Rule, Spacing, Strictness
from rfplan.model.source import Source
from rfplan.rules.room import Constraint, Floats, Room, plan_source
from rfplan.sources import COMMON_PRACTICE, Citation, citation

RULE = Rule(
    id="RF501",
    name="spacing",
    title="Two antennas stand nearer than their rule asks",
    strictness=Strictness.ADVICE,
    otherwise="where the spacing of the pair says `strict: required`",
    why="Near a transmitter a receiver is overloaded, and metal shadows what it should see.",
    remedy="move one of them, put one on the other side of the hull, or waive with a check",
    known_limits="one rule a pair, the most specific; straight line from top to belly",
    source=Citation(COMMON_PRACTICE),
)


def room(facts: Facts, fitted: Fitted, places: Places) -> Room | None:
    """Return the distance to every neighbour and feature that a rule speaks of, and the need."""
    scene = facts.scene
    pairs = [(scene.fitted[id], rule) for id, rule in scene.pair_rules[fitted.id].items()]
    features = [
        (id, zone, rule)
        for id, rule in scene.zone_rules[fitted.id].items()
        if (zone := scene.airframe.zones[id]).at is not None or lies_on(zone.on, places.on)
    ]
    if not pairs and not features:
        return None
    constraints = [_pair(scene, fitted, other.id, rule) for other, rule in pairs]
    constraints += [_pair(scene, fitted, id, rule) for id, _, rule in features]
    rows = [_to_antennas_m(scene, fitted, places, pairs)] if pairs else []
    rows += [_to_zone_m(zone, fitted, places, rule)[None, :] for _, zone, rule in features]
    have = np.concatenate(rows)
    needs = [rule.min_m for _, rule in pairs] + [rule.min_m for _, _, rule in features]
    return Room(tuple(constraints), have, np.array(needs)[:, None] + np.zeros_like(have), "m")


def _pair(scene: Scene, fitted: Fitted, other: str, rule: Spacing) -> Constraint:
    datum = {"centre": "", "edge": " between base edges", "skin": " along the skin"}[rule.datum]
    return Constraint(
        (fitted.id, other),
        f"{fitted.id} is {{value}} from {other}{datum}; needs {{limit}}",
        rule.strict,
        _source(scene, rule),
        off=other,
    )


def _source(scene: Scene, rule: Spacing) -> Source | Citation:
    if rule.id in scene.plan.spacing:
        return plan_source(scene, rule.source)
    try:
        return citation(rule.source or "")
    except LookupError:
        return RULE.source


def _to_antennas_m(
    scene: Scene, fitted: Fitted, places: Places, pairs: list[tuple[Fitted, Spacing]]
) -> Floats:
    """Distances by the datum of each pair's rule, shape (pairs, places)."""
    others = [other for other, _ in pairs]
    have = centre_distance_m(places, np.array([other.point_m for other in others]))
    for index, (other, rule) in enumerate(pairs):
        if rule.datum == "edge":
            have[index] -= fitted.radius_m + other.radius_m
        elif rule.datum == "skin":
            have[index] = skin_distances_m(scene.hull, places, [other])[0]
    return have


def _to_zone_m(zone: Zone, fitted: Fitted, places: Places, rule: Spacing) -> Floats:
    """Distance to the nearest edge of a zone, or to its point."""
    if zone.at is not None:
        middle = replace(zone, radius_m=0.0)
        return np.asarray(clearances_m([middle], places, np.zeros(2))[0])
    base = half_base_m(fitted.type) if rule.datum == "edge" else np.zeros(2)
    return np.asarray(clearances_m([zone], places, base)[0])
