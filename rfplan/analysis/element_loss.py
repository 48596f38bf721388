# SPDX-License-Identifier: Apache-2.0
"""How much does one element of a path lose over a band, and by which figures?"""

from __future__ import annotations

import math
from collections.abc import Iterable
from dataclasses import dataclass, replace
from functools import lru_cache

import numpy as np
from numpy.typing import NDArray

from rfplan.analysis.cable_loss import (
    MetreLoss,
    PreparedCable,
    at_temperature_db_per_m,
    metre_losses,
    own_ends,
    prepare,
    spread_ratio,
)
from rfplan.analysis.kept import kept
from rfplan.analysis.signal_path import Chain, Element
from rfplan.model.assessment import CableRun
from rfplan.model.catalog import Catalog, LossSet
from rfplan.model.loss_figure import Obtained, Tolerance
from rfplan.model.plan import Policy, Port
from rfplan.model.record import ById
from rfplan.model.rulebook import Radio
from rfplan.model.source import UNSOURCED, Source
from rfplan.physics.path_loss import ageing_allowance_db

Floats = NDArray[np.float64]


POINTS = 21
"""Frequencies of a band at which its corners are looked for, both edges among them."""


@dataclass(frozen=True, slots=True)
class BandGrid:
    """A band of one path with its frequencies."""

    name: str
    frequency_hz: Floats

    @property
    def band(self) -> tuple[float, float, int]:
        """The ends of the band and how many frequencies it has: what tells grids apart."""
        return float(self.frequency_hz[0]), float(self.frequency_hz[-1]), len(self.frequency_hz)

    @property
    def mid(self) -> int:
        """The index of the middle of the band."""
        return len(self.frequency_hz) // 2


@dataclass(frozen=True, slots=True)
class ItemLoss:
    """The loss of one element over a band; scalars broadcast.

    `most` and `most_20` hold what it may age by; `fresh` are the two without it, where they differ.
    """

    nominal: Floats
    least: Floats
    most: Floats
    least_20: Floats
    most_20: Floats
    basis: str | None
    obtained: Obtained | None
    source: Source
    unknown_least: str | None = None
    unknown_most: str | None = None
    tolerance: Tolerance | None = None
    db_per_m: Floats | None = None
    fresh: tuple[Floats, Floats] | None = None

    @property
    def extrapolated(self) -> bool:
        """Whether some frequency lies beyond the end of a table or fit."""
        return self.obtained == "extrapolated"

    @property
    def ageing(self) -> Floats:
        """What the most holds for ageing; infinite where that is not known."""
        return NO_LOSS if self.fresh is None else self.most - self.fresh[0]


Band = tuple[float, float, int]


ANY_BAND: Band = (0.0, 0.0, 0)


class LossBook:
    """Metre losses of cables by a catalogue and a policy, each computed once per band."""

    def __init__(self, catalog: Catalog, policy: Policy) -> None:
        self._catalog, self._policy = catalog, policy
        self._prepared: dict[str, PreparedCable] = {}
        self._metre: dict[tuple[str, Band], MetreLoss] = {}
        self._inserted: dict[tuple[str, ById[LossSet], Band], ItemLoss] = {}

    def prepared(self, type: str) -> PreparedCable:
        """Return a cable with its fits."""
        if type not in self._prepared:
            self._prepared[type] = prepare(self._catalog.cables[type])
        return self._prepared[type]

    def metre_loss(self, type: str, grid: BandGrid) -> MetreLoss:
        """Return the loss per metre of a cable over a band."""
        if (type, grid.band) not in self._metre:
            self.look_up(type, [grid])
        return self._metre[type, grid.band]

    def look_up(self, type: str, grids: Iterable[BandGrid]) -> None:
        """Compute the loss per metre of a cable over the bands not yet known, all together."""
        asked = {grid.band: grid.frequency_hz for grid in grids}
        bands = {band: each for band, each in asked.items() if (type, band) not in self._metre}
        if not bands:
            return
        losses = metre_losses(self.prepared(type), list(bands.values()), self._policy)
        self._metre.update(zip(((type, band) for band in bands), losses, strict=True))

    def inserted(self, element: Element, grid: BandGrid) -> ItemLoss:
        """Return the loss of a pair or part over a band; one figure is the same in all bands."""
        by_table = any(losses.points for losses in element.losses.values())
        key = (element.type, element.losses, grid.band if by_table else ANY_BAND)
        if key not in self._inserted:
            self._inserted[key] = _inserted(element, grid)
        return self._inserted[key]

    def at_temperature(self, chain: Chain, grid: BandGrid, temperature_c: float) -> Floats:
        """Return the nominal loss of a chain over a band at one temperature."""
        total = np.zeros_like(grid.frequency_hz)
        for element in chain.elements:
            if element.run is None or element.run.type == "?":
                item = item_loss(element, grid, self)
                total = total + item.nominal
                continue
            metre = self.metre_loss(element.run.type, grid)
            warmed = at_temperature_db_per_m(metre.nominal, metre.unscaled, temperature_c)
            total = total + warmed * element.run.length_m.nominal
        return np.asarray(total)


@kept
def loss_book(catalog: Catalog, policy: Policy) -> LossBook:
    """Return the book of a catalogue and a policy, which no edit of a plan changes."""
    return LossBook(catalog, policy)


def band_grids(port: Port, radio: Radio) -> tuple[BandGrid, ...]:
    """Return the bands of a port: its own where stated, else those of its radio."""
    if port.band_hz is not None:
        return (BandGrid("stated", _frequencies(*port.band_hz.known())),)
    return tuple(
        BandGrid(name, _frequencies(band.low_hz, band.high_hz))
        for name, band in radio.bands.items()
    )


@lru_cache(maxsize=1000)
def _frequencies(low_hz: float, high_hz: float) -> Floats:
    """The frequencies of a band; kept, since every assessment asks for the same ones."""
    points = np.linspace(low_hz, high_hz, POINTS) if high_hz > low_hz else np.array([low_hz])
    points.flags.writeable = False
    return points


NO_LOSS = np.zeros(1)


_UNKNOWN = np.array([math.nan])


_UNBOUNDED = np.array([math.inf])


def _set_loss(losses: LossSet, frequency_hz: Floats) -> Floats:
    """Return an insertion loss over a band; NaN further than twice beyond its table."""
    if losses.loss_db is not None:
        return np.array([losses.loss_db])
    at = np.array([point.frequency_hz for point in losses.points])
    loss = np.array([point.loss_db for point in losses.points])
    log = bool((loss > 0.0).all())
    between = np.interp(np.log(frequency_hz), np.log(at), np.log(loss) if log else loss)
    reached = (frequency_hz >= at[0] / 2.0) & (frequency_hz <= at[-1] * 2.0)
    return np.where(reached, np.exp(between) if log else between, math.nan)


def _obtained(losses: LossSet, frequency_hz: Floats) -> Obtained:
    if not losses.points:
        return "stated"
    low, high = losses.points[0].frequency_hz, losses.points[-1].frequency_hz
    return "extrapolated" if frequency_hz[0] < low or frequency_hz[-1] > high else "table"


def _anything(what: str) -> ItemLoss:
    """The loss of something unknown: from nothing to no end."""
    return ItemLoss(
        _UNKNOWN, NO_LOSS, _UNBOUNDED, NO_LOSS, _UNBOUNDED, None, None, UNSOURCED, what, what
    )


def _inserted(element: Element, grid: BandGrid) -> ItemLoss:
    """The loss of a pair or part: a maximum alone puts nothing into the least."""
    sets, frequency = element.losses, grid.frequency_hz
    name = next((n for n in ("nominal", "estimate", "maximum", "minimum") if n in sets), None)
    if name is None:
        return _anything("port.plug" if element.type == "?" else f"{element.type}.loss")
    chosen = sets[name]
    source = element.sources.get(chosen.source or "", UNSOURCED)
    nominal, spread = _toleranced(name, element, frequency)
    least = NO_LOSS if name == "maximum" else np.maximum(nominal - spread, 0.0)
    most = _UNBOUNDED if name == "minimum" else nominal + spread
    if "minimum" in sets and name != "minimum":
        known, spread = _toleranced("minimum", element, frequency)
        least = np.where(np.isnan(known), least, np.fmin(nominal, known - spread))
    if "maximum" in sets and name != "maximum":
        known, spread = _toleranced("maximum", element, frequency)
        most = np.where(np.isnan(known), most, np.fmax(nominal, known + spread))
    least, most = np.where(np.isnan(least), 0.0, least), np.where(np.isnan(most), math.inf, most)
    gap = f"{element.type}.loss" if np.isnan(nominal).any() else None
    endless = gap or (f"{element.type}.loss" if np.isinf(most).any() else None)
    obtained, tolerance = _obtained(chosen, frequency), _tolerance(name, sets, source)
    ends = least, most
    return ItemLoss(nominal, *ends, *ends, name, obtained, source, gap, endless, tolerance)


def _tolerance(basis: str, sets: ById[LossSet], source: Source) -> Tolerance:
    """The tolerance of the set that gives the nominal loss."""
    own_db, ends = sets[basis].tolerance_db, own_ends(basis, sets)
    if own_db is not None:
        return Tolerance(own_db, "dB", stated=True, ends=ends)
    return Tolerance(spread_ratio(basis, source), "", stated=False, ends=ends)


def _toleranced(basis: str, element: Element, frequency_hz: Floats) -> tuple[Floats, Floats]:
    """Return a loss set over a band with its tolerance: as stated, else as its source is worth."""
    losses = element.losses[basis]
    value = _set_loss(losses, frequency_hz)
    if losses.tolerance_db is not None:
        return value, np.array([losses.tolerance_db])
    source = element.sources.get(losses.source or "", UNSOURCED)
    return value, value * spread_ratio(basis, source)


def _run_loss(element: Element, grid: BandGrid, book: LossBook) -> ItemLoss:
    """The loss of a cable: metre loss times its electrical length, each at its own end."""
    run = element.run
    assert run is not None
    length = run.length_m
    if run.type == "?":
        what = f"{run.id}.type"
        return _anything(what)
    metre = book.metre_loss(run.type, grid)
    beyond = f"{run.type}.attenuation" if metre.out_of_reach else None
    missing = f"{run.id}.{run.unknown[0]}" if run.unknown else beyond
    floorless = f"{run.type}.attenuation" if metre.only_maximum else None
    endless = f"{run.type}.attenuation" if metre.only_minimum else None
    new = ItemLoss(
        nominal=metre.nominal * length.nominal,
        least=metre.least_cold * length.least,
        most=metre.most_hot * length.most,
        least_20=metre.least_20 * length.least,
        most_20=metre.most_20 * length.most,
        basis=metre.basis,
        obtained=metre.obtained,
        source=metre.source,
        unknown_least=missing or floorless,
        unknown_most=missing or endless,
        tolerance=metre.tolerance,
        db_per_m=metre.nominal,
    )
    return aged(new, run)


def aged(new: ItemLoss, run: CableRun) -> ItemLoss:
    """Return the loss of a cable with what it may age by on its most; unknown has no end."""
    ratio, fresh = run.ageing_ratio, (new.most, new.most_20)
    if ratio == 0.0 or not np.isfinite(fresh).all():
        return new
    if ratio is None:
        what = f"{run.id}.ageing"
        return replace(new, most=_UNBOUNDED, most_20=_UNBOUNDED, fresh=fresh, unknown_most=what)
    most, most_20 = (np.asarray(one + ageing_allowance_db(one, ratio)) for one in fresh)
    return replace(new, most=most, most_20=most_20, fresh=fresh)


def item_loss(element: Element, grid: BandGrid, book: LossBook) -> ItemLoss:
    """Return the loss of one element over a band."""
    return book.inserted(element, grid) if element.run is None else _run_loss(element, grid, book)
