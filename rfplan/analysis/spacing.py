# SPDX-License-Identifier: Apache-2.0
"""How far apart are two antennas, and which rule speaks for the pair?"""

from __future__ import annotations

from collections.abc import Iterable, Mapping

import numpy as np
from numpy.typing import NDArray

from rfplan.analysis.placement import Fitted, Places, Scene
from rfplan.model.airframe import OUTER_HULL
from rfplan.model.rulebook import Spacing, Strictness
from rfplan.physics.skin_geometry import skin_distance_m

Floats = NDArray[np.float64]

TX_25_W = "tx_25w"
ANY = "any"


def fit_rank(kind: str, fitted: Fitted) -> int | None:
    """Return how closely a rule's word names an antenna (0 by its id), or None if it does not."""
    if kind == fitted.id:
        return 0
    if kind in fitted.radios:
        return 1
    if kind in fitted.families:
        return 2
    if kind == TX_25_W and fitted.most_power_w > 25.0:
        return 3
    return 4 if kind == ANY else None


def _rank(rule: Spacing, a: Fitted, b: Fitted) -> int | None:
    ways = [(rule.from_, a, rule.to, b), (rule.from_, b, rule.to, a)]
    ranks = [
        one + other
        for from_, x, to, y in ways
        if (one := fit_rank(from_, x)) is not None and (other := fit_rank(to, y)) is not None
    ]
    return min(ranks, default=None)


def speaking_rule(rules: Iterable[Spacing], a: Fitted, b: Fitted) -> Spacing | None:
    """Return the most specific rule for a pair; then required ones, then the larger distance."""
    ranked = [
        (rank, rule.strict is Strictness.ADVICE, -rule.min_m, rule.id, rule)
        for rule in rules
        if (rank := _rank(rule, a, b)) is not None
    ]
    return min(ranked, key=lambda entry: entry[:4])[4] if ranked else None


def spacing_rules(scene: Scene) -> Mapping[str, Spacing]:
    """Return the plan's rules over the shipped advice."""
    return {**scene.rulebook.spacings, **scene.plan.spacing}


def centre_distance_m(places: Places, others_m: Floats) -> Floats:
    """Return straight distances, shape (others, places)."""
    return np.asarray(np.linalg.norm(others_m[:, None, :] - places.point_m[None, :, :], axis=-1))


def skin_distances_m(scene: Scene, places: Places, others: list[Fitted]) -> Floats:
    """Return distances along the hull, shape (others, places); NaN unless both are on the hull."""
    result = np.full((len(others), len(places.point_m)), np.nan)
    on_hull = [i for i, other in enumerate(others) if other.places.on in OUTER_HULL]
    if places.on not in OUTER_HULL or not on_hull:
        return result
    theirs = np.array([others[i].point_m for i in on_hull])
    a, b = np.broadcast_arrays(theirs[:, None, :], places.point_m[None, :, :])
    result[on_hull] = skin_distance_m(scene.hull, a, b)
    return result


def pair_skin_distances_m(
    scene: Scene, ids: list[str], first: NDArray[np.intp], second: NDArray[np.intp]
) -> Floats:
    """Return the distance along the hull of each pair; NaN unless both stand on the outer hull."""
    on_hull = np.array([scene.fitted[id].places.on in OUTER_HULL for id in ids])
    points = np.array([scene.fitted[id].point_m for id in ids])
    result = np.full(len(first), np.nan)
    both = on_hull[first] & on_hull[second]
    if both.any():
        result[both] = skin_distance_m(scene.hull, points[first[both]], points[second[both]])
    return result
