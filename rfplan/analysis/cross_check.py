# SPDX-License-Identifier: Apache-2.0
"""Does the chain of every path lose the same by matrices and in an independent library?"""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from rfplan.analysis.facts import Facts
from rfplan.analysis.two_ports import chain_parts
from rfplan.physics.chain import chain_loss_db
from rfplan.physics.two_port import chain_abcd, cross_check_chain_db, insertion_loss_db


@dataclass(frozen=True, slots=True)
class CrossCheck:
    """How many chains were compared at how many frequencies, and the largest difference.

    The chain that decides joins neighbours of one impedance; its difference to the product of all
    matrices is added to that of the product to scikit-rf.
    """

    chains: int
    frequencies: int
    largest_db: float


def cross_check(facts: Facts) -> CrossCheck:
    """Return the largest difference of the chains of all paths from those of scikit-rf."""
    differences: list[float] = []
    frequencies = 0
    for id, chain in facts.chains.items():
        for budget in facts.budgets[id]:
            frequency_hz = budget.grid.frequency_hz
            parts = chain_parts(facts, chain, budget.grid, facts.book)
            if parts:
                by_matrix = insertion_loss_db(chain_abcd(frequency_hz, parts))
                own_db = float(np.max(np.abs(chain_loss_db(frequency_hz, parts) - by_matrix)))
                differences.append(own_db + cross_check_chain_db(frequency_hz, parts))
                frequencies += len(frequency_hz)
    return CrossCheck(len(differences), frequencies, max(differences, default=0.0))
