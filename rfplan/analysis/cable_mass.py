# SPDX-License-Identifier: Apache-2.0
"""Which cables came out and went in since the state found, how heavy are they, and where?"""

from __future__ import annotations

import math
from collections.abc import Mapping
from dataclasses import dataclass
from itertools import pairwise

from rfplan.analysis.placement import hull_of, snap
from rfplan.analysis.routing import End, Network, Point, Site, cable_run, is_laid, nearest_node
from rfplan.analysis.signal_path import cable_ends
from rfplan.analysis.stations import station_m
from rfplan.model.airframe import Airframe
from rfplan.model.assessment import CableRun
from rfplan.model.catalog import Catalog
from rfplan.model.plan import Antenna, Assembly, Installation, Plan
from rfplan.units import Missing

NOWHERE = End(None, None)


@dataclass(frozen=True, slots=True)
class LaidCable:
    """One cable in one state: its run, its plugs, the stations of its ends and of its middle."""

    run: CableRun
    assembly: Assembly
    ends_m: tuple[float | None, float | None]
    arm_m: float | None
    along_route: bool


@dataclass(frozen=True, slots=True)
class Relaying:
    """A plan whose cables are compared with those found, and the things that changed between."""

    plan: Plan
    catalog: Catalog
    site: Site
    changed: frozenset[str]


def relaid(work: Relaying, runs: Mapping[str, CableRun]) -> tuple[list[LaidCable], list[LaidCable]]:
    """Return the cables of the state found, and of the one looked at, that lie differently.

    `runs` are those of the state looked at; a cable found is laid only where something changed.
    """
    plan = work.plan
    was, now = cable_ends(plan.found), cable_ends(plan.installation)
    moved = [id for id in {**was, **now} if not _lies_as_before(id, was, now, work)]
    before = [(_found_run(id, was[id], work), was[id]) for id in moved if id in was]
    after = [(runs[id], now[id]) for id in moved if id in now]
    return (
        [_laid(run, ends, plan.found, work) for run, ends in before],
        [_laid(run, ends, plan.installation, work) for run, ends in after],
    )


_Ends = Mapping[str, tuple[str, str]]


def _lies_as_before(id: str, was: _Ends, now: _Ends, work: Relaying) -> bool:
    """Whether a cable is the same assembly between the same things in the same places."""
    if was.get(id) != now.get(id) or not work.changed.isdisjoint(now[id]):
        return False
    one, other = work.plan.found.cables[id], work.plan.installation.cables[id]
    return one is other or one == other


def _found_run(id: str, ends: tuple[str, str], work: Relaying) -> CableRun:
    """The run of a cable as found; where its length is stated and no way is, none is looked for."""
    assembly = work.plan.found.cables[id]
    way_matters = assembly.length_m is None or is_laid(assembly)
    one, other = (_end(member, assembly, work) if way_matters else NOWHERE for member in ends)
    return cable_run(id, assembly, work.site, (one, other), work.catalog)


def _end(member: str, assembly: Assembly, work: Relaying) -> End:
    """Where a cable found ends; an antenna is put on its skin only where that decides a length."""
    fitted, net = work.plan.found, work.site.network
    if antenna := fitted.antennas.get(member):
        node = antenna.node
        point = None if node and assembly.drops_m else _skin_point(antenna, work.plan.airframe)
    elif unit := fitted.units.get(member):
        at, node = unit.at, unit.node
        point = (at.fs_m, at.bl_m, at.wl_m or 0.0) if at else None
    else:
        node = fitted.parts[member].at
        point = net.points.get(node or "")
    return End(point, node or (nearest_node(net, point) if point else None))


def _skin_point(antenna: Antenna, airframe: Airframe) -> Point | None:
    places = snap(airframe, hull_of(airframe), antenna.on, [antenna.at])
    x, y, z = map(float, places.point_m[0])
    return None if math.isnan(x + y + z) else (x, y, z)


def _laid(run: CableRun, ends: tuple[str, str], fitted: Installation, work: Relaying) -> LaidCable:
    one_m, other_m = (station_m(member, fitted, work.plan.airframe) for member in ends)
    assembly = fitted.cables[run.id]
    if run.nodes:
        arm_m: float | None = _arm_m(run, assembly, (one_m, other_m), work.site.network)
    else:
        arm_m = None if one_m is None or other_m is None else (one_m + other_m) / 2.0
    return LaidCable(run, assembly, (one_m, other_m), arm_m, bool(run.nodes))


def _arm_m(
    run: CableRun, assembly: Assembly, ends_m: tuple[float | None, float | None], net: Network
) -> float | None:
    """The station of the middle of a way: its segments and what lies at either end."""
    length_m = moment_m2 = 0.0
    for one, other in pairwise(run.nodes):
        leg_m = net.ways[one][other]
        length_m += leg_m
        moment_m2 += leg_m * (net.points[one][0] + net.points[other][0]) / 2.0
    for node, end_m, piece_m in zip(
        (run.nodes[0], run.nodes[-1]), ends_m, _at_ends_m(run, assembly), strict=True
    ):
        here_m = net.points[node][0]
        length_m += piece_m
        moment_m2 += piece_m * (here_m if end_m is None else (end_m + here_m) / 2.0)
    return moment_m2 / length_m if length_m else None


def _at_ends_m(run: CableRun, assembly: Assembly) -> tuple[float, float]:
    """What lies at either end: drop and loop, half of what belongs to neither."""
    spare_m = (_known(assembly.retermination_m) + _known(assembly.drip_loop_m)) / 2.0
    drops = assembly.drops_m or (None, None)
    stated_m = [_known(drop) for drop in drops]
    if None in drops and run.terms:
        estimated_m = (run.terms.drops_m - sum(stated_m)) / drops.count(None)
        stated_m = [estimated_m if drop is None else _known(drop) for drop in drops]
    one_m, other_m = spare_m + stated_m[0], spare_m + stated_m[1]
    if assembly.loops_m is not None:
        one_m, other_m = one_m + _known(assembly.loops_m[0]), other_m + _known(assembly.loops_m[1])
    return one_m, other_m


def _known(length_m: float | Missing | None) -> float:
    return 0.0 if length_m is None or isinstance(length_m, Missing) else length_m
