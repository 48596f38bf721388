# SPDX-License-Identifier: Apache-2.0
"""How does a path behave over frequency? Ripple, what the unit sees, what reaches the antenna."""

from __future__ import annotations

import numpy as np
from numpy.typing import NDArray

from rfplan.analysis.element_loss import BandGrid, LossBook
from rfplan.analysis.facts import Facts
from rfplan.analysis.loss_budget import BandBudget
from rfplan.analysis.receiver import line_loss_db
from rfplan.analysis.signal_path import Chain
from rfplan.analysis.two_ports import chain_parts
from rfplan.model.electrical import BandResponse, Response
from rfplan.physics.chain import (
    chain_loss_db,
    chain_waves,
    delivered_loss_db,
    reflection_at_input_ratio,
)
from rfplan.physics.mismatch import mismatch_bounds_db, reflection_ratio, vswr_from_reflection
from rfplan.physics.path_loss import power_after_loss_w
from rfplan.physics.two_port import LineSection, Part
from rfplan.units import Missing

Floats = NDArray[np.float64]

POINTS = 201
"""Frequencies of a band at which a response is looked at."""

PHASES = np.exp(2j * np.pi * np.arange(36) / 36)[:, None]
"""Phases of an antenna's reflection, which no data sheet tells."""


def response(facts: Facts, id: str, points: int = POINTS) -> Response | None:
    """Return a path over its bands as a two-port; None where some of it is not known."""
    chain, book = facts.chains[id], LossBook(facts.catalog, facts.plan.policy)
    bands: list[BandResponse] = []
    for budget in facts.budgets[id]:
        grid = finer(budget.grid, points)
        parts = chain_parts(facts, chain, grid, book)
        if not parts:
            return None
        sent_w = _least_w(chain) if _sends(facts, chain, grid.name) else None
        bands.append(_band(chain, budget, grid, (parts, sent_w)))
    return Response(tuple(bands))


def finer(grid: BandGrid, points: int) -> BandGrid:
    """Return a band with more frequencies; a single frequency stays alone."""
    first, last = grid.frequency_hz[0], grid.frequency_hz[-1]
    many = np.linspace(first, last, points) if last > first else grid.frequency_hz
    return BandGrid(grid.name, many)


def _sends(facts: Facts, chain: Chain, band: str) -> bool:
    radio = facts.rulebook.radios[chain.port.radio]
    if band in radio.bands and radio.bands[band].direction != "tx":
        return False
    return "tx" in chain.directions(radio)


def _band(
    chain: Chain, budget: BandBudget, grid: BandGrid, sent: tuple[list[Part], float | None]
) -> BandResponse:
    parts, unit_w = sent
    loss = np.asarray(chain_loss_db(grid.frequency_hz, parts))
    steps = loss - _sum_db(grid, parts)
    seen = _at_the_antenna(chain, grid, parts)
    delivered = _delivered_most_db(chain, budget) if unit_w is not None else None
    return BandResponse(
        name=grid.name,
        points=len(grid.frequency_hz),
        loss_db=_ends(loss),
        steps_db=_ends(np.maximum(steps, 0.0)),
        input_vswr=seen[0],
        delivered_db=seen[1],
        swing_db=seen[2],
        delivered_w=None
        if unit_w is None or delivered is None
        else float(power_after_loss_w(unit_w, delivered)),
    )


def _sum_db(grid: BandGrid, parts: list[Part]) -> Floats:
    """What the parts would lose if none of them reflected."""
    total = np.zeros_like(grid.frequency_hz)
    for part in parts:
        if isinstance(part, LineSection):
            total = total + part.attenuation_db_per_m * part.length_m
        else:
            total = total + part.insertion_loss_db
    return total


_Seen = tuple[tuple[float, float] | None, tuple[float, float] | None, float | None]


def _at_the_antenna(chain: Chain, grid: BandGrid, parts: list[Part]) -> _Seen:
    """Input VSWR, delivered loss and its swing over the band, whatever the antenna's phase.

    A unit that states no VSWR is taken as matched.
    """
    if chain.antenna_type.vswr is None:
        return None, None, None
    waves = chain_waves(grid.frequency_hz, parts)
    load = float(reflection_ratio(chain.antenna_type.vswr)) * PHASES
    unit = float(reflection_ratio(chain.port.vswr or 1.0))
    seen = np.asarray(vswr_from_reflection(np.abs(reflection_at_input_ratio(waves, load))))
    lost = np.asarray(delivered_loss_db(waves, unit, load))
    swing = float(np.max(lost.max(axis=1) - lost.min(axis=1)))
    return _ends(seen), _ends(lost), swing


def _least_w(chain: Chain) -> float | None:
    power = chain.port.power_w
    return None if power is None or isinstance(power.low, Missing) else power.low


def _delivered_most_db(chain: Chain, budget: BandBudget) -> float | None:
    """The most loss of the line with both reflections at their worst; None where not known."""
    most = line_loss_db(chain, budget)[1]
    if chain.antenna_type.vswr is None or not np.isfinite(most):
        return None
    ends = mismatch_bounds_db(chain.port.vswr or 1.0, chain.antenna_type.vswr, most)
    return float(ends.high_db)


def _ends(values: Floats) -> tuple[float, float]:
    return float(values.min()), float(values.max())
