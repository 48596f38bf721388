# SPDX-License-Identifier: Apache-2.0
"""How much does a path lose over a band: nominal, corners, RSS, element by element?"""

from __future__ import annotations

import math
from collections.abc import Callable
from dataclasses import dataclass
from functools import reduce
from operator import add

import numpy as np

from rfplan.analysis.element_loss import (
    NO_LOSS,
    BandGrid,
    Floats,
    ItemLoss,
    LossBook,
    item_loss,
)
from rfplan.analysis.signal_path import Chain, Element
from rfplan.model.plan import Port
from rfplan.physics.mismatch import mismatch_bounds_db


@dataclass(frozen=True, slots=True)
class BandBudget:
    """Everything numerical about one path over one band; corners hold the datum of the limit."""

    grid: BandGrid
    items: tuple[ItemLoss, ...]
    nominal: Floats
    least: Floats
    most: Floats
    least_20: Floats
    most_20: Floats
    judged_nominal: Floats
    rss: tuple[Floats, Floats]
    mismatch_db: tuple[float, float] | None
    most_if_small: float
    least_if_large: float
    unknown_least: tuple[str, ...]
    unknown_most: tuple[str, ...]


def counts(element: Element, port: Port) -> bool:
    """Whether the datum of the port's limit counts an element: end pairs may be left out."""
    if element.end is None or port.plugs in (None, "included"):
        return True
    return port.plugs == f"at {element.end}"


def _total(
    items: tuple[ItemLoss, ...], which: Callable[[ItemLoss], Floats], grid: BandGrid
) -> Floats:
    """Add up over a band; what does not depend on frequency first, as numbers."""
    constant = 0.0
    varying: list[Floats] = []
    for loss in map(which, items):
        if loss.size == 1:
            constant += loss.item()
        else:
            varying.append(loss)
    if not varying:
        return np.full(grid.frequency_hz.shape, constant)
    return reduce(add, varying) + constant


def _rss(
    items: tuple[ItemLoss, ...], nominal: Floats, grid: BandGrid, *, room: bool
) -> tuple[Floats, Floats]:
    """Return least and most with the deviations of all elements added as root sum square.

    Cables age together and one way only: what is allowed for that is added whole.
    """
    below = _total(items, lambda i: (i.nominal - (i.least_20 if room else i.least)) ** 2, grid)
    above = _total(items, lambda i: (_fresh(i, room) - i.nominal) ** 2, grid)
    ageing = _total(items, lambda i: _most(i, room) - _fresh(i, room) if i.fresh else NO_LOSS, grid)
    return nominal - np.sqrt(below), nominal + np.sqrt(above) + ageing


def _most(item: ItemLoss, room: bool) -> Floats:
    return item.most_20 if room else item.most


def _fresh(item: ItemLoss, room: bool) -> Floats:
    return _most(item, room) if item.fresh is None else item.fresh[room]


def _mismatch(chain: Chain, least_db: float) -> tuple[float, float] | None:
    """Return the bounds of the loss that two reflections add, or None where one is not known."""
    vswr, other = chain.port.vswr, chain.antenna_type.vswr
    if vswr is None or other is None:
        return None
    low, high = mismatch_bounds_db(vswr, other, max(least_db, 0.0))
    return float(low) - least_db, float(high) - least_db


def _unknown_vswr(chain: Chain) -> str | None:
    """Name the VSWR that is missing where the datum of the limit asks for both."""
    if chain.port.terminations != "mismatched":
        return None
    if chain.port.vswr is None:
        return "port.vswr"
    return f"{chain.antenna_type.id}.vswr" if chain.antenna_type.vswr is None else None


def _with_mismatch(chain: Chain, matched_db: Floats) -> Floats:
    """Return the most loss with both reflections at their worst, where the datum counts them."""
    if chain.port.terminations != "mismatched":
        return matched_db
    vswr, other = chain.port.vswr, chain.antenna_type.vswr
    if vswr is None or other is None:
        return np.full_like(matched_db, math.inf)
    known = np.isfinite(matched_db)
    worst = mismatch_bounds_db(vswr, other, np.where(known, matched_db, 0.0)).high_db
    return np.where(known, worst, matched_db)


def band_budget(chain: Chain, grid: BandGrid, book: LossBook) -> BandBudget:
    """Return the loss of a chain over a band."""
    items = tuple(item_loss(element, grid, book) for element in chain.elements)
    return budget_of(chain, grid, items)


def budget_of(chain: Chain, grid: BandGrid, items: tuple[ItemLoss, ...]) -> BandBudget:
    """Return the loss of a chain whose elements lose what is given."""
    judged = tuple(
        item
        for element, item in zip(chain.elements, items, strict=True)
        if counts(element, chain.port)
    )
    nominal = _total(items, lambda item: item.nominal, grid)
    whole = len(judged) == len(items)
    judged_nominal = nominal if whole else _total(judged, lambda item: item.nominal, grid)
    least = _total(judged, lambda item: item.least, grid)
    most = _total(judged, lambda item: item.most, grid)
    rss = _rss(judged, judged_nominal, grid, room=chain.port.limit_at == "room")
    vswr = _unknown_vswr(chain)
    unknown_least = tuple(item.unknown_least for item in judged if item.unknown_least)
    unknown_most = tuple(item.unknown_most for item in judged if item.unknown_most)
    small = _total(judged, _most_if_small, grid) if unknown_most else most
    large = _total(judged, _least_if_large, grid) if unknown_least else least
    return BandBudget(
        grid=grid,
        items=items,
        nominal=nominal,
        least=least,
        most=_with_mismatch(chain, most),
        least_20=_total(judged, lambda item: item.least_20, grid),
        most_20=_with_mismatch(chain, _total(judged, lambda item: item.most_20, grid)),
        judged_nominal=judged_nominal,
        rss=(rss[0], _with_mismatch(chain, rss[1])),
        mismatch_db=_mismatch(chain, float(least.min())),
        most_if_small=float((small if vswr else _with_mismatch(chain, small)).max()),
        least_if_large=float(large.min()),
        unknown_least=unknown_least,
        unknown_most=(*unknown_most, vswr) if vswr else unknown_most,
    )


def _most_if_small(item: ItemLoss) -> Floats:
    """The most where all that is not known of it comes out small: no ageing, no loss at all."""
    if item.fresh is not None and np.isinf(item.most).any():
        return item.fresh[0]
    return item.least if item.unknown_most else item.most


def _least_if_large(item: ItemLoss) -> Floats:
    return item.most if item.unknown_least else item.least
