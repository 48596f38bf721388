# SPDX-License-Identifier: Apache-2.0
"""Which way does a cable go, and how long is it? The shortest way over surveyed segments."""

from __future__ import annotations

import heapq
import math
from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from functools import lru_cache
from itertools import pairwise
from typing import NamedTuple

from rfplan.analysis.kept import kept
from rfplan.model.airframe import Airframe
from rfplan.model.assessment import CableRun, Extent, LengthTerms
from rfplan.model.catalog import Catalog
from rfplan.model.plan import Assembly, Policy
from rfplan.physics.bend import largest_bend_radius_m
from rfplan.physics.supports import support_count
from rfplan.units import UNKNOWN, Missing

Point = tuple[float, float, float]

GEOMETRY_ESTIMATE_RATIO = 0.20
"""Spread of a length that was computed from coordinates instead of measured."""


WAYS_KEPT = 5000
"""Ways, and bends on them, that are known from one assessment to the next."""


@dataclass(frozen=True, slots=True, eq=False)
class Network:
    """The route graph of one variant; a bulkhead node ends a cable and is never passed through.

    Two are the same only as one object, so that ways through it can be kept: few edits change it.
    """

    points: Mapping[str, Point]
    ways: Mapping[str, Mapping[str, float]]
    bulkheads: frozenset[str]


@dataclass(frozen=True, slots=True)
class End:
    """One end of a cable: where it is, and the node at which it enters the network."""

    point: Point | None
    node: str | None


@kept
def network(airframe: Airframe, variant: str | None) -> Network:
    """Return the route graph with the overlays of a variant; unknown segments are left out."""
    points = {
        id: (node.at.fs_m, node.at.bl_m, node.at.wl_m or 0.0)
        for id, node in airframe.route.nodes.items()
    }
    ways: dict[str, dict[str, float]] = {id: {} for id in points}
    overlay = airframe.variants.get(variant) if variant else None
    for id, segment in airframe.route.segments.items():
        length = segment.length_m
        if overlay and id in overlay.closed:
            continue
        if overlay and (change := overlay.segments.get(id)):
            if change.length_m is not None:
                length = change.length_m
            elif not isinstance(length, Missing):
                length += change.change_m or 0.0
        if not isinstance(length, Missing):
            one, other = id.split("-")
            ways[one][other] = ways[other][one] = length
    bulkheads = frozenset(id for id, node in airframe.route.nodes.items() if node.bulkhead)
    return Network(points, ways, bulkheads)


def shortest_way(
    net: Network, start: str, goal: str, closed: frozenset[str] = frozenset()
) -> tuple[float, tuple[str, ...]] | None:
    """Return length and nodes of the shortest way, or None; ties go to the first node id."""
    queue: list[tuple[float, tuple[str, ...]]] = [(0.0, (start,))]
    done: set[str] = set()
    while queue:
        length, nodes = heapq.heappop(queue)
        here = nodes[-1]
        if here == goal:
            return length, nodes
        if here in done or (here != start and here in net.bulkheads):
            continue
        done.add(here)
        for there, step in net.ways[here].items():
            if there not in done and there not in closed:
                heapq.heappush(queue, (length + step, (*nodes, there)))
    return None


@lru_cache(maxsize=WAYS_KEPT)
def way_through(
    net: Network, stops: tuple[str, ...], closed: frozenset[str]
) -> tuple[float, tuple[str, ...]] | None:
    """Return the shortest way that visits `stops` in order; no bulkhead lies between its ends."""
    if net.bulkheads.intersection(stops[1:-1]):
        return None
    total: float = 0.0
    nodes: tuple[str, ...] = stops[:1]
    for one, other in pairwise(stops):
        leg = shortest_way(net, one, other, closed)
        if leg is None:
            return None
        total, nodes = total + leg[0], nodes + leg[1][1:]
    return total, nodes


def nearest_node(net: Network, point: Point) -> str | None:
    """Return the node nearest in a straight line; ties go to the first id."""

    def distance_m(node: str) -> tuple[float, str]:
        return math.dist(point, net.points[node]), node

    return min(net.points, key=distance_m, default=None)


def moved_node(stated: str | None, before: str | None, after: str | None) -> str | None:
    """Return the node of a moved antenna, of which the nearest one before and after are given.

    A stated node stays until the move makes another one the nearest.
    """
    return stated if stated is not None and before == after else after


@lru_cache(maxsize=WAYS_KEPT)
def tightest_bend(net: Network, nodes: tuple[str, ...]) -> tuple[float, str] | None:
    """Return the smallest of the largest radii that fit the corners of a way, and its node."""
    corners: list[tuple[float, str]] = []
    for a, b, c in zip(nodes, nodes[1:], nodes[2:], strict=False):
        before, after = (
            math.dist(net.points[a], net.points[b]),
            math.dist(net.points[b], net.points[c]),
        )
        if before == 0.0 or after == 0.0:
            continue
        cosine = sum(
            (q - p) * (r - q)
            for p, q, r in zip(net.points[a], net.points[b], net.points[c], strict=True)
        ) / (before * after)
        turn = math.acos(max(-1.0, min(1.0, cosine)))
        if turn > math.pi - 1.0e-6:
            corners.append((0.0, b))
        elif turn > 1.0e-6:
            corners.append((float(largest_bend_radius_m(min(before, after), turn)), b))
    return min(corners, default=None)


@dataclass(frozen=True, slots=True)
class Site:
    """What routing needs of the aircraft: the network, the shop's policy, the support spacing."""

    network: Network
    policy: Policy
    support_spacing_m: float


def _exactly(value_m: float) -> Extent:
    return Extent(value_m, value_m, value_m)


UNKNOWN_LENGTH = Extent(0.0, math.nan, math.inf)


def _stated(value: float | Missing | None) -> Extent:
    """A length the plan states: absent is zero, `?` may be anything."""
    if isinstance(value, Missing):
        return UNKNOWN_LENGTH
    return _exactly(value or 0.0)


def _sum(extents: Iterable[Extent]) -> Extent:
    parts = list(extents)
    return Extent(
        sum(part.least for part in parts),
        sum(part.nominal for part in parts),
        sum(part.most for part in parts),
    )


def _estimated_drop(end: End, net: Network) -> Extent:
    """From the last node straight to the plug, known to a fifth of itself; without a place `?`."""
    if end.point is None or end.node is None:
        return UNKNOWN_LENGTH
    straight_m = math.dist(end.point, net.points[end.node])
    spread_m = straight_m * GEOMETRY_ESTIMATE_RATIO
    return Extent(straight_m - spread_m, straight_m, straight_m + spread_m)


def _routed(
    assembly: Assembly, net: Network, ends: tuple[End, End]
) -> tuple[Extent, tuple[str, ...]]:
    """The surveyed way; without one at least the straight line, at most anything."""
    nodes = (ends[0].node, *assembly.via, ends[1].node)
    stops = tuple(node for node in nodes if node is not None)
    way = way_through(net, stops, frozenset(assembly.avoid)) if len(stops) == len(nodes) else None
    if way:
        return _exactly(way[0]), way[1]
    if ends[0].point and ends[1].point:
        return Extent(math.dist(ends[0].point, ends[1].point), math.nan, math.inf), ()
    return UNKNOWN_LENGTH, ()


def _rounding_m(finished_m: float, policy: Policy, tolerance_m: float) -> float:
    """Strip-back and cutting tolerance, and what rounds the cut length up to the shop's step."""
    cut_m = finished_m + 2.0 * policy.strip_m + tolerance_m
    step_m = policy.cut_step_m
    return (math.ceil(cut_m / step_m - 1e-9) * step_m if step_m else cut_m) - finished_m


class _Laid(NamedTuple):
    """Electrical length, its terms where all are known, the nodes, the names of what is missing."""

    extent: Extent
    terms: LengthTerms | None
    nodes: tuple[str, ...]
    missing: tuple[str, ...]


def _predicted(assembly: Assembly, site: Site, ends: tuple[End, End], tolerance_m: float) -> _Laid:
    """The length as the route gives it; at its least the re-termination allowance is used up."""
    routed, nodes = _routed(assembly, site.network, ends)
    named = {
        "route": routed,
        "drops": _drops(assembly, site, ends),
        "loops": _sum(_stated(loop) for loop in assembly.loops_m or ()),
        "drip_loop": _stated(assembly.drip_loop_m),
        "retermination": _stated(assembly.retermination_m),
    }
    finished = _sum(named.values())
    least_m = finished.least - named["retermination"].least - tolerance_m
    extent = Extent(max(0.0, least_m), finished.nominal, finished.most + tolerance_m)
    missing = tuple(name for name, one in named.items() if math.isnan(one.nominal))
    if missing:
        return _Laid(extent, None, nodes, missing)
    terms = LengthTerms(
        routed_m=routed.nominal,
        drops_m=named["drops"].nominal,
        drip_loop_m=named["drip_loop"].nominal,
        service_loops_m=named["loops"].nominal,
        retermination_m=named["retermination"].nominal,
        rounding_m=_rounding_m(finished.nominal, site.policy, tolerance_m),
    )
    return _Laid(extent, terms, nodes, ())


def _drops(assembly: Assembly, site: Site, ends: tuple[End, End]) -> Extent:
    """Each end as stated, else estimated from the coordinates."""
    return _sum(
        _estimated_drop(end, site.network) if drop is None else _stated(drop)
        for drop, end in zip(assembly.drops_m or (None, None), ends, strict=True)
    )


def _as_it_lies(assembly: Assembly, laid: _Laid) -> _Laid:
    """A stated length stands with its own tolerance; the allowance for new ends may be used up."""
    if isinstance(assembly.length_m, Missing):
        return laid._replace(extent=UNKNOWN_LENGTH, missing=("length",))
    length_m, spread_m = assembly.length_m or 0.0, assembly.tolerance_m or 0.0
    spare_m = _stated(assembly.retermination_m).most
    extent = Extent(max(0.0, length_m - spare_m - spread_m), length_m, length_m + spread_m)
    return laid._replace(extent=extent, missing=())


def _length(assembly: Assembly, site: Site, ends: tuple[End, End]) -> _Laid:
    tolerance_m = site.policy.tolerance_m if assembly.tolerance_m is None else assembly.tolerance_m
    if assembly.length_m is None:
        return _predicted(assembly, site, ends, tolerance_m)
    if is_laid(assembly):
        return _as_it_lies(assembly, _predicted(assembly, site, ends, tolerance_m))
    return _as_it_lies(assembly, _Laid(UNKNOWN_LENGTH, None, (), ()))


def _supports(terms: LengthTerms | None, site: Site) -> int | None:
    """Supports along the routed way, both ends clamped; none where there is no way to clamp to."""
    if terms is None:
        return None
    return int(support_count(terms.routed_m, site.support_spacing_m)) if terms.routed_m else 0


def is_laid(assembly: Assembly) -> bool:
    """Whether the plan says anything of how the assembly is laid."""
    return bool(assembly.via or assembly.drops_m or assembly.loops_m or assembly.retermination_m)


def cable_run(
    id: str, assembly: Assembly, site: Site, ends: tuple[End, End], catalog: Catalog
) -> CableRun:
    """Return way, length terms and electrical length of one assembly.

    A stated `length` is that of the cable as it lies; the route then only shows what was planned.
    """
    laid = _length(assembly, site, ends)
    terms, length_m = laid.terms, assembly.length_m
    cable = catalog.cables.get(assembly.type)
    reel_m = terms.cut_m if terms and length_m is None else laid.extent.nominal
    per_m = cable.mass_kg_per_m if cable else None
    return CableRun(
        id=id,
        type=assembly.type,
        nodes=laid.nodes,
        terms=terms,
        as_built_m=None if isinstance(length_m, Missing) else length_m,
        length_m=laid.extent,
        drop_estimated=terms is not None and None in (assembly.drops_m or (None,)),
        supports=_supports(terms, site),
        bend=tightest_bend(site.network, laid.nodes),
        mass_kg=reel_m * per_m if per_m is not None and math.isfinite(reel_m) else None,
        unknown=laid.missing,
        ageing_ratio=ageing_ratio(assembly, site.policy),
    )


def ageing_ratio(assembly: Assembly, policy: Policy) -> float | None:
    """Return what a cable is allowed to age by: its own, else the policy's; None for `?`."""
    own = assembly.ageing_ratio
    if isinstance(own, Missing):
        return None if own is UNKNOWN else 0.0
    return (policy.ageing_ratio or 0.0) if own is None else own
