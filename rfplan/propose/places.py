# SPDX-License-Identifier: Apache-2.0
"""Where else could an antenna stand? A grid over one surface, and the best places judged truly.

The grid is looked at by what the rules leave; what comes of it is decided by `assess` alone.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass, replace
from itertools import product
from math import cos, pi

import numpy as np

from rfplan.analysis.facts import Facts, gather
from rfplan.analysis.placement import Fitted, Places, half_base_m, hull_places
from rfplan.analysis.scene import Scene
from rfplan.analysis.spacing import centre_distance_m
from rfplan.assess import assess
from rfplan.edits import MoveAntenna
from rfplan.model.assessment import Assessment
from rfplan.model.findings import Finding, Verdict
from rfplan.model.rulebook import Strictness
from rfplan.physics.skin_geometry import Hull, skin_point_m
from rfplan.propose.room_map import STEPS_M, Bools, Floats, RoomMap, rooms_of, stacked
from rfplan.rules.room import TIE, Constraint, Room
from rfplan.sources import OWN_COMPUTATION, Citation
from rfplan.units import Place

MOST_LISTED, MOST_JUDGED = 5, 30
"""How many places come out, and how many are judged at most to find as many that hold."""

APART_M = 0.30
"""How far two proposals are from each other at least."""

LEAST_UPRIGHT = cos(pi / 6.0)
"""Skin more than 30 degrees off level belongs to the side, and is not proposed."""

PART = 250
"""Places looked at in one step of a search, which takes some milliseconds."""


@dataclass(frozen=True, slots=True)
class Proposal:
    """A move, what the plan comes to with it, and how far the place is from what is nearest."""

    edit: MoveAntenna
    assessment: Assessment
    room_m: float
    nearest: str

    @property
    def verdict(self) -> Verdict:
        """The worst word of the antenna at that place and of its paths."""
        return self.assessment.word_of(self.edit.antenna)


@dataclass(frozen=True, slots=True)
class Miss:
    """The place that comes nearest to being free, and what it is short of, by `finding` if any.

    `of` is '' where it is not a distance that lacks.
    """

    at: Place
    short_m: float
    of: str
    finding: Finding | None


@dataclass(frozen=True, slots=True)
class Found:
    """What a search has come to: places, the best first, or in the end how near one came."""

    on: str
    proposals: tuple[Proposal, ...] = ()
    miss: Miss | None = None


def search(now: Assessment, antenna: str, on: str, step_m: float) -> Iterator[Found]:
    """Yield what has been found on a surface after every few milliseconds; the last is all.

    A place comes before another if it leaves fewer advices aside, else if it has more room up to
    what is ample, else if it is nearer to where the antenna stands. Those that fail come last.
    """
    facts = gather(now.plan, now.catalog, now.rulebook)
    fitted = facts.scene.fitted[antenna]
    parts: list[RoomMap] = []
    for places in _parts(grid(facts.scene.hull, on, step_m, half_base_m(fitted.type))):
        parts.append(_free_map(facts, fitted, places))
        yield Found(on)
    room = _joined(on, parts)
    judged: list[Proposal] = []
    for index in _candidates(room, np.array(fitted.point_m)):
        judged.append(_judged(now, antenna, room, index))
        holding = sorted(judged, key=lambda one: one.verdict.fails)
        yield Found(on, tuple(holding[:MOST_LISTED]))
        if sum(not one.verdict.fails for one in judged) == MOST_LISTED:
            return
    if not judged:
        yield Found(on, miss=_nearest_miss(now, fitted, room))


def grid(hull: Hull, on: str, step_m: float, base_m: Floats) -> Places:
    """Return the places at whole steps of a surface where a base, given by its halves, has skin.

    Where the skin is too steep is none.
    """
    first, last = np.ceil(hull.fs_m[0] / step_m), np.floor(hull.fs_m[-1] / step_m)
    half = np.floor(hull.half_width_m.max() / step_m)
    bl, fs = np.meshgrid(np.arange(-half, half + 1.0), np.arange(first, last + 1.0))
    places = hull_places(hull, on, fs.ravel() * step_m, bl.ravel() * step_m)
    borne = np.abs(places.normal[:, 2]) >= LEAST_UPRIGHT
    for along, across in product((-1.0, 0.0, 1.0), repeat=2):
        corner = places.point_m[:, :2] + base_m * (along, across)
        borne &= ~np.isnan(skin_point_m(hull, on, *corner.T)).any(axis=1)
    return _some(places, borne)


def _some(places: Places, kept: Bools | slice) -> Places:
    return Places(places.on, places.point_m[kept], places.normal[kept])


def _parts(places: Places) -> Iterator[Places]:
    for start in range(0, len(places.point_m), PART):
        yield _some(places, slice(start, start + PART))


def _free_map(facts: Facts, fitted: Fitted, places: Places) -> RoomMap:
    """What the rules and the bases of all other antennas leave."""
    return stacked(places, [*rooms_of(facts, fitted, places), _bases(facts.scene, fitted, places)])


def _bases(scene: Scene, fitted: Fitted, places: Places) -> Room:
    """Two antennas cannot stand in one place, whether or not a rule speaks of them."""
    others = [other for id, other in scene.fitted.items() if id != fitted.id]
    constraints = tuple(
        Constraint(
            (fitted.id, other.id),
            f"the bases of {fitted.id} and {other.id} are {{value}} apart",
            Strictness.REQUIRED,
            Citation(OWN_COMPUTATION),
            off=other.id,
        )
        for other in others
    )
    points_m = np.array([other.point_m for other in others]).reshape(-1, 3)
    have = centre_distance_m(places, points_m)
    needs = np.array([[fitted.radius_m + other.radius_m] for other in others]).reshape(-1, 1)
    return Room(constraints, have, needs + np.zeros_like(have), "m")


def _joined(on: str, parts: list[RoomMap]) -> RoomMap:
    """The maps of all parts of a surface as one; each has the same constraints."""
    nowhere = Places(on, np.empty((0, 3)), np.empty((0, 3)))
    if not parts:
        return stacked(nowhere, ())
    points, normals = (
        np.concatenate([getattr(part.places, name) for part in parts])
        for name in ("point_m", "normal")
    )
    margins = np.concatenate([part.margins for part in parts], axis=1)
    return replace(parts[0], places=Places(on, points, normals), margins=margins)


def _candidates(room: RoomMap, now_m: Floats) -> Iterator[int]:
    """Yield the free places in order, each some way from those before it."""
    point_m, free = room.places.point_m, ~(room.forbidden | room.unknown)
    enough_m = np.round(np.minimum(room.room_m, STEPS_M[-1]), 6)
    away_m = np.round(np.linalg.norm(point_m - now_m, axis=1), 6)
    order = np.lexsort((point_m[:, 1], away_m, -enough_m, room.advices))
    order = order[free[order]]
    for _ in range(MOST_JUDGED):
        if not order.size:
            return
        yield int(order[0])
        apart_m = np.linalg.norm(point_m[order] - point_m[order[0]], axis=1)
        order = order[apart_m >= APART_M]


def _judged(now: Assessment, antenna: str, room: RoomMap, index: int) -> Proposal:
    edit = MoveAntenna(antenna, room.places.on, _place(room, index))
    assessment = assess(edit.apply(now.plan), now.catalog, now.rulebook)
    rows = np.flatnonzero(room.clear_of)
    margins = room.margins[rows, index]
    if not np.isfinite(margins).any():
        return Proposal(edit, assessment, np.inf, "")
    nearest = room.constraints[rows[int(np.nanargmin(margins))]]
    return Proposal(edit, assessment, float(np.nanmin(margins)), nearest.off)


def _place(room: RoomMap, index: int) -> Place:
    fs_m, bl_m, _ = room.places.point_m[index]
    return Place(float(fs_m), float(bl_m), None)


def _nearest_miss(now: Assessment, fitted: Fitted, room: RoomMap) -> Miss | None:
    """The place whose worst shortage is the smallest, and what it is short of.

    Places that lack isolation come behind all that lack none; of equals the nearest to where the
    antenna stands is told.
    """
    rows = np.flatnonzero(room.required)
    margins = np.where(np.isnan(room.margins), -np.inf, room.margins)[rows]
    if not margins.size:
        return None
    in_db = room.in_decibels[rows]
    isolated_db = margins[in_db].min(axis=0, initial=0.0)
    apart_m = margins[~in_db].min(axis=0, initial=np.inf)
    away_m = np.round(np.linalg.norm(room.places.point_m - fitted.point_m, axis=1), 6)
    index = int(np.lexsort((away_m, -apart_m, -isolated_db))[0])
    chosen = np.flatnonzero(in_db == (isolated_db[index] < -TIE))
    broken = room.constraints[rows[chosen[int(margins[chosen, index].argmin())]]]
    at = _place(room, index)
    moved = MoveAntenna(fitted.id, room.places.on, at).apply(now.plan)
    findings = assess(moved, now.catalog, now.rulebook).findings
    finding = next((one for one in findings if one.text == broken.text), None)
    of = broken.off if np.isfinite(apart_m[index]) else ""
    return Miss(at, float(-apart_m[index]), of, finding)
