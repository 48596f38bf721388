# SPDX-License-Identifier: Apache-2.0
"""What does the change from the state found weigh, and how far does it move the balance?"""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping
from dataclasses import dataclass, replace

import numpy as np

from rfplan.analysis.cable_mass import LaidCable, Relaying, relaid
from rfplan.analysis.routing import Site
from rfplan.analysis.stations import station_m
from rfplan.model.airframe import Weight
from rfplan.model.assessment import CableRun
from rfplan.model.catalog import Catalog
from rfplan.model.plan import Antenna, GroundPlane, Part, Plan, StatedMass, Unit
from rfplan.model.weight import WeightChange, WeightItem
from rfplan.physics.balance import cg_bounds_m, moment_change_kg_m, new_cg_m
from rfplan.units import Missing, Range

AT_PLACE = "place"
ALONG_ROUTE = "route"
BETWEEN_ENDS = "midway"
AT_ENDS = "plug ends"


def weight_change(
    plan: Plan, catalog: Catalog, runs: Mapping[str, CableRun], site: Site
) -> WeightChange:
    """Return what came out and went in between the state found and the one looked at.

    `runs` are the cables of the state looked at; what did not change is not looked at.
    """
    if plan.installation is plan.found:
        return _summed([], plan.airframe.weight)
    things = list(_changed_things(plan))
    work = Relaying(plan, catalog, site, frozenset(id for id, _, _ in things))
    out, into = _Side(plan, catalog, installed=False), _Side(plan, catalog, installed=True)
    before, after = relaid(work, runs)
    came_out = [*out.things((id, was) for id, was, _ in things), *out.cables(before)]
    went_in = [*into.things((id, now) for id, _, now in things), *into.cables(after)]
    return _summed(_differing(came_out, went_in), plan.airframe.weight)


def _summed(items: list[WeightItem], before: Weight | None) -> WeightChange:
    """The sums of the known items; an unknown mass is in none of them."""
    known = [(item.change_kg, item.arm_m) for item in items if item.is_known]
    masses, arms = np.array(known, dtype=float).reshape(-1, 2).T
    change_kg, moment_kg_m = float(masses.sum()), moment_change_kg_m(masses, arms)
    if before is None or min(before.empty_kg, before.empty_kg + change_kg) <= 0.0:
        return WeightChange(tuple(items), change_kg, moment_kg_m, before)
    cg_m = float(new_cg_m(before.empty_kg, before.cg_m, change_kg, moment_kg_m))
    empty_kg = before.empty_kg + change_kg
    told = WeightChange(tuple(items), change_kg, moment_kg_m, before, empty_kg, cg_m)
    return _within(told, before)


def _within(told: WeightChange, before: Weight) -> WeightChange:
    """Add the bounds of weight and CG where something is not known and all of it has bounds."""
    ends = [item.change_within_kg for item in told.items]
    if not told.unknown or None in ends:
        return told
    least, most = np.array(ends, dtype=float).T
    arms = np.array([item.arm_m for item in told.items], dtype=float)
    lightest_kg, heaviest_kg = (before.empty_kg + float(end.sum()) for end in (least, most))
    if lightest_kg <= 0.0:
        return told
    foremost_m, aftmost_m = cg_bounds_m(before.empty_kg, before.cg_m, least, most, arms)
    return replace(
        told,
        empty_within_kg=(lightest_kg, heaviest_kg),
        cg_within_m=(float(foremost_m), float(aftmost_m)),
    )


Thing = Antenna | Unit | Part | GroundPlane
_SECTIONS = ("antennas", "units", "parts", "ground_planes")


def _changed_things(plan: Plan) -> Iterator[tuple[str, Thing | None, Thing | None]]:
    """Yield everything but the cables that is not the same as found."""
    for section in _SECTIONS:
        found, fitted = getattr(plan.found, section), getattr(plan.installation, section)
        for id in {**found, **fitted} if found is not fitted else ():
            was, now = found.get(id), fitted.get(id)
            if was is not now and was != now:
                yield id, was, now


@dataclass(frozen=True, slots=True)
class _Side:
    """What came out of the state found, or went into the one looked at, as items."""

    plan: Plan
    catalog: Catalog
    installed: bool

    def things(self, things: Iterable[tuple[str, Thing | None]]) -> Iterator[WeightItem]:
        """Yield antennas, units, parts and ground planes."""
        fitted = self.plan.installation if self.installed else self.plan.found
        for id, thing in things:
            if isinstance(thing, GroundPlane):
                yield self._item("ground plane", id, thing.of, thing.mass_kg, _middle_m(thing.fs_m))
            elif thing is not None:
                arm_m = station_m(id, fitted, self.plan.airframe)
                yield self._item(*_named(thing, id, self.catalog), arm_m)

    def cables(self, cables: list[LaidCable]) -> Iterator[WeightItem]:
        """Yield cables, and their plugs, those of one type together."""
        for laid in cables:
            run, basis = laid.run, ALONG_ROUTE if laid.along_route else BETWEEN_ENDS
            yield self._item("cable", run.id, run.type, run.mass_kg, laid.arm_m, basis)
        stations: dict[str, list[float | None]] = {}
        for laid in cables:
            for plug, end_m in zip(laid.assembly.plugs, laid.ends_m, strict=True):
                stations.setdefault(plug, []).append(end_m)
        for plug, ends_m in stations.items():
            connector = self.catalog.connectors.get(plug)
            each_kg = connector.mass_kg if connector else None
            all_kg = None if each_kg is None else each_kg * len(ends_m)
            yield self._item("plugs", plug, plug, all_kg, _mean_m(ends_m), AT_ENDS, len(ends_m))

    def _item(
        self,
        kind: str,
        id: str,
        type: str,
        mass_kg: float | None,
        arm_m: float | None,
        basis: str = AT_PLACE,
        count: int = 1,
    ) -> WeightItem:
        within_kg = None
        if mass_kg is None and (stated := stated_mass(self.plan, id, type)) is not None:
            low_kg, high_kg = stated.each_kg.known()
            within_kg = (count * low_kg, count * high_kg)
            mass_kg = within_kg[0] if low_kg == high_kg else None
        return WeightItem(kind, id, type, mass_kg, arm_m, basis, count, self.installed, within_kg)


def stated_mass(plan: Plan, id: str, type: str) -> StatedMass | None:
    """Return what the plan itself says that a thing weighs, by its id before its type."""
    return plan.masses.get(id) or plan.masses.get(type)


def _named(
    thing: Antenna | Unit | Part, id: str, catalog: Catalog
) -> tuple[str, str, str, float | None]:
    """The kind of a thing, its id, its type and what it weighs."""
    if isinstance(thing, Unit):
        return "unit", id, thing.title or id, thing.mass_kg
    if isinstance(thing, Antenna):
        return "antenna", id, thing.type, catalog.antennas[thing.type].mass_kg
    return "part", id, thing.type, catalog.inline_parts[thing.type].mass_kg


def _differing(came_out: list[WeightItem], went_in: list[WeightItem]) -> list[WeightItem]:
    """What came out, then what went in; the same thing in the same place is neither."""
    out = {(item.kind, item.id): item for item in came_out}
    into = {(item.kind, item.id): item for item in went_in}
    stayed = [key for key, item in into.items() if key in out and _alike(out[key], item)]
    for key in stayed:
        del out[key], into[key]
    return [side[key] for side in (out, into) for key in sorted(side)]


def _alike(one: WeightItem, other: WeightItem) -> bool:
    mine = one.type, one.mass_kg, one.arm_m, one.count
    return mine == (other.type, other.mass_kg, other.arm_m, other.count)


def _mean_m(stations_m: list[float | None]) -> float | None:
    known = [station for station in stations_m if station is not None]
    return sum(known) / len(known) if len(known) == len(stations_m) else None


def _middle_m(span: Range) -> float | None:
    if isinstance(span.low, Missing) or isinstance(span.high, Missing):
        return None
    return (span.low + span.high) / 2.0
