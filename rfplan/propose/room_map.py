# SPDX-License-Identifier: Apache-2.0
"""How much room does every rule leave an antenna at each of many places?

The rules' own `room` functions are asked; nothing here knows a distance or a zone.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from rfplan.analysis.facts import Facts
from rfplan.analysis.placement import Fitted, Places
from rfplan.model.rulebook import Strictness
from rfplan.rules import ROOMS
from rfplan.rules.room import TIE, Constraint, Room

Floats = NDArray[np.float64]
Bools = NDArray[np.bool_]
Levels = NDArray[np.int8]
"""One number a place: 0 nothing known, 1 tight to 4 ample, 5 breaks a rule."""

UNKNOWN, BREAKS_RULE = 0, 5
STEPS_M = (0.075, 0.15, 0.30)
"""Room from which a place is no longer tight, and from which it is ample: 3, 6 and 12 in."""


@dataclass(frozen=True, slots=True)
class RoomMap:
    """What every rule says of places on one surface; margins have shape (constraints, places)."""

    places: Places
    constraints: tuple[Constraint, ...]
    units: tuple[str, ...]
    margins: Floats

    @property
    def in_decibels(self) -> Bools:
        """Which constraints are no lengths: decibels are compared with decibels alone."""
        return np.array([unit == "dB" for unit in self.units], dtype=np.bool_)

    @property
    def required(self) -> Bools:
        """Which constraints have an authority; all others advise."""
        kinds = [one.strictness is Strictness.REQUIRED for one in self.constraints]
        return np.array(kinds, dtype=np.bool_)

    @property
    def clear_of(self) -> Bools:
        """Which constraints keep the antenna off something; all others are met or not."""
        return np.array([bool(one.off) for one in self.constraints], dtype=np.bool_)

    @property
    def forbidden(self) -> Bools:
        """Where a required rule is broken."""
        return np.asarray((self.margins[self.required] < -TIE).any(axis=0))

    @property
    def unknown(self) -> Bools:
        """Where there is no skin, or a required rule cannot tell."""
        unsure = np.isnan(self.margins[self.required]).any(axis=0)
        return np.asarray(unsure | np.isnan(self.places.point_m).any(axis=1))

    @property
    def room_m(self) -> Floats:
        """How far each place stays clear of the nearest thing that a rule keeps it off."""
        return np.asarray(np.fmin.reduce(self.margins[self.clear_of], axis=0, initial=np.inf))

    @property
    def advices(self) -> NDArray[np.intp]:
        """How many advices a place does not follow."""
        return np.asarray((self.margins[~self.required] < -TIE).sum(axis=0))

    @property
    def levels(self) -> Levels:
        """What a map shows: the room in steps, and where a rule forbids."""
        steps = np.digitize(self.room_m, STEPS_M) + 1
        known = np.where(self.unknown, UNKNOWN, steps)
        return np.where(self.forbidden, BREAKS_RULE, known).astype(np.int8)


def room_map(facts: Facts, fitted: Fitted, places: Places) -> RoomMap:
    """Return what every rule says of an antenna at places, wherever it stands now."""
    return stacked(places, rooms_of(facts, fitted, places))


def rooms_of(facts: Facts, fitted: Fitted, places: Places) -> list[Room]:
    """Return the rooms of all rules that speak of an antenna."""
    rooms = (room(facts, fitted, places) for room in ROOMS)
    return [room for room in rooms if room is not None]


def stacked(places: Places, rooms: Sequence[Room]) -> RoomMap:
    """Return the rooms of several rules at the same places as one."""
    constraints = tuple(constraint for room in rooms for constraint in room.constraints)
    units = tuple(room.unit for room in rooms for _ in room.constraints)
    nothing = np.empty((0, len(places.point_m)))
    margins = np.concatenate([nothing, *(room.margins for room in rooms)])
    return RoomMap(places, constraints, units, margins)
