# SPDX-License-Identifier: Apache-2.0
"""What would the lines of an antenna be if it stood somewhere else, all else as it is?"""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass, replace
from functools import lru_cache

import numpy as np
from numpy.typing import NDArray

from rfplan.analysis.facts import Facts, end_of, path_budgets
from rfplan.analysis.placement import Fitted
from rfplan.analysis.routing import End, cable_run, moved_node
from rfplan.analysis.signal_path import resolve
from rfplan.model.assessment import CableRun, Extent
from rfplan.model.plan import Assembly
from rfplan.model.record import ById

Floats = NDArray[np.float64]
Indices = NDArray[np.intp]


@dataclass(frozen=True, slots=True)
class Stretch:
    """Places whose cable comes from one node: the facts at the nearest one and at the farthest.

    `part` runs from 0 at the nearest to 1; so far along does a cable get longer.
    """

    rows: Indices
    near: Facts
    far: Facts
    part: Floats


def stretches(facts: Facts, fitted: Fitted, point_m: Floats) -> Iterator[Stretch]:
    """Yield all points on skin but those at which no cable changes, where all is as it is now."""
    there = ~np.isnan(point_m).any(axis=1) & (point_m != fitted.point_m).any(axis=1)
    nodes = sorted(facts.site.network.points)
    if not nodes or not _cables(facts, fitted.id):
        return
    node_m = np.array([facts.site.network.points[node] for node in nodes])
    nearest = _nearest(node_m, point_m)
    before = nodes[int(_nearest(node_m, np.array([fitted.point_m]))[0])]
    for index in np.unique(nearest[there]):
        rows = np.flatnonzero(there & (nearest == index))
        node = moved_node(fitted.antenna.node, before, nodes[index])
        away_m = np.linalg.norm(point_m[rows] - facts.site.network.points[node or ""], axis=1)
        ends = rows[away_m.argmin()], rows[away_m.argmax()]
        near, far = (_standing_at(facts, fitted.id, End(tuple(point_m[at]), node)) for at in ends)
        span_m = max(float(np.ptp(away_m)), 1.0e-9)
        yield Stretch(rows, near, far, (away_m - away_m.min()) / span_m)


@lru_cache(maxsize=8)
def without_cables(facts: Facts, antenna: str) -> Facts:
    """Return the facts with no length of the cables that follow an antenna: they lose least."""
    nothing, cables = Extent(0.0, 0.0, 0.0), _cables(facts, antenna)
    bare = {id: replace(facts.runs[id], length_m=nothing) for id in cables}
    return _with_runs(facts, bare) if bare else facts


def _nearest(node_m: Floats, point_m: Floats) -> Indices:
    """The node nearest to each point; ties go to the first."""
    away_m = np.linalg.norm(node_m[:, None] - point_m, axis=-1)
    return np.asarray(np.argmin(np.nan_to_num(away_m), axis=0))


def _cables(facts: Facts, antenna: str) -> list[str]:
    """The cables at an antenna whose length depends on where it stands."""
    cables = facts.installation.cables
    return [
        id for id, ends in facts.ends.items() if antenna in ends and cables[id].length_m is None
    ]


def _standing_at(facts: Facts, antenna: str, end: End) -> Facts:
    """The facts with the lines of an antenna that stands elsewhere; its place stays."""
    return _with_runs(facts, {id: _run(facts, id, end) for id in _cables(facts, antenna)})


def _with_runs(facts: Facts, changed: Mapping[str, CableRun]) -> Facts:
    """The facts with other runs of some cables, and what follows for the paths through them."""
    runs = ById({**facts.runs, **changed})
    chains, budgets = dict(facts.chains), dict(facts.budgets)
    for id in facts.paths_of(*changed):
        path = facts.installation.paths[id]
        chains[id] = resolve(id, path, facts.installation, runs, facts.catalog)
        budgets[id] = path_budgets(chains[id], facts.rulebook, facts.book)
    return replace(facts, runs=runs, chains=ById(chains), budgets=ById(budgets))


def _run(facts: Facts, id: str, end: End) -> CableRun:
    start = facts.ends[id][0]
    whence = end_of(start, facts.installation, facts.scene.fitted, facts.site.network)
    assembly = _without_drop(facts.installation.cables[id])
    return cable_run(id, assembly, facts.site, (whence, end), facts.catalog)


def _without_drop(assembly: Assembly) -> Assembly:
    """A cable as a move leaves it: the drop that was stated at the antenna is estimated."""
    drops_m = assembly.drops_m
    return replace(assembly, drops_m=(drops_m[0], None)) if drops_m else assembly
