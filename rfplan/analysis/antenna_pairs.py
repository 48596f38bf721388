# SPDX-License-Identifier: Apache-2.0
"""What lies between two antennas: ways along the skin, the straight line, and what blocks it."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from enum import IntEnum
from itertools import combinations

import numpy as np
from numpy.typing import NDArray

from rfplan.analysis.known_ways import known_ways
from rfplan.analysis.placement import Fitted, Places, panel_at
from rfplan.analysis.scene import Scene
from rfplan.model.airframe import OUTER_HULL, Airframe
from rfplan.physics.geodesic import girth_m
from rfplan.physics.sight_line import passes_clear, plate_detours_m
from rfplan.physics.skin_geometry import Hull
from rfplan.physics.surface_ray import Way

Floats = NDArray[np.float64]
Bools = NDArray[np.bool_]
Indices = NDArray[np.intp]

NOTHING_KNOWN = "unknown"
"""Skin of a place that no panel covers, or of a material that is not in the tables."""


class Link(IntEnum):
    """How a wave gets from one antenna to the other."""

    SKIN = 0
    """Along the outer hull, on which both stand."""
    SIGHT = 1
    """Straight through air; plates may stand in between."""
    THROUGH = 2
    """Through skin that lets waves pass, or out of the inside."""
    BEHIND = 3
    """The hull lies between two antennas of which one stands on a wing, tail or strut."""


@dataclass(frozen=True, slots=True)
class AntennaPairs:
    """Any number of pairs with their geometry: arrays of one row a pair.

    `ways` has both ways round the hull in its last axis, NaN where the hull carries no wave;
    `radius_m` is that of a circle with the girth of the hull between the antennas.
    """

    ids: tuple[tuple[str, str], ...]
    link: NDArray[np.int8]
    sight_m: Floats
    detour_m: Floats
    panel_db: Floats
    ways: Way
    radius_m: Floats
    metal: Bools
    upright: Bools

    def rows(self, wanted: Sequence[int]) -> AntennaPairs:
        """Return some of the pairs."""
        at = np.asarray(wanted, dtype=np.intp)
        return AntennaPairs(
            tuple(self.ids[row] for row in wanted),
            self.link[at],
            self.sight_m[at],
            self.detour_m[at],
            self.panel_db[at],
            Way(*(np.asarray(part)[at] for part in self.ways)),
            self.radius_m[at],
            self.metal[at],
            self.upright[at],
        )


def antenna_pairs(scene: Scene, ids: Iterable[tuple[str, str]] | None = None) -> AntennaPairs:
    """Return pairs of antennas, all of the plan unless told; those off the skin are left out."""
    there = {id: one for id, one in scene.fitted.items() if np.all(np.isfinite(one.point_m))}
    wanted = combinations(there, 2) if ids is None else ids
    kept = tuple((a, b) for a, b in wanted if a in there and b in there)
    sites = [_site(scene, one) for one in there.values()]
    number = {id: place for place, id in enumerate(there)}
    first, second = (
        np.array([(number[a], number[b]) for a, b in kept], dtype=np.intp).reshape(-1, 2).T
    )
    point_m = np.array([site.point_m for site in sites]).reshape(-1, 3)
    a_m, b_m = point_m[first], point_m[second]
    link = _links(scene.hull, sites, (first, second), (a_m, b_m))
    metal = np.array([site.skin == "conductive" for site in sites], dtype=bool)
    upright = np.array([site.upright for site in sites], dtype=bool)
    return AntennaPairs(
        kept,
        link,
        np.linalg.norm(b_m - a_m, axis=-1),
        _detours_m(scene.airframe, link, a_m, b_m),
        np.zeros(len(kept)),
        _ways(scene.hull, link, a_m, b_m),
        _radius_m(scene.hull, a_m, b_m),
        metal[first] & metal[second],
        upright[first] & upright[second],
    )


def pairs_over_skin(scene: Scene, ids: tuple[str, str], points_m: Floats) -> AntennaPairs:
    """Return one antenna at many points of conducting outer skin with another one on such skin."""
    one, other = (scene.fitted[id] for id in ids)
    many = len(points_m)
    link = np.full(many, Link.SKIN, dtype=np.int8)
    there_m = np.broadcast_to(other.point_m, points_m.shape)
    return AntennaPairs(
        (ids,) * many,
        link,
        np.linalg.norm(there_m - points_m, axis=-1),
        np.zeros(many),
        np.zeros(many),
        _ways(scene.hull, link, points_m, there_m),
        _radius_m(scene.hull, points_m, there_m),
        np.full(many, True),
        np.full(many, is_upright(scene, one) and is_upright(scene, other)),
    )


def plates_m(airframe: Airframe) -> Floats:
    """Return the corners of all plates, mirrored ones twice; shape (plates, 4, 3)."""
    corners: list[Floats] = []
    for plate in airframe.plates.values():
        (lead, trail), (tip_lead, tip_trail) = plate.root, plate.tip
        one = np.array(
            [(p.fs_m, p.bl_m, p.wl_m or 0.0) for p in (lead, tip_lead, tip_trail, trail)]
        )
        corners += [one, one * np.array([1.0, -1.0, 1.0])] if plate.mirror else [one]
    return np.array(corners).reshape(-1, 4, 3)


@dataclass(frozen=True, slots=True)
class _Site:
    """An antenna as far as waves care."""

    point_m: tuple[float, float, float]
    on_hull: bool
    inside: bool
    skin: str
    upright: bool


def _site(scene: Scene, one: Fitted) -> _Site:
    """Return where an antenna stands, on what skin, and whether all its radios are upright."""
    on_hull, skin = one.places.on in OUTER_HULL, skin_at(scene, one.places)[0]
    return _Site(one.point_m, on_hull, one.places.inside, skin, is_upright(scene, one))


def is_upright(scene: Scene, one: Fitted) -> bool:
    """Whether all radios of an antenna use vertical polarisation."""
    kinds = [scene.rulebook.radios.get(radio) for radio in one.radios]
    return all(kind is not None and kind.polarisation == "vertical" for kind in kinds)


def skin_at(scene: Scene, places: Places) -> list[str]:
    """Return how the skin at places carries waves: 'conductive', 'lossy', 'transparent'."""
    panels = panel_at(scene.airframe, places)
    materials = [scene.material(scene.airframe.skin[id].of) if id else None for id in panels]
    return [material.skin if material else NOTHING_KNOWN for material in materials]


def on_metal(scene: Scene, places: Places) -> Bools:
    """Return which places lie on conducting outer skin, where waves follow the hull."""
    if places.on not in OUTER_HULL:
        return np.full(len(places.point_m), False)
    return np.array([skin == "conductive" for skin in skin_at(scene, places)], dtype=bool)


def _links(
    hull: Hull, sites: list[_Site], pair: tuple[Indices, Indices], ends_m: tuple[Floats, Floats]
) -> NDArray[np.int8]:
    """Return how the wave travels, pair by pair."""
    first, second = pair
    on_hull = np.array([site.on_hull for site in sites], dtype=bool)
    through = np.array(
        [site.inside or (site.on_hull and site.skin == "transparent") for site in sites], dtype=bool
    )
    link = np.where(passes_clear(hull, *ends_m), Link.SIGHT, Link.BEHIND)
    link[on_hull[first] & on_hull[second]] = Link.SKIN
    link[through[first] | through[second]] = Link.THROUGH
    return link.astype(np.int8)


def _ways(hull: Hull, link: NDArray[np.int8], a_m: Floats, b_m: Floats) -> Way:
    """Return the ways along the hull from the forward end on, NaN for all other pairs.

    A way that does not settle stops elsewhere from the other end; no order of names may tell.
    """
    rows = np.full((3, len(link), 2), np.nan)
    along = link == Link.SKIN
    if along.any():
        from_m, to_m = a_m[along], b_m[along]
        apart_m = to_m - from_m
        differs = np.argmax(apart_m != 0.0, axis=-1)[:, None]
        back = np.take_along_axis(apart_m, differs, axis=-1) < 0.0
        rows[:, along] = known_ways(
            hull, np.where(back, to_m, from_m), np.where(back, from_m, to_m)
        )
    return Way(*rows)


def _radius_m(hull: Hull, a_m: Floats, b_m: Floats) -> Floats:
    """Return the radius of a circle with the mean girth of the sections at both ends."""
    girths = [np.interp(end[:, 0], hull.fs_m, girth_m(hull)) for end in (a_m, b_m)]
    return np.asarray((girths[0] + girths[1]) / (4.0 * np.pi))


def _detours_m(airframe: Airframe, link: NDArray[np.int8], a_m: Floats, b_m: Floats) -> Floats:
    """Return the largest detour that a plate forces on a straight line, zero where none does."""
    result = np.zeros(len(link))
    straight = link == Link.SIGHT
    plates = plates_m(airframe)
    if straight.any() and len(plates):
        result[straight] = plate_detours_m(a_m[straight], b_m[straight], plates).max(axis=-1)
    return result
