# SPDX-License-Identifier: Apache-2.0
"""Measurements to records: does each agree with its prediction, and is it in the window?"""

from __future__ import annotations

from rfplan.analysis.facts import Facts
from rfplan.analysis.measured import (
    MeasuredExtent,
    PredictedReading,
    matches_data,
    measured_extents,
)
from rfplan.model.assessment import (
    BandLoss,
    Reading,
)
from rfplan.model.findings import Verdict, worst
from rfplan.rules.rf401_loss_window import TIE_DB, loss_range
from rfplan.units import UNKNOWN, Missing, Range

_MATCH = {True: "AGREES", False: "DIFFERS", None: None}


def reading(facts: Facts, id: str, one: PredictedReading, bands: tuple[BandLoss, ...]) -> Reading:
    """Return one measurement beside its prediction, judged."""
    allowed = facts.plan.policy.agree_db
    extents = () if one.stale else measured_extents(facts, id)
    agrees = None
    if one.difference_db is not None and not one.stale:
        agrees = "AGREES" if abs(one.difference_db) <= allowed + TIE_DB else "DIFFERS"
    return Reading(
        id=id,
        path=one.path,
        state=one.measurement.state,
        frequency_hz=one.measurement.at_hz,
        loss_db=one.measurement.loss_db,
        predicted_db=one.predicted_db,
        difference_db=one.difference_db,
        allowed_db=allowed,
        in_window=_in_window(facts, one, extents, bands),
        agreement=agrees,
        stale=one.stale,
        in_window_of="reading" if extents else "prediction",
        vswr=one.measurement.vswr,
        antenna_vswr=one.antenna_vswr,
        antenna_vswr_stated=facts.chains[one.path].antenna_type.vswr,
        match=_MATCH[matches_data(facts, one)],
    )


def _in_window(
    facts: Facts,
    reading: PredictedReading,
    extents: tuple[MeasuredExtent, ...],
    bands: tuple[BandLoss, ...],
) -> Verdict:
    """The reading carried to its corners against the window; without it the predicted verdict."""
    if not extents:
        return worst(band.verdict for band in bands)
    port = facts.chains[reading.path].port
    return worst(_measured_verdict(one, loss_range(port, one.band)) for one in extents)


def _measured_verdict(extent: MeasuredExtent, limit: Range) -> Verdict:
    if not isinstance(limit.high, Missing) and extent.most_db > limit.high + TIE_DB:
        return Verdict.FAIL_HIGH
    if not isinstance(limit.low, Missing) and extent.least_db < limit.low - TIE_DB:
        return Verdict.FAIL_LOW
    return Verdict.INCOMPLETE if UNKNOWN in (limit.low, limit.high) else Verdict.PASS
