# SPDX-License-Identifier: Apache-2.0
"""Where along a path does a sweep reflect, and what stands there?"""

from __future__ import annotations

import math
from dataclasses import dataclass
from itertools import pairwise

import numpy as np

from rfplan.analysis.element_loss import BandGrid, Floats, item_loss
from rfplan.analysis.sweeps import (
    SweepError,
    SweptPath,
    Waves,
    down_db,
    frequencies_hz,
    reflection,
)
from rfplan.model.assessment import CableRun
from rfplan.model.sweep import Sweep
from rfplan.physics.fault_distance import (
    WINDOW_WIDTH_RATIO,
    ReflectionProfile,
    fault_resolution_m,
    reflection_profile,
)
from rfplan.physics.mismatched_line import return_loss_at_load_db

FAULT_RETURN_LOSS_DB = 20.0
"""A reflection is told from this return loss down; common practice, no source."""

MOST_REFLECTIONS = 12

_STEP_M = 1.0e-9
"""Over so little length the loss of parts and plugs is thought to happen."""


@dataclass(frozen=True, slots=True)
class Place:
    """Where cables meet each other, parts, the unit or the antenna; loss before and behind it."""

    name: str
    distance_m: float
    electrical_m: float
    before_db: float
    behind_db: float


@dataclass(frozen=True, slots=True)
class Reflection:
    """One reflection: how far from the unit, its return loss at the place, and what is there."""

    distance_m: float
    return_loss_db: float
    where: str


@dataclass(frozen=True, slots=True)
class LineSearch:
    """All reflections above a threshold, and how far and how finely the sweep sees."""

    reflections: tuple[Reflection, ...]
    places: tuple[Place, ...]
    threshold_db: float
    resolution_m: float
    range_m: float
    loss_known: bool

    @property
    def too_short(self) -> bool:
        """Whether the path is longer than the sweep shows, so that places fold back."""
        return self.places[-1].distance_m > self.range_m


def places(line: SweptPath, frequency_hz: float) -> tuple[Place, ...]:
    """Return the places of a path from the unit, with the loss on the way at one frequency."""
    chain = line.chain
    band = BandGrid("sweep", np.array([frequency_hz]))
    distance_m = electrical_m = before_db = behind_db = 0.0
    names = [f"{chain.unit}.{chain.port_id}"]
    found: list[Place] = []
    for element in chain.elements:
        loss_db = float(item_loss(element, band, line.facts.book).nominal[0])
        if element.run is None:
            behind_db += loss_db
            names += [element.id] if element.id else []
            continue
        names.append(element.run.id)
        found.append(Place("/".join(names), distance_m, electrical_m, before_db, behind_db))
        length_m, velocity = _length_and_velocity(line, element.run)
        distance_m, electrical_m = distance_m + length_m, electrical_m + length_m / velocity
        before_db = behind_db = behind_db + loss_db
        names = [element.run.id]
    names.append(chain.antenna)
    return (*found, Place("/".join(names), distance_m, electrical_m, before_db, behind_db))


def _length_and_velocity(line: SweptPath, run: CableRun) -> tuple[float, float]:
    length_m, velocity = run.length_m.nominal, line.velocity_ratio(run)
    for name, value in (("type", velocity), ("length", length_m)):
        if not math.isfinite(value):
            raise SweepError(f"{run.id}: the {name} is not known, so no distance can be told")
    return length_m, velocity


def search_line(
    line: SweptPath, sweep: Sweep, threshold_db: float = FAULT_RETURN_LOSS_DB
) -> LineSearch:
    """Return the reflections along a path whose return loss at their place is below a threshold."""
    swept_hz = frequencies_hz(sweep)
    profile = profile_of(swept_hz, reflection(sweep))
    along = places(line, float(swept_hz[[0, -1]].mean()))
    end = along[-1]
    if end.electrical_m == 0.0:
        raise SweepError(f"{line.id}: no cable in it, so no distance can be told")
    resolution_m, range_m = resolved_m(swept_hz), float(profile.distance_m[-1])
    profile = _unwrapped(profile, range_m - resolution_m)
    velocity = end.distance_m / end.electrical_m
    return LineSearch(
        reflections=tuple(
            Reflection(_distance_m(at_m, along), level_db, _where(at_m, along, resolution_m))
            for at_m, level_db in _tops(profile, _at_its_place(profile, along), threshold_db)
        ),
        places=along,
        threshold_db=threshold_db,
        resolution_m=resolution_m * velocity,
        range_m=range_m * velocity,
        loss_known=math.isfinite(end.behind_db),
    )


def profile_of(swept_hz: Floats, waves: Waves) -> ReflectionProfile:
    """Return the size of waves over electrical distance; SweepError where the sweep is no good."""
    try:
        return reflection_profile(swept_hz, waves, 1.0)
    except ValueError as fault:
        raise SweepError(f"no distance can be told: {fault}") from None


def resolved_m(swept_hz: Floats) -> float:
    """Return the electrical distance at which two reflections are told apart."""
    return WINDOW_WIDTH_RATIO * float(fault_resolution_m(1.0, swept_hz[-1] - swept_hz[0]))


def _unwrapped(profile: ReflectionProfile, wraps_m: float) -> ReflectionProfile:
    """Count as distance zero what lies just ahead of it and so wraps to the end of the range."""
    wraps = profile.distance_m > wraps_m
    return ReflectionProfile(np.where(wraps, 0.0, profile.distance_m), profile.magnitude)


def _at_its_place(profile: ReflectionProfile, along: tuple[Place, ...]) -> Floats:
    """Return losses with the way there and back taken out; as seen where the way is not known."""
    seen_db = np.maximum(down_db(profile.magnitude.astype(complex)), 0.0)
    at_m = [place.electrical_m + side_m for place in along for side_m in (0.0, _STEP_M)]
    way_db = [loss_db for place in along for loss_db in (place.before_db, place.behind_db)]
    if not math.isfinite(way_db[-1]):
        return seen_db
    one_way_db = np.interp(profile.distance_m, at_m[:-1], way_db[:-1])
    return np.asarray(return_loss_at_load_db(seen_db, one_way_db))


def _tops(
    profile: ReflectionProfile, return_loss_db: Floats, threshold_db: float
) -> list[tuple[float, float]]:
    """Return distance and return loss of each separate reflection, the nearest first."""
    size = profile.magnitude
    is_top = (size >= np.roll(size, 1)) & (size > np.roll(size, -1))
    at = np.flatnonzero(is_top & (return_loss_db <= threshold_db))
    strongest = at[np.argsort(return_loss_db[at], kind="stable")][:MOST_REFLECTIONS]
    return sorted((float(profile.distance_m[i]), float(return_loss_db[i])) for i in strongest)


def _distance_m(electrical_m: float, along: tuple[Place, ...]) -> float:
    """Return the distance along the cables; behind the antenna with the velocity of the whole."""
    end = along[-1]
    if electrical_m > end.electrical_m:
        return electrical_m * end.distance_m / end.electrical_m
    at_m = [place.electrical_m for place in along]
    return float(np.interp(electrical_m, at_m, [place.distance_m for place in along]))


def _where(electrical_m: float, along: tuple[Place, ...], resolution_m: float) -> str:
    """Name the nearest place within the resolution, else the two that the reflection is between."""
    nearest = min(along, key=lambda place: abs(place.electrical_m - electrical_m))
    if abs(nearest.electrical_m - electrical_m) <= resolution_m:
        return f"at {nearest.name}"
    for near, far in pairwise(along):
        if near.electrical_m < electrical_m < far.electrical_m:
            return f"between {near.name} and {far.name}"
    return f"beyond {nearest.name}: a longer cable, or an echo of what is nearer"
