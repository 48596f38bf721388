# SPDX-License-Identifier: Apache-2.0
"""The loss of a path over frequency, in its bands and beside them, as it is judged."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np

from rfplan.analysis.element_loss import BandGrid, Floats, LossBook
from rfplan.analysis.facts import Facts
from rfplan.analysis.loss_budget import BandBudget, band_budget
from rfplan.model.assessment import BandLoss
from rfplan.rules.rf401_loss_window import judged_ends
from rfplan.rules.verdicts import band_loss

BESIDE_RATIO, LEAST_BESIDE_RATIO = 0.25, 0.10
"""How far a curve goes on beside its bands: of what they span, and of their frequency at least."""


@dataclass(frozen=True, slots=True)
class LossCurve:
    """Least and most loss at frequencies; `unknown` names what keeps an end from being known."""

    frequency_hz: Floats
    least_db: Floats
    most_db: Floats
    unknown: tuple[str, ...]


def span_hz(bands: Sequence[BandLoss]) -> tuple[float, float]:
    """Return from where to where a curve over some bands runs, never down to nothing."""
    low, high = min(band.low_hz for band in bands), max(band.high_hz for band in bands)
    beside = max(BESIDE_RATIO * (high - low), LEAST_BESIDE_RATIO * (low + high) / 2.0)
    return max(low - beside, low / 2.0), high + beside


def loss_curve(facts: Facts, id: str, frequency_hz: Floats) -> LossCurve:
    """Return the loss of a path at frequencies, at the datum of its limit.

    Frequencies that no table of a cable or part reaches are left out where others are known.
    """
    budget = _budget(facts, id, "", frequency_hz)
    known = np.isfinite(budget.judged_nominal)
    if known.any() and not known.all():
        budget = _budget(facts, id, "", frequency_hz[known])
    least_db, most_db = judged_ends(budget, facts.chains[id].port, facts.plan.policy)
    unknown = dict.fromkeys((*budget.unknown_least, *budget.unknown_most))
    return LossCurve(budget.grid.frequency_hz, least_db, most_db, tuple(unknown))


def loss_at(facts: Facts, id: str, band: str, frequency_hz: float) -> BandLoss:
    """Return one frequency of a band, judged as the band is."""
    budget = _budget(facts, id, band, np.array([frequency_hz]))
    return band_loss(facts, facts.chains[id], budget)


def _budget(facts: Facts, id: str, band: str, frequency_hz: Floats) -> BandBudget:
    book = LossBook(facts.catalog, facts.plan.policy)
    return band_budget(facts.chains[id], BandGrid(band, frequency_hz), book)
