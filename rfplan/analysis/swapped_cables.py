# SPDX-License-Identifier: Apache-2.0
"""Are the labels of two cables swapped? Their measured lengths against the planned ones."""

from __future__ import annotations

from dataclasses import dataclass
from enum import StrEnum

from rfplan.analysis.sweeps import (
    SweepError,
    SweptPath,
    frequencies_hz,
    reflection,
    transmission,
)
from rfplan.analysis.swept_line import profile_of, resolved_m
from rfplan.model.sweep import Sweep


class Labels(StrEnum):
    """What two lengths say of the labels of two cables."""

    RIGHT = "as labelled"
    SWAPPED = "SWAPPED"
    UNTOLD = "cannot be told"


@dataclass(frozen=True, slots=True)
class SweptLength:
    """The electrical length of one path as planned and as swept, and how finely that was seen."""

    path: str
    file: str
    planned_m: float
    measured_m: float
    resolution_m: float


def swept_length(line: SweptPath, sweep: Sweep) -> SweptLength:
    """Return the length of a path as a wave in free space; from one end best with it open."""
    swept_hz = frequencies_hz(sweep)
    ways = 2.0 if sweep.ports == 2 else 1.0  # a profile halves the way, and through is one way
    waves = transmission(sweep) if sweep.ports == 2 else reflection(sweep)
    profile = profile_of(swept_hz, waves)
    planned_m = line.electrical_length_m
    if not planned_m > 0.0:
        raise SweepError(f"{line.id}: the length of its cables is not known")
    if planned_m > ways * float(profile.distance_m[-1]):
        raise SweepError(f"{line.id} is longer than {sweep.file} shows; sweep in finer steps")
    strongest = int(profile.magnitude.argmax())
    return SweptLength(
        path=line.id,
        file=sweep.file,
        planned_m=planned_m,
        measured_m=ways * float(profile.distance_m[strongest]),
        resolution_m=ways * resolved_m(swept_hz),
    )


def labels_of(one: SweptLength, other: SweptLength) -> Labels:
    """Return SWAPPED where the other way round fits better by more than the resolution."""
    straight_m = abs(one.measured_m - one.planned_m) + abs(other.measured_m - other.planned_m)
    crossed_m = abs(one.measured_m - other.planned_m) + abs(other.measured_m - one.planned_m)
    told_apart_m = max(one.resolution_m, other.resolution_m)
    if straight_m - crossed_m > told_apart_m:
        return Labels.SWAPPED
    return Labels.RIGHT if crossed_m - straight_m > told_apart_m else Labels.UNTOLD
