# SPDX-License-Identifier: Apache-2.0
"""How much does a metre of a catalogue cable lose: least, nominal and most, over a band?"""

from __future__ import annotations

import math
from collections.abc import Container, Sequence
from dataclasses import dataclass, replace
from typing import Literal

import numpy as np
from numpy.typing import NDArray

from rfplan.model.catalog import AttenuationSet, Cable
from rfplan.model.loss_figure import Obtained, Tolerance
from rfplan.model.plan import Policy
from rfplan.model.source import UNSOURCED, Source
from rfplan.physics.cable_attenuation import (
    attenuation_law_db_per_m,
    dielectric_attenuation_db_per_m,
    fit_attenuation_law,
    interpolated_attenuation_db_per_m,
)
from rfplan.physics.cable_temperature import attenuation_at_temperature_db_per_m

Floats = NDArray[np.float64]

MEMORY_SPREAD_RATIO = 0.10
ESTIMATE_SPREAD_RATIO = 0.20
FIT_RESIDUAL_RATIO = 0.05
REACH_RATIO = 2.0
"""A law may be used up to this far beyond the end of its table."""


@dataclass(frozen=True, slots=True)
class Law:
    """One attenuation set made ready: its table, the law beyond it, its spread and its source."""

    basis: str
    frequency_hz: Floats
    attenuation_db_per_m: Floats
    k1: float
    k2: float
    fits: bool
    low_hz: float
    high_hz: float
    tolerance_ratio: float
    tolerance_stated: bool
    source: Source


@dataclass(frozen=True, slots=True)
class PreparedCable:
    """A cable with the sets that budgets take, by basis, and those that rival the reference."""

    cable: Cable
    sets: dict[str, Law]
    rivals: tuple[Law, ...] = ()

    @property
    def reference(self) -> Law:
        """The set that gives the nominal loss: nominal or estimate, else the maximum."""
        order = ("nominal", "estimate", "maximum", "minimum")
        return next(self.sets[basis] for basis in order if basis in self.sets)


@dataclass(frozen=True, slots=True)
class MetreLoss:
    """Loss per metre over a band: at 20 degC, and at both ends of tolerance and temperature."""

    nominal: Floats
    least_20: Floats
    most_20: Floats
    least_cold: Floats
    most_hot: Floats
    unscaled: Floats
    basis: str
    source: Source
    obtained: Obtained | None
    tolerance: Tolerance
    only_maximum: bool
    only_minimum: bool

    @property
    def extrapolated(self) -> bool:
        """Whether some frequency lies beyond the end of the table or fit."""
        return self.obtained == "extrapolated"

    @property
    def out_of_reach(self) -> bool:
        """Whether some frequency lies where nothing is known."""
        return self.obtained is None


def basis_of(name: str, attenuation: AttenuationSet) -> str:
    """Return the basis of a set: as stated, else its name."""
    return attenuation.basis or name


def sets_in_use(cable: Cable) -> list[tuple[str, AttenuationSet]]:
    """Return the sets that budgets take with their basis: those marked `use`, else all offered."""
    sets = [(basis_of(name, one), one) for name, one in cable.attenuation.items()]
    marked = [(basis, one) for basis, one in sets if one.use is True]
    return marked or [(basis, one) for basis, one in sets if one.use is not False]


def spread_ratio(basis: str, source: Source) -> float:
    """Return the spread of a figure that states none: a fifth of an estimate, a tenth of memory."""
    if basis == "estimate" or source.class_ == "calculated":
        return ESTIMATE_SPREAD_RATIO
    return MEMORY_SPREAD_RATIO if source.unverified else 0.0


def own_ends(reference: str, bases: Container[str]) -> tuple[Literal["least", "most"], ...]:
    """Return which ends of a loss have a set of their own beside the one that gives nominal."""
    ends: dict[str, Literal["least", "most"]] = {"minimum": "least", "maximum": "most"}
    return tuple(end for basis, end in ends.items() if basis in bases and basis != reference)


def law_of(basis: str, attenuation: AttenuationSet, cable: Cable) -> Law:
    """Return one attenuation set with its law fitted."""
    source = cable.sources.get(attenuation.source or "", UNSOURCED)
    own = attenuation.tolerance_ratio
    stated = own is not None
    spread = spread_ratio(basis, source) if own is None else own
    if attenuation.fit is not None:
        fit = attenuation.fit
        low, high = fit.range_hz.known()
        none = np.empty(0)
        return Law(basis, none, none, fit.k1, fit.k2, True, low, high, spread, stated, source)
    frequency = np.array([point.frequency_hz for point in attenuation.points])
    loss = np.array([point.attenuation_db_per_m for point in attenuation.points])
    law = fit_attenuation_law(frequency, loss)
    fits = law.worst_residual_ratio <= FIT_RESIDUAL_RATIO
    ends = frequency[0], frequency[-1]
    return Law(basis, frequency, loss, law.k1, law.k2, fits, *ends, spread, stated, source)


_NOTHING = Law(
    "nominal", np.empty(0), np.empty(0), 0.0, 0.0, False, math.inf, -math.inf, 0.0, False, UNSOURCED
)
"""What is known of a cable none of whose sets is in use; it reaches no frequency."""


def prepare(cable: Cable) -> PreparedCable:
    """Return a cable with its laws fitted once."""
    laws = [law_of(basis, one, cable) for basis, one in sets_in_use(cable)] or [_NOTHING]
    first = PreparedCable(cable, {law.basis: law for law in reversed(laws)})
    rivals = [law for law in laws if law.basis == first.reference.basis]
    return replace(first, rivals=tuple(rivals[1:]))


def loss_at_20(law: Law, frequency_hz: Floats) -> Floats:
    """Return dB/m at 20 degC: the table log-log, beyond it the law; NaN where neither reaches."""
    within = (frequency_hz >= law.low_hz) & (frequency_hz <= law.high_hz)
    if law.frequency_hz.size and within.all():
        return _from_table(law, frequency_hz)
    near = (frequency_hz >= law.low_hz / REACH_RATIO) & (frequency_hz <= law.high_hz * REACH_RATIO)
    by_law = np.asarray(attenuation_law_db_per_m(frequency_hz, law.k1, law.k2))
    loss = np.where(within | (near & law.fits), by_law, math.nan)
    if law.frequency_hz.size and within.any():
        loss[within] = _from_table(law, frequency_hz[within])
    return np.asarray(loss, dtype=np.float64)


def _from_table(law: Law, frequency_hz: Floats) -> Floats:
    return np.asarray(
        interpolated_attenuation_db_per_m(frequency_hz, law.frequency_hz, law.attenuation_db_per_m)
    )


def _unscaled(law: Law, cable: Cable, frequency_hz: Floats, policy: Policy) -> Floats:
    """The part of the loss of one set that temperature does not move."""
    rising: Floats = np.asarray(attenuation_law_db_per_m(frequency_hz, 0.0, law.k2))
    if policy.model == "k1_only":
        return rising
    dielectric = cable.dielectric
    if dielectric is None or dielectric.loss_tangent is None:
        return np.zeros_like(frequency_hz)
    own = dielectric_attenuation_db_per_m(
        frequency_hz, cable.velocity_ratio, dielectric.loss_tangent
    )
    return np.asarray(np.minimum(own, rising))


def metre_losses(
    prepared: PreparedCable, bands_hz: Sequence[Floats], policy: Policy
) -> list[MetreLoss]:
    """Return the loss per metre over each band with its spread and temperature corners.

    All bands are computed together, since one call costs nearly as much as many.
    """
    reference, cable = prepared.reference, prepared.cable
    frequency_hz = np.concatenate(bands_hz)
    nominal = loss_at_20(reference, frequency_hz)
    least, most = _least(prepared, nominal, frequency_hz), _most(prepared, nominal, frequency_hz)
    cold, hot = policy.temperature_c.known()
    unscaled = _unscaled(reference, cable, frequency_hz, policy)
    below, above = (
        _unscaled(law, cable, frequency_hz, policy) if law is not reference else unscaled
        for law in (prepared.sets.get(basis, reference) for basis in ("minimum", "maximum"))
    )
    least_cold = at_temperature_db_per_m(least, below, cold)
    most_hot = at_temperature_db_per_m(most, above, hot)
    columns = (nominal, least, most, least_cold, most_hot, unscaled)
    ends = np.cumsum([len(band) for band in bands_hz])[:-1]
    split = zip(*(np.split(column, ends) for column in columns), strict=True)
    return [_of_band(prepared, band, each) for band, each in zip(bands_hz, split, strict=True)]


def _of_band(
    prepared: PreparedCable, frequency_hz: Floats, columns: tuple[Floats, ...]
) -> MetreLoss:
    """One band's share of the columns, with what holds for it alone."""
    nominal, least, most, least_cold, most_hot, unscaled = columns
    reference = prepared.reference
    return MetreLoss(
        nominal=nominal,
        least_20=least,
        most_20=most,
        least_cold=least_cold,
        most_hot=most_hot,
        unscaled=unscaled,
        basis=reference.basis,
        source=reference.source,
        obtained=None if np.isnan(nominal).any() else _obtained(reference, frequency_hz),
        tolerance=_tolerance(prepared),
        only_maximum=reference.basis == "maximum" and "minimum" not in prepared.sets,
        only_minimum=reference.basis == "minimum",
    )


def _obtained(law: Law, frequency_hz: Floats) -> Obtained:
    if frequency_hz[-1] > law.high_hz or frequency_hz[0] < law.low_hz:
        return "extrapolated"
    return "table" if law.frequency_hz.size else "fit"


def _tolerance(prepared: PreparedCable) -> Tolerance:
    law = prepared.reference
    ends = own_ends(law.basis, prepared.sets)
    return Tolerance(law.tolerance_ratio, "", law.tolerance_stated, ends)


def _least(prepared: PreparedCable, nominal: Floats, frequency_hz: Floats) -> Floats:
    """The minimum where known, else the least of nominal less tolerance; a maximum gives zero."""
    reference = prepared.reference
    share = 0.0 if reference.basis == "maximum" else 1.0 - reference.tolerance_ratio
    least = nominal * share
    for rival in prepared.rivals:
        least = np.fmin(least, loss_at_20(rival, frequency_hz) * (1.0 - rival.tolerance_ratio))
    if "minimum" in prepared.sets and reference.basis != "minimum":
        law = prepared.sets["minimum"]
        known = loss_at_20(law, frequency_hz) * (1.0 - law.tolerance_ratio)
        least = np.where(np.isnan(known), least, np.fmin(nominal, known))
    return np.where(np.isnan(least), 0.0, least)


def _most(prepared: PreparedCable, nominal: Floats, frequency_hz: Floats) -> Floats:
    """The maximum where known, else the most of nominal and tolerance; a minimum gives no end."""
    reference = prepared.reference
    most = nominal * (1.0 + reference.tolerance_ratio)
    for rival in prepared.rivals:
        most = np.fmax(most, loss_at_20(rival, frequency_hz) * (1.0 + rival.tolerance_ratio))
    if reference.basis == "minimum":
        most = np.full_like(nominal, math.inf)
    if "maximum" in prepared.sets and reference.basis != "maximum":
        law = prepared.sets["maximum"]
        known = loss_at_20(law, frequency_hz) * (1.0 + law.tolerance_ratio)
        most = np.where(np.isnan(known), most, np.fmax(nominal, known))
    return np.where(np.isnan(most), math.inf, most)


def at_temperature_db_per_m(loss: Floats, unscaled: Floats, temperature_c: float) -> Floats:
    """Return the loss per metre at a temperature; what is not known stays so."""
    known = np.isfinite(loss)
    if known.all():
        own = np.minimum(unscaled, loss)
        return np.asarray(attenuation_at_temperature_db_per_m(loss, own, temperature_c))
    whole = np.where(known, loss, 0.0)
    warmed = attenuation_at_temperature_db_per_m(whole, np.minimum(unscaled, whole), temperature_c)
    return np.where(known, warmed, loss)
