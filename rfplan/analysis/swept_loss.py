# SPDX-License-Identifier: Apache-2.0
"""Does a path lose what was predicted, measured from both ends or from one?"""

from __future__ import annotations

import math
from dataclasses import dataclass, replace

import numpy as np

from rfplan.analysis.element_loss import BandGrid, Floats
from rfplan.analysis.sweeps import (
    TIE_DB,
    TIE_HZ,
    SweepError,
    SweptPath,
    Waves,
    down_db,
    frequencies_hz,
    not_covered,
    reflection,
    transmission,
)
from rfplan.model.sweep import Sweep
from rfplan.physics.constants import SPEED_OF_LIGHT_M_PER_S
from rfplan.physics.mismatched_line import one_port_loss_db

GAIN_ALLOWED_DB = 0.5
"""A passive line may seem to return this much more than it gets before its sweep is refused."""


@dataclass(frozen=True, slots=True)
class LossCurve:
    """Measured loss over frequency; from one end, with how far single readings lie off it."""

    frequency_hz: Floats
    loss_db: Floats
    swing_db: Floats | None = None


@dataclass(frozen=True, slots=True)
class SweptLoss:
    """Measured and predicted loss of a band where they differ most; or why there is none."""

    band: str
    low_hz: float
    high_hz: float
    refused: str = ""
    at_hz: float | None = None
    measured_db: float | None = None
    predicted_db: float | None = None
    difference_db: float | None = None
    ripple_db: float | None = None
    agreement: str | None = None


def through_loss(sweep: Sweep) -> LossCurve:
    """Return the insertion loss that a two-port sweep shows."""
    return LossCurve(frequencies_hz(sweep), down_db(transmission(sweep)))


def one_port_loss(far_open: Sweep, far_short: Sweep) -> LossCurve:
    """Return the loss of a line from its near end, with the far end open and then shorted."""
    both = f"{far_open.file} and {far_short.file}"
    if not _same_frequencies(far_open, far_short):
        raise SweepError(f"{both} are not swept over the same frequencies")
    with_open, with_short = reflection(far_open), reflection(far_short)
    if np.median((with_open * with_short.conj()).real) > 0.0:
        raise SweepError(f"{both} look alike; expected one far end open, the other shorted")
    open_db, short_db = _passive_db(far_open, with_open), _passive_db(far_short, with_short)
    loss_db = np.asarray(one_port_loss_db(open_db, short_db))
    return LossCurve(frequencies_hz(far_open), loss_db, np.abs(open_db - short_db) / 4.0)


def _same_frequencies(one: Sweep, other: Sweep) -> bool:
    if len(one.s) != len(other.s):
        return False
    return bool(np.abs(frequencies_hz(one) - frequencies_hz(other)).max() <= TIE_HZ)


def _passive_db(sweep: Sweep, waves: Waves) -> Floats:
    """The return loss of a line; what noise puts above full reflection counts as full."""
    return_loss_db = down_db(waves)
    if return_loss_db.min() < -GAIN_ALLOWED_DB:
        raise SweepError(f"{sweep.file} returns more than it gets; calibrate and sweep again")
    return np.maximum(return_loss_db, 0.0)


def loss_at_db(curve: LossCurve, frequency_hz: float) -> float:
    """Return the measured loss at one frequency; SweepError where it was not swept."""
    at_hz = np.array([frequency_hz])
    if refused := not_covered(at_hz, curve.frequency_hz):
        raise SweepError(refused)
    return float(np.interp(at_hz, curve.frequency_hz, curve.loss_db)[0])


def swept_losses(line: SweptPath, curve: LossCurve) -> tuple[SweptLoss, ...]:
    """Return the measured loss of every band of a path beside its prediction."""
    return tuple(_swept_loss(line, band, curve) for band in line.bands)


def _swept_loss(line: SweptPath, band: BandGrid, curve: LossCurve) -> SweptLoss:
    band_hz = band.frequency_hz
    told = SweptLoss(band.name, float(band_hz[0]), float(band_hz[-1]))
    if refused := not_covered(band_hz, curve.frequency_hz):
        return replace(told, refused=refused)
    measured_db = np.interp(band_hz, curve.frequency_hz, curve.loss_db)
    predicted_db = line.predicted_db(band)
    off_db = measured_db - predicted_db
    known = bool(np.isfinite(off_db).all())
    at = int(np.abs(off_db).argmax()) if known else band.mid
    told = replace(
        told,
        at_hz=float(band_hz[at]),
        measured_db=float(measured_db[at]),
        ripple_db=_ripple_db(band_hz, curve, line.electrical_length_m),
    )
    if not known:
        return told
    return replace(
        told,
        predicted_db=float(predicted_db[at]),
        difference_db=float(off_db[at]),
        agreement=_agreement(float(off_db[at]), line),
    )


def _agreement(difference_db: float, line: SweptPath) -> str:
    agrees = abs(difference_db) <= line.facts.plan.policy.agree_db + TIE_DB
    return "AGREES" if agrees else "DIFFERS"


def _ripple_db(band_hz: Floats, curve: LossCurve, electrical_m: float) -> float | None:
    """How far single readings lie off the mean at most, in a band and half a ripple beside it."""
    if curve.swing_db is None:
        return None
    ripple_hz = SPEED_OF_LIGHT_M_PER_S / (2.0 * electrical_m) if electrical_m > 0.0 else math.inf
    low_hz, high_hz = band_hz[0] - ripple_hz / 2.0, band_hz[-1] + ripple_hz / 2.0
    near = (curve.frequency_hz >= low_hz) & (curve.frequency_hz <= high_hz)
    inside_db = np.interp(band_hz, curve.frequency_hz, curve.swing_db)
    return float(max(inside_db.max(), curve.swing_db[near].max(initial=0.0)))
