# SPDX-License-Identifier: Apache-2.0
"""Does the chain of every path lose the same in an independent library?"""

from __future__ import annotations

import math
from dataclasses import dataclass

import numpy as np

from rfplan.analysis.facts import Facts
from rfplan.analysis.loss_budget import BandGrid, item_loss
from rfplan.analysis.signal_path import Chain
from rfplan.physics.two_port import LineSection, LumpedLoss, Part, cross_check_chain_db


@dataclass(frozen=True, slots=True)
class CrossCheck:
    """How many chains were compared at how many frequencies, and the largest difference."""

    chains: int
    frequencies: int
    largest_db: float


def cross_check(facts: Facts) -> CrossCheck:
    """Return the largest difference of the chains of all paths from those of scikit-rf."""
    differences: list[float] = []
    frequencies = 0
    for id, chain in facts.chains.items():
        for budget in facts.budgets[id]:
            parts = _parts(facts, chain, budget.grid)
            if parts:
                differences.append(cross_check_chain_db(budget.grid.frequency_hz, parts))
                frequencies += len(budget.grid.frequency_hz)
    return CrossCheck(len(differences), frequencies, max(differences, default=0.0))


def _parts(facts: Facts, chain: Chain, grid: BandGrid) -> list[Part]:
    """The two-ports of a chain; empty where some element is not known."""
    parts: list[Part] = []
    for element in chain.elements:
        run = element.run
        if run is None:
            loss = item_loss(element, grid, facts.book).nominal
            if np.isnan(loss).any():
                return []
            parts.append(LumpedLoss(np.broadcast_to(loss, grid.frequency_hz.shape)))
            continue
        if run.type == "?" or not math.isfinite(run.length_m.nominal):
            return []
        cable = facts.catalog.cables[run.type]
        metre = facts.book.metre_loss(run.type, grid).nominal
        if np.isnan(metre).any():
            return []
        impedance = cable.impedance_ohm.value
        parts.append(LineSection(metre, cable.velocity_ratio, impedance, run.length_m.nominal))
    return parts
