# SPDX-License-Identifier: Apache-2.0
"""What would help where isolation is missing: distance, suppression, a filter, a pad."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from dataclasses import dataclass

import numpy as np

from rfplan.analysis.emissions import sent_hz
from rfplan.analysis.facts import Facts
from rfplan.analysis.placement import hull_places
from rfplan.analysis.scene import Scene
from rfplan.model.catalog import InlinePart
from rfplan.model.interference import CARRIER, Exposure, Harm, Matrix, MatrixCell
from rfplan.physics.free_space import distance_ratio
from rfplan.physics.gnss_interference import needed_below_carrier_db
from rfplan.units import Missing, Range

IN_LINE = (Harm.OVERLOAD, Harm.DAMAGE)
"""What a pad in the receiver's line helps against; it costs the signal as much as the noise."""

Bands = tuple[tuple[float, float], ...]

OPPOSITE = {"top": "belly", "belly": "top"}


@dataclass(frozen=True, slots=True)
class Cure:
    """What one exposure lacks, and what each means would have to give; None: does not apply.

    `away_m` is the distance that the missing decibels ask for, `below_carrier_db` how far below
    the carrier the harmonic or the noise in 1 Hz would have to lie, `across_db` what the longer
    way to the other side of the hull gives at least, the receiving antenna moved there. Filters
    are told with what they reject.
    """

    cell: MatrixCell
    exposure: Exposure
    missing_db: float | None
    away_m: float | None
    below_carrier_db: float | None
    across_db: float | None
    filters: tuple[tuple[str, float], ...]
    pad: str | None


def cures(matrix: Matrix, facts: Facts) -> tuple[Cure, ...]:
    """Return what would help each emission that does not pass, by the worst of its limits."""
    return tuple(_cures(matrix, facts))


def reach_m(facts: Facts) -> float:
    """How far apart two antennas of the aircraft can stand at all: no further than it is long."""
    stations_m = facts.scene.hull.fs_m
    return float(stations_m[-1] - stations_m[0])


def _cures(matrix: Matrix, facts: Facts) -> Iterator[Cure]:
    for cell in matrix.cells:
        across_db, seen = _across_db(cell, facts.scene), set[tuple[str, str, int]]()
        for one in cell.exposures:
            emission = one.source, one.victim, one.order
            if emission not in seen and _lacks(one):
                seen.add(emission)
                yield _cure(cell, one, facts, across_db)


def _lacks(one: Exposure) -> bool:
    """Whether isolation is missing, or a harmonic or noise too high as far as one can tell."""
    open_beside = _is_open_beside(one)
    return (one.margin_db or 0.0) < 0.0 or (open_beside and _below_carrier_db(one) is not None)


def _is_open_beside(one: Exposure) -> bool:
    """Whether it is open what an emission beside the carrier does."""
    return one.order != CARRIER and one.verdict is None


def _cure(cell: MatrixCell, one: Exposure, facts: Facts, across_db: float | None) -> Cure:
    margin_db = 0.0 if one.margin_db is None else one.margin_db
    missing_db = -margin_db if margin_db < 0.0 else None
    open_beside = _is_open_beside(one)
    pads = missing_db is not None and one.harm in IN_LINE
    parts = facts.scene.catalog.inline_parts.values()
    return Cure(
        cell=cell,
        exposure=one,
        missing_db=missing_db,
        away_m=None if missing_db is None else cell.distance_m * float(distance_ratio(missing_db)),
        below_carrier_db=_below_carrier_db(one) if open_beside else None,
        across_db=across_db,
        filters=_filters(one, sent_hz(facts, one.source), parts) if open_beside else (),
        pad=_pad(missing_db or 0.0, parts) if pads else None,
    )


def _across_db(cell: MatrixCell, scene: Scene) -> float | None:
    """What distance alone gives with the receiving antenna straight across the hull."""
    victim, source = scene.fitted[cell.victim], scene.fitted[cell.source]
    other = OPPOSITE.get(victim.antenna.on)
    if other is None or not cell.distance_m > 0.0:
        return None
    at = victim.antenna.at
    across = hull_places(scene.hull, other, np.array([at.fs_m]), np.array([at.bl_m]))
    away_m = float(np.linalg.norm(across.point_m[0] - np.array(source.point_m)))
    gained_db = 20.0 * float(np.log10(away_m / cell.distance_m))
    return gained_db if np.isfinite(gained_db) and gained_db > 0.0 else None


def _below_carrier_db(one: Exposure) -> float | None:
    have_db = one.coupling.have_db
    if one.carrier_dbm is None or one.limit_dbm is None or have_db is None:
        return None
    return float(needed_below_carrier_db(one.carrier_dbm, one.limit_dbm, have_db))


def _filters(
    one: Exposure, sent_hz: Bands, parts: Iterable[InlinePart]
) -> tuple[tuple[str, float], ...]:
    """Filters of the catalogue that pass what is sent and stop what is beside it."""
    ends_hz = {end_hz for band_hz in sent_hz for end_hz in band_hz}
    return tuple(
        sorted(
            (part.id, part.rejection_db)
            for part in parts
            if part.kind == "filter"
            and part.rejection_db is not None
            and all(_holds(part.band_hz, end_hz) for end_hz in ends_hz)
            and _holds(part.stop_hz, one.frequency_hz)
        )
    )


def _holds(band_hz: Range | None, frequency_hz: float) -> bool:
    """Whether a frequency lies in a band whose ends are known."""
    if band_hz is None or isinstance(band_hz.low, Missing) or isinstance(band_hz.high, Missing):
        return False
    return band_hz.low <= frequency_hz <= band_hz.high


def _pad(missing_db: float, parts: Iterable[InlinePart]) -> str | None:
    """The smallest pad of the catalogue that is sure to take off what is missing."""
    known = [
        (losses.loss_db, part.id)
        for part in parts
        if part.kind == "pad"
        for losses in part.loss.values()
        if losses.loss_db is not None
        and losses.loss_db - (losses.tolerance_db or 0.0) >= missing_db
    ]
    return min(known)[1] if known else None
