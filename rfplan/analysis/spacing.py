# SPDX-License-Identifier: Apache-2.0
"""How far apart are two antennas, and which rule speaks for the pair?"""

from __future__ import annotations

import math
from collections.abc import Iterable, Mapping

import numpy as np
from numpy.typing import NDArray

from rfplan.analysis.placement import Fitted, Places, lengths_m
from rfplan.model.airframe import OUTER_HULL, Zone
from rfplan.model.rulebook import Spacing, Strictness
from rfplan.physics.skin_geometry import Hull, skin_distance_m

Floats = NDArray[np.float64]
Indices = NDArray[np.intp]

TX_25_W = "tx_25w"
ANY = "any"


FEATURES = {"windshield": "windshield", "compass": "sensor"}
"""Words of a rule that mean a kind of zone."""

_SHIPPED = 100.0
"""What a shipped rule ranks behind any rule of the plan."""


def kind_rank(kind: str, fitted: Fitted) -> float:
    """Return how closely a rule's word names an antenna: 0 by its id, infinite if it does not."""
    if kind == fitted.id:
        return 0.0
    if kind in fitted.radios:
        return 1.0
    if kind in fitted.families:
        return 2.0
    if kind == TX_25_W and fitted.most_power_w > 25.0:
        return 3.0
    return 4.0 if kind == ANY else np.inf


def _in_order(own: Mapping[str, Spacing], shipped: Mapping[str, Spacing]) -> list[Spacing]:
    """All rules, so that the first of equally close ones speaks: required, then the larger."""
    rules = {**shipped, **own}.values()
    return sorted(rules, key=lambda rule: (rule.strict is Strictness.ADVICE, -rule.min_m, rule.id))


def _ranks(rules: Iterable[Spacing], fitted: Mapping[str, Fitted]) -> dict[str, list[float]]:
    """How closely each word of some rules names each antenna; rules share few words."""
    words = {word for rule in rules for word in (rule.from_, rule.to)}
    return {word: [kind_rank(word, one) for one in fitted.values()] for word in words}


def _layer(rule: Spacing, own: Mapping[str, Spacing]) -> float:
    return 0.0 if rule.id in own else _SHIPPED


def pair_rules(
    own: Mapping[str, Spacing], shipped: Mapping[str, Spacing], fitted: Mapping[str, Fitted]
) -> dict[str, dict[str, Spacing]]:
    """Return the one rule that speaks for each pair of antennas.

    The plan's own rules come before the shipped ones, then the most specific.
    """
    rules = _in_order(own, shipped)
    if not rules or len(fitted) < 2:
        return {id: {} for id in fitted}
    ranks = _ranks(rules, fitted)
    from_ = np.array([ranks[rule.from_] for rule in rules])
    to = np.array([ranks[rule.to] for rule in rules])
    one_way = from_[:, :, None] + to[:, None, :]
    layer = np.array([_layer(rule, own) for rule in rules])[:, None, None]
    closeness = np.minimum(one_way, one_way.swapaxes(1, 2)) + layer
    closest, speaks = closeness.argmin(axis=0), np.isfinite(closeness).any(axis=0)
    return {
        a: {b: rules[closest[i, j]] for j, b in enumerate(fitted) if i != j and speaks[i, j]}
        for i, a in enumerate(fitted)
    }


def zone_rules(
    own: Mapping[str, Spacing],
    shipped: Mapping[str, Spacing],
    fitted: Mapping[str, Fitted],
    zones: Mapping[str, Zone],
) -> dict[str, dict[str, Spacing]]:
    """Return, for each antenna, the one rule that speaks of it and each zone some rule names."""
    result: dict[str, dict[str, Spacing]] = {id: {} for id in fitted}
    features = {*FEATURES, *zones}
    ordered = [rule for rule in _in_order(own, shipped) if features & {rule.from_, rule.to}]
    ranks = _ranks(ordered, fitted)
    for zone_id, zone in zones.items():
        naming = [(kind, rule) for rule in ordered if (kind := _keeps_off(rule, zone_id, zone))]
        for place, id in enumerate(fitted) if naming else ():
            closeness = [ranks[kind][place] + _layer(rule, own) for kind, rule in naming]
            closest = min(closeness)
            if math.isfinite(closest):
                result[id][zone_id] = naming[closeness.index(closest)][1]
    return result


def _keeps_off(rule: Spacing, zone_id: str, zone: Zone) -> str | None:
    """The kind of antenna that a rule keeps off a zone, or None if it does not speak of it."""
    for kind, feature in ((rule.from_, rule.to), (rule.to, rule.from_)):
        if feature == zone_id or FEATURES.get(feature) == zone.is_:
            return kind
    return None


def centre_distance_m(places: Places, others_m: Floats) -> Floats:
    """Return straight distances, shape (others, places)."""
    return lengths_m(others_m[:, None, :] - places.point_m[None, :, :])


def skin_distances_m(hull: Hull, places: Places, others: list[Fitted]) -> Floats:
    """Return distances along the hull, shape (others, places); NaN unless both are on the hull."""
    result = np.full((len(others), len(places.point_m)), np.nan)
    on_hull = [i for i, other in enumerate(others) if other.places.on in OUTER_HULL]
    if places.on not in OUTER_HULL or not on_hull:
        return result
    theirs = np.array([others[i].point_m for i in on_hull])
    a, b = np.broadcast_arrays(theirs[:, None, :], places.point_m[None, :, :])
    result[on_hull] = skin_distance_m(hull, a, b)
    return result


def pair_skin_distances_m(
    hull: Hull, fitted: list[Fitted], first: Indices, second: Indices
) -> Floats:
    """Return the distance along the hull of each pair; NaN unless both stand on the outer hull."""
    on_hull = np.array([one.places.on in OUTER_HULL for one in fitted])
    points = np.array([one.point_m for one in fitted])
    result = np.full(len(first), np.nan)
    both = on_hull[first] & on_hull[second]
    if both.any():
        result[both] = skin_distance_m(hull, points[first[both]], points[second[both]])
    return result
