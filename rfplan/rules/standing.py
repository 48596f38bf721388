# SPDX-License-Identifier: Apache-2.0
"""Antennas as they stand to records: where, in which zones, how far from each other."""

from __future__ import annotations

import math

import numpy as np

from rfplan.analysis.facts import Facts
from rfplan.analysis.placement import Fitted, covers_point, lengths_m
from rfplan.analysis.spacing import pair_skin_distances_m
from rfplan.model.assessment import (
    AntennaPlace,
    SpacingFact,
)
from rfplan.model.findings import Finding, Verdict, worst
from rfplan.rules.rf501_spacing import RULE as RF501


def antenna_places(facts: Facts, findings: tuple[Finding, ...]) -> tuple[AntennaPlace, ...]:
    """Return every antenna as snapped, with the zones it stands in and its worst finding."""
    return tuple(
        AntennaPlace(
            id=id,
            type=fitted.type.id,
            surface=fitted.antenna.on,
            point_m=fitted.point_m,
            normal=_normal(fitted),
            inside=fitted.places.inside,
            radius_m=fitted.radius_m,
            zones=tuple(
                name
                for name, zone in facts.scene.zones_on.get(fitted.places.on, {}).items()
                if covers_point(zone, fitted.point_m)
            ),
            overall=worst(one.verdict for one in findings if id in one.objects),
        )
        for id, fitted in sorted(facts.scene.fitted.items())
    )


def _normal(fitted: Fitted) -> tuple[float, float, float]:
    x, y, z = fitted.places.normal[0]
    return float(x), float(y), float(z)


def spacing_facts(facts: Facts, findings: tuple[Finding, ...]) -> tuple[SpacingFact, ...]:
    """Return the distances of every pair of antennas with the rule that speaks for it."""
    ids = sorted(facts.scene.fitted)
    if len(ids) < 2:
        return ()
    waived = {frozenset(f.objects): f.verdict for f in findings if f.rule == RF501.id}
    points = np.array([facts.scene.fitted[id].point_m for id in ids])
    first, second = np.triu_indices(len(ids), k=1)
    centre = lengths_m(points[first] - points[second])
    standing = [facts.scene.fitted[id] for id in ids]
    skin = pair_skin_distances_m(facts.scene.hull, standing, first, second)
    known = [float(one) if math.isfinite(one) else None for one in skin]
    return tuple(
        _spacing_fact(facts, (ids[a], ids[b]), float(centre[i]), known[i], waived)
        for i, (a, b) in enumerate(zip(first, second, strict=True))
    )


def _spacing_fact(
    facts: Facts,
    pair: tuple[str, str],
    centre_m: float,
    skin_m: float | None,
    found: dict[frozenset[str], Verdict],
) -> SpacingFact:
    one, other = (facts.scene.fitted[id] for id in pair)
    edge_m = centre_m - one.radius_m - other.radius_m
    rule = facts.scene.pair_rules[one.id].get(other.id)
    if rule is None:
        return SpacingFact(*pair, centre_m, edge_m, skin_m, *([None] * 6))
    have = {"centre": centre_m, "edge": edge_m, "skin": skin_m}[rule.datum]
    return SpacingFact(
        *pair,
        centre_m=centre_m,
        edge_m=edge_m,
        skin_m=skin_m,
        need_m=rule.min_m,
        datum=rule.datum,
        margin_m=None if have is None else have - rule.min_m,
        strictness=rule.strict,
        rule=rule.id,
        verdict=found.get(frozenset(pair), Verdict.PASS),
    )
