# SPDX-License-Identifier: Apache-2.0
"""RF405: readings that, carried to the corners, break a limit."""

from __future__ import annotations

from dataclasses import replace
from typing import Any

import pytest
from rooms import findings
from sample import MHZ, sample_assessment, sample_facts, sample_plan, with_port

from rfplan.analysis.measured import measured_extents
from rfplan.model.findings import Verdict
from rfplan.model.plan import Measurement, Plan, State
from rfplan.model.record import ById
from rfplan.units import UNKNOWN, Range


def read(loss_db: float, low: Any = 0.5, high: Any = 4.0, **changes: Any) -> Plan:
    """Return the sample with a reading of the GNSS path at 20 degC, known to 0.1 dB."""
    reading = Measurement("gnss1", loss_db, State.DESIGN, 20.0, 0.1, at_hz=1575.42 * MHZ)
    plan = with_port(sample_plan(), "nav1", "gnss", loss_db=ById({"all": Range(low, high)}))
    return replace(plan, measurements=ById({"m1": replace(reading, **changes)}))


def test_a_reading_inside_the_window_is_fine() -> None:
    assert findings("RF405", read(1.7)) == []


def test_a_reading_above_the_window_fails_with_its_hot_corner() -> None:
    plan = read(3.9)
    (extent,) = measured_extents(sample_facts(plan), "m1")
    (one,) = findings("RF405", plan)
    assert one.objects == ("gnss1", "m1")
    assert one.value == pytest.approx(extent.most_db)
    assert one.value > 4.0
    assert (one.limit, one.unit, one.verdict) == (4.0, "dB", Verdict.FAIL)
    assert "invented sheet" in one.source


def test_a_reading_below_the_window_fails_with_its_cold_corner() -> None:
    (one,) = findings("RF405", read(0.6))
    assert one.value is not None and one.value < 0.5
    assert one.limit == 0.5


def test_a_failing_reading_fails_a_path_whose_prediction_passes() -> None:
    (path,) = [p for p in sample_assessment(read(3.9)).paths if p.id == "gnss1"]
    assert path.loss.verdict is Verdict.PASS
    assert path.readings[0].in_window is Verdict.FAIL_HIGH
    assert path.overall is Verdict.FAIL


@pytest.mark.parametrize(
    "changes", [{"temperature_c": None}, {"uncertainty_db": None}, {"bound": "00000000"}]
)
def test_a_reading_that_cannot_be_carried_or_is_stale_is_let_be(changes: dict[str, Any]) -> None:
    assert findings("RF405", read(9.9, **changes)) == []


def test_a_limit_that_is_not_known_is_not_broken() -> None:
    assert findings("RF405", read(9.9, UNKNOWN, UNKNOWN)) == []
