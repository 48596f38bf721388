# SPDX-License-Identifier: Apache-2.0
"""What are the two-ports of a path, at nominal loss and 20 degC?"""

from __future__ import annotations

import math

import numpy as np

from rfplan.analysis.element_loss import BandGrid, LossBook, item_loss
from rfplan.analysis.facts import Facts
from rfplan.analysis.signal_path import Chain, Element
from rfplan.physics.two_port import LineSection, LumpedLoss, Part


def chain_parts(facts: Facts, chain: Chain, grid: BandGrid, book: LossBook) -> list[Part]:
    """Return the two-ports of a chain; empty where some element is not known.

    A mated pair or part is a matched loss: what it reflects is inside its insertion loss, and
    at which phase nobody states.
    """
    parts = [_part(facts, element, grid, book) for element in chain.elements]
    return [part for part in parts if part is not None] if None not in parts else []


def _part(facts: Facts, element: Element, grid: BandGrid, book: LossBook) -> Part | None:
    run = element.run
    if run is None:
        loss = item_loss(element, grid, book).nominal
        if np.isnan(loss).any():
            return None
        return LumpedLoss(loss.item() if loss.size == 1 else loss)
    if run.type == "?" or not math.isfinite(run.length_m.nominal):
        return None
    cable = facts.catalog.cables[run.type]
    metre = book.metre_loss(run.type, grid).nominal
    if np.isnan(metre).any():
        return None
    ohm = cable.impedance_ohm.value
    return LineSection(metre, cable.velocity_ratio, ohm, run.length_m.nominal)
