# SPDX-License-Identifier: Apache-2.0
"""What would a path lose if one figure of it were measured and came out at an end of its spread?"""

from __future__ import annotations

import math
from collections.abc import Iterator
from dataclasses import dataclass, replace
from typing import Literal

import numpy as np
from numpy.typing import NDArray

from rfplan.analysis.cable_loss import MetreLoss
from rfplan.analysis.element_loss import BandGrid, ItemLoss, aged
from rfplan.analysis.facts import Facts
from rfplan.analysis.loss_budget import BandBudget, budget_of
from rfplan.analysis.signal_path import Chain, Element
from rfplan.model.assessment import CableRun

Floats = NDArray[np.float64]
End = Literal["least", "most"]

SETTLED_M = 0.002
"""A length known this well is not worth another tape."""


@dataclass(frozen=True, slots=True)
class Figure:
    """One figure that a measurement could settle: a field of a catalogue entry or of a cable."""

    object: str
    field: str


def figures(chain: Chain) -> tuple[Figure, ...]:
    """Return the figures that the loss of a path rests on, each once."""
    return tuple(dict.fromkeys(one for element in chain.elements for one in _figures(element)))


def _figures(element: Element) -> Iterator[Figure]:
    if element.type != "?":
        yield Figure(element.type, "loss")
    run = element.run
    if run is not None and _loose_m(run) > SETTLED_M:
        yield Figure(run.id, "length")


def _loose_m(run: CableRun) -> float:
    """How far a length is not known; what new plugs may take stays, however well it is measured."""
    return run.length_m.most - run.length_m.least - _spare_m(run)


def _spare_m(run: CableRun) -> float:
    return run.terms.retermination_m if run.terms else 0.0


def pinned(facts: Facts, chain: Chain, figure: Figure, end: End) -> tuple[BandBudget, ...]:
    """Return the loss of a path by band with one figure known, at one end of its spread."""
    return tuple(
        budget_of(chain, budget.grid, _items(facts, chain, budget, figure, end))
        for budget in facts.budgets[chain.id]
    )


def spread_db(facts: Facts, chain: Chain, figure: Figure) -> float:
    """Return how much of a path's spread goes when a figure is known, in its widest band."""
    widths = []
    for budget in facts.budgets[chain.id]:
        known = _items(facts, chain, budget, figure, "least")
        before = sum(float(item.most.max() - item.least.min()) for item in budget.items)
        after = sum(float(item.most.max() - item.least.min()) for item in known)
        widths.append(before - after if math.isfinite(before - after) else math.inf)
    return max(widths)


def _items(
    facts: Facts, chain: Chain, budget: BandBudget, figure: Figure, end: End
) -> tuple[ItemLoss, ...]:
    return tuple(
        _item(facts, element, item, budget.grid, figure, end)
        for element, item in zip(chain.elements, budget.items, strict=True)
    )


def _item(
    facts: Facts, element: Element, item: ItemLoss, grid: BandGrid, figure: Figure, end: End
) -> ItemLoss:
    run = element.run
    if run is not None and run.type != "?":
        metre = facts.book.metre_loss(run.type, grid)
        if figure == Figure(run.id, "length"):
            return _of_length(item, metre, run, end)
        if figure == Figure(run.type, "loss"):
            return _of_cable(item, metre, run, end)
    elif run is None and figure == Figure(element.type, "loss"):
        known = item.least_20 if end == "least" else item.most_20
        return replace(item, least=known, most=known, least_20=known, most_20=known)
    return item


def _of_length(item: ItemLoss, metre: MetreLoss, run: CableRun, end: End) -> ItemLoss:
    """A cable whose length is known but for the allowance that new plugs use up."""
    least_m, most_m = run.length_m.least, run.length_m.most
    if end == "least":
        most_m = least_m + _spare_m(run)
    else:
        least_m = most_m - _spare_m(run)
    known = replace(
        item,
        least=metre.least_cold * least_m,
        most=metre.most_hot * most_m,
        least_20=metre.least_20 * least_m,
        most_20=metre.most_20 * most_m,
        fresh=None,
    )
    return aged(known, run)


def _of_cable(item: ItemLoss, metre: MetreLoss, run: CableRun, end: End) -> ItemLoss:
    """A cable whose loss per metre is known; temperature still moves it by the same share."""
    least_m, most_m = run.length_m.least, run.length_m.most
    if end == "least":
        share = _share(metre.least_20, metre.most_20)
        most, most_20 = metre.most_hot * share * most_m, metre.least_20 * most_m
        return aged(replace(item, most=most, most_20=most_20, fresh=None), run)
    share = _share(metre.most_20, metre.least_20)
    return replace(item, least=metre.least_cold * share * least_m, least_20=metre.most_20 * least_m)


def _share(one: Floats, other: Floats) -> Floats:
    """One loss over another; one where either is not known, which leaves it as it is."""
    known = np.isfinite(one) & np.isfinite(other) & (other > 0.0)
    return np.where(known, one, 1.0) / np.where(known, other, 1.0)
