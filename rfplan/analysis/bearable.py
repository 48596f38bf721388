# SPDX-License-Identifier: Apache-2.0
"""What may an emission of one transmitter reach at a receiver's antenna, before it does harm?"""

from __future__ import annotations

from collections.abc import Iterator
from typing import NamedTuple

import numpy as np

from rfplan.analysis.emissions import GNSS, Emission, Receiver
from rfplan.analysis.gnss_limits import bearable_at, least_density_dbm
from rfplan.analysis.simultaneity import SHORT_PULSES
from rfplan.model.gnss_masks import GnssMasks, Mask, PulseLimit
from rfplan.model.interference import CARRIER, NOISE, Harm, Together
from rfplan.physics.constants import NOISE_REFERENCE_K
from rfplan.physics.decibel import power_ratio_db
from rfplan.physics.gnss_interference import bearable_over_noise_db
from rfplan.physics.noise import thermal_noise_dbm

L1_HZ = 1575.42e6
"""The masks hold for receivers of this signal."""

IN_BAND_HZ = 12.0e6


NOISE_RISE_DB = 1.0
"""How much noise may rise where the plan does not say; common practice, no source: no FAIL."""

ONE_HZ = 1.0


class Limit(NamedTuple):
    """A limit at one frequency, and the level from which on FAIL is certain; None: not known."""

    harm: Harm
    frequency_hz: float
    limit_dbm: float | None
    fail_above_dbm: float | None


class Allowed(NamedTuple):
    """What is borne in general: by tables, beside a satcom, and of noise if the plan says so."""

    masks: GnssMasks
    satcom: bool = False
    noise_rise_db: float | None = None


def limits(
    emission: Emission, receiver: Receiver, allowed: Allowed, together: Together
) -> Iterator[tuple[Limit, ...]]:
    """Yield, for each harm an emission may do, its limits over the band of the emission.

    Where the two need not work together only damage counts.
    """
    if emission.order == NOISE:
        if together is Together.YES and _hears(receiver, emission):
            yield _noise(emission, receiver, allowed)
    elif receiver.radio.family == GNSS:
        if together is Together.YES:
            yield from _gnss(emission, receiver, allowed)
        if emission.order == CARRIER and emission.radio.id not in SHORT_PULSES:
            yield _burnout(emission, allowed.masks)
    elif emission.order == CARRIER:
        if together is Together.YES:
            yield _stated(Harm.OVERLOAD, receiver.overload_dbm, emission, receiver)
        if together is not Together.YES or receiver.damage_dbm is not None:
            yield _stated(Harm.DAMAGE, receiver.damage_dbm, emission, receiver)
    elif together is Together.YES:
        yield from _in_band(emission, receiver, allowed)


def _hears(receiver: Receiver, noise: Emission) -> bool:
    band_hz = noise.low_hz, noise.high_hz
    return noise.heard_by == receiver.radio.family and band_hz in receiver.bands_hz


def _stated(
    harm: Harm, at_plug_dbm: float | None, emission: Emission, receiver: Receiver
) -> tuple[Limit, ...]:
    """A limit that the port states at its plug, carried out to the antenna.

    Nobody says what an amplifier there makes of a frequency beside its own: it decides no FAIL.
    """
    ends_hz = (emission.low_hz, emission.high_hz)
    if at_plug_dbm is None:
        return tuple(Limit(harm, at_hz, None, None) for at_hz in dict.fromkeys(ends_hz))
    carried = (
        (at_hz, at_plug_dbm + receiver.line_loss_db(at_hz)) for at_hz in dict.fromkeys(ends_hz)
    )
    return tuple(
        Limit(harm, at_hz, limit_dbm, None if receiver.amplified else limit_dbm)
        for at_hz, limit_dbm in carried
    )


def _burnout(emission: Emission, masks: GnssMasks) -> tuple[Limit, ...]:
    """What breaks the amplifier of a GNSS antenna."""
    limit = masks.pulses.get("burnout")
    ends_hz = dict.fromkeys((emission.low_hz, emission.high_hz))
    return tuple(_peak(Harm.DAMAGE, at_hz, limit) for at_hz in ends_hz)


def _noise(emission: Emission, receiver: Receiver, allowed: Allowed) -> tuple[Limit, ...]:
    """The noise in 1 Hz that is borne over one band of a receiver."""
    low_hz, high_hz = emission.low_hz, emission.high_hz
    if receiver.radio.family == GNSS:
        limit_dbm = _gnss_noise_dbm(allowed.masks) if low_hz <= L1_HZ <= high_hz else None
        harm, fail_dbm = Harm.MASK, None
    else:
        limit_dbm = _noise_limit_dbm(receiver, allowed_rise_db(allowed.noise_rise_db))
        harm, fail_dbm = Harm.NOISE, None if allowed.noise_rise_db is None else limit_dbm
    ends_hz = dict.fromkeys((low_hz, high_hz))
    return tuple(Limit(harm, at_hz, limit_dbm, fail_dbm) for at_hz in ends_hz)


def allowed_rise_db(entered_db: float | None) -> float:
    """Return how much the noise of a receiver may rise."""
    return NOISE_RISE_DB if entered_db is None else entered_db


def _in_band(
    emission: Emission, receiver: Receiver, allowed: Allowed
) -> Iterator[tuple[Limit, ...]]:
    """Yield what lifts a receiver's noise as a harmonic in each of its bands that it falls into."""
    in_1_hz_dbm = _noise_limit_dbm(receiver, allowed_rise_db(allowed.noise_rise_db))
    limit_dbm = None
    if in_1_hz_dbm is not None and receiver.bandwidth_hz is not None:
        limit_dbm = in_1_hz_dbm + float(power_ratio_db(receiver.bandwidth_hz, ONE_HZ))
    fail_dbm = None if allowed.noise_rise_db is None else limit_dbm
    for band_hz in receiver.bands_hz:
        if shared_hz := emission.shared_hz(band_hz):
            yield tuple(Limit(Harm.IN_BAND, at_hz, limit_dbm, fail_dbm) for at_hz in shared_hz)


def _gnss_noise_dbm(masks: GnssMasks) -> float | None:
    """What L1 bears in its most sensitive phase of work.

    How much of a wider noise the table means is not told: it decides no FAIL.
    """
    mask = masks.masks.get("noise_like")
    return None if mask is None else least_density_dbm(mask) - _tighter_db(masks)


def _noise_limit_dbm(receiver: Receiver, rise_db: float) -> float | None:
    """What lifts the noise of a receiver by so much, carried out to its antenna."""
    if receiver.noise_figure_db is None:
        return None
    noise_dbm = float(thermal_noise_dbm(NOISE_REFERENCE_K, ONE_HZ)) + receiver.noise_figure_db
    return noise_dbm + float(bearable_over_noise_db(rise_db)) + receiver.line_db


def _gnss(emission: Emission, receiver: Receiver, allowed: Allowed) -> Iterator[tuple[Limit, ...]]:
    """Yield what each signal of a receiver bears at the output of the passive element."""
    masks = allowed.masks
    mask = masks.masks.get("cw_satcom" if allowed.satcom else "cw")
    for (low_hz, high_hz), signal_hz in zip(receiver.bands_hz, receiver.signals_hz, strict=True):
        is_l1 = low_hz <= L1_HZ <= high_hz
        told = is_l1 and mask is not None and emission.level_dbm is not None
        if emission.order > CARRIER and not emission.near(signal_hz) and not told:
            continue
        if is_l1 and emission.order == CARRIER and emission.radio.id in SHORT_PULSES:
            yield tuple(_pulses(emission, masks))
        elif is_l1 and mask is not None:
            yield _masked((emission, receiver), mask, masks)
        else:
            yield (Limit(Harm.MASK, emission.nearest_hz(signal_hz), None, None),)


def _masked(meeting: tuple[Emission, Receiver], mask: Mask, masks: GnssMasks) -> tuple[Limit, ...]:
    """The mask at the ends of an emission, nearest to the signal, and at what lies between.

    Between two corners of the mask the margin is concave over frequency, so none is worse
    elsewhere; where the antenna's own band ends another gain counts. The limit is that of the
    most sensitive phase of work; FAIL takes the mask itself.
    """
    emission, receiver = meeting
    near_hz = emission.nearest_hz(L1_HZ)
    corners_hz = [corner.frequency_hz or 0.0 for corner in mask.corners]
    turns_hz = (*corners_hz, *receiver.edges_hz)
    between = (at_hz for at_hz in turns_hz if emission.low_hz < at_hz < emission.high_hz)
    told_hz = sorted({emission.low_hz, emission.high_hz, near_hz, *between})
    at_hz = np.array(told_hz if emission.level_dbm is not None else [near_hz])
    bearable = bearable_at(mask, at_hz)
    tighter_db = _tighter_db(masks)
    return tuple(
        Limit(Harm.MASK, float(one_hz), float(limit_dbm) - tighter_db, _finite(float(fail_dbm)))
        for one_hz, limit_dbm, fail_dbm in zip(
            at_hz, bearable.limit_dbm, bearable.fail_above_dbm, strict=True
        )
    )


def _tighter_db(masks: GnssMasks) -> float:
    """How much lower the limits lie in the most sensitive phase of work."""
    return max((one.loss_db for one in masks.tightenings.values()), default=0.0)


def _pulses(emission: Emission, masks: GnssMasks) -> Iterator[Limit]:
    for at_hz in dict.fromkeys((emission.low_hz, emission.high_hz)):
        name = "in_band" if abs(at_hz - L1_HZ) <= IN_BAND_HZ else "out_of_band"
        yield _peak(Harm.PULSES, at_hz, masks.pulses.get(name))


def _peak(harm: Harm, at_hz: float, limit: PulseLimit | None) -> Limit:
    if limit is None:
        return Limit(harm, at_hz, None, None)
    return Limit(harm, at_hz, limit.peak_dbm, limit.peak_dbm if limit.status == "read" else None)


def _finite(level_dbm: float) -> float | None:
    return level_dbm if np.isfinite(level_dbm) else None
