# SPDX-License-Identifier: Apache-2.0
"""What do readings say beside the prediction, and what becomes of them at the corners?"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from typing import TYPE_CHECKING

import numpy as np

from rfplan.analysis.antenna_match import antenna_vswr, reflects_more
from rfplan.analysis.binding import binding
from rfplan.analysis.element_loss import BandGrid, LossBook
from rfplan.analysis.loss_budget import BandBudget, counts
from rfplan.analysis.signal_path import Chain
from rfplan.model.plan import Measurement, Plan
from rfplan.model.record import ById
from rfplan.physics.constants import ROOM_TEMPERATURE_C

if TYPE_CHECKING:
    from rfplan.analysis.facts import Facts


@dataclass(frozen=True, slots=True)
class PredictedReading:
    """A reading with the prediction of its own frequency and temperature.

    `antenna_vswr` is what its VSWR makes of the antenna behind a matched line, None where the
    line hides it or its loss is neither read nor known.
    """

    path: str
    measurement: Measurement
    predicted_db: float | None
    difference_db: float | None
    stale: bool
    antenna_vswr: float | None = None


@dataclass(frozen=True, slots=True)
class MeasuredExtent:
    """A reading carried to the corners of the band it lies in."""

    band: str
    least_db: float
    most_db: float


def fingerprint(chain: Chain) -> str:
    """Return eight hex digits of everything the loss of a path depends on in the plan."""
    parts = [
        f"{element.kind} {element.id} {element.type} {element.plugs}"
        + (f" {element.run.length_m.nominal:.4f}" if element.run else "")
        for element in chain.elements
    ]
    return binding(*parts)


def readings(
    plan: Plan, chains: ById[Chain], book: LossBook
) -> Iterator[tuple[str, PredictedReading]]:
    """Yield the readings of the state looked at, each beside its prediction."""
    for id, measurement in plan.measurements.items():
        if measurement.state != plan.state or measurement.path not in chains:
            continue
        chain = chains[measurement.path]
        predicted = _predicted_db(chain, measurement, book)
        known = predicted if np.isfinite(predicted) else None
        read_db = measurement.loss_db
        yield (
            id,
            PredictedReading(
                path=measurement.path,
                measurement=measurement,
                predicted_db=known,
                difference_db=None if known is None or read_db is None else read_db - known,
                stale=measurement.bound not in (None, fingerprint(chain)),
                antenna_vswr=_at_antenna(measurement, known),
            ),
        )


def _at_antenna(measurement: Measurement, predicted_db: float | None) -> float | None:
    """The VSWR of a reading carried to the antenna, over the loss as read, else as predicted."""
    line_db = predicted_db if measurement.loss_db is None else measurement.loss_db
    if measurement.vswr is None or line_db is None:
        return None
    return antenna_vswr(measurement.vswr, max(line_db, 0.0))


def _predicted_db(chain: Chain, measurement: Measurement, book: LossBook) -> float:
    """The matched prediction at the frequency of a reading, at its temperature where it has one."""
    grid = BandGrid("reading", np.array([measurement.at_hz]))
    given_c = measurement.temperature_c
    temperature_c = ROOM_TEMPERATURE_C if given_c is None else given_c
    return float(book.at_temperature(chain, grid, temperature_c)[0])


def measured_extents(facts: Facts, id: str) -> tuple[MeasuredExtent, ...]:
    """Return a reading carried to the corners of each band it lies in; none where it cannot be."""
    reading = facts.readings[id]
    measurement = reading.measurement
    if None in (reading.difference_db, measurement.temperature_c, measurement.uncertainty_db):
        return ()
    return tuple(
        _carried(facts, reading, budget)
        for budget in facts.budgets[reading.path]
        if _holds(budget, measurement.at_hz) and not (budget.unknown_least or budget.unknown_most)
    )


def matches_data(facts: Facts, reading: PredictedReading) -> bool | None:
    """Return whether an antenna reflects no more than its data state, which speak of its bands.

    None where one of the two is not known, and beside the bands of the path.
    """
    stated, budgets = facts.chains[reading.path].antenna_type.vswr, facts.budgets[reading.path]
    in_band = any(_holds(budget, reading.measurement.at_hz) for budget in budgets)
    if reading.stale or reading.antenna_vswr is None or stated is None or not in_band:
        return None
    return not reflects_more(reading.antenna_vswr, stated)


def _carried(facts: Facts, reading: PredictedReading, budget: BandBudget) -> MeasuredExtent:
    """Add predicted differences to a reading, at the temperatures and plane of the limit."""
    chain = facts.chains[reading.path]
    room = chain.port.limit_at == "room"
    ends_c = (ROOM_TEMPERATURE_C,) * 2 if room else facts.plan.policy.temperature_c.known()
    cold, hot = (facts.book.at_temperature(chain, budget.grid, end_c) for end_c in ends_c)
    left_out = sum(
        item.nominal
        for element, item in zip(chain.elements, budget.items, strict=True)
        if not counts(element, chain.port)
    )
    shift = reading.difference_db or 0.0
    spread = reading.measurement.uncertainty_db or 0.0
    return MeasuredExtent(
        budget.grid.name,
        float((cold - left_out).min()) + shift - spread,
        float((hot - left_out).max()) + shift + spread,
    )


def _holds(budget: BandBudget, frequency_hz: float) -> bool:
    frequency = budget.grid.frequency_hz
    return bool(frequency[0] - 1.0 <= frequency_hz <= frequency[-1] + 1.0)
