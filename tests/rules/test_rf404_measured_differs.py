# SPDX-License-Identifier: Apache-2.0
"""RF404: readings that do not agree with their predictions."""

from __future__ import annotations

from dataclasses import replace
from typing import Any

import pytest
from rooms import findings
from sample import MHZ, sample_facts, sample_plan

from rfplan.analysis.measured import fingerprint
from rfplan.model.findings import Verdict
from rfplan.model.plan import Measurement, Plan, State
from rfplan.model.record import ById
from rfplan.model.rulebook import Strictness


def off_by(difference_db: float, **changes: Any) -> Plan:
    """Return the sample with a reading of the GNSS path this far from its prediction."""
    reading = Measurement("gnss1", 0.0, State.DESIGN, at_hz=1575.42 * MHZ)
    plan = replace(sample_plan(), measurements=ById({"m1": reading}))
    predicted_db = sample_facts(plan).readings["m1"].predicted_db
    assert predicted_db is not None
    reading = replace(reading, loss_db=predicted_db + difference_db, **changes)
    return replace(plan, measurements=ById({"m1": reading}))


@pytest.mark.parametrize("difference_db", [0.0, 0.5, -0.5])
def test_a_reading_within_the_allowance_is_fine(difference_db: float) -> None:
    assert findings("RF404", off_by(difference_db)) == []


@pytest.mark.parametrize("difference_db", [0.51, -0.51])
def test_a_reading_further_off_is_told_with_the_difference(difference_db: float) -> None:
    (one,) = findings("RF404", off_by(difference_db))
    assert one.objects == ("gnss1", "m1")
    assert one.value == pytest.approx(0.51)
    assert (one.limit, one.unit, one.verdict) == (0.5, "dB", Verdict.ADVICE)
    assert one.paths == ("gnss1",)


def test_a_reading_that_is_bound_to_no_cable_says_which_one_it_is_compared_with() -> None:
    (one,) = findings("RF404", off_by(1.0))
    assert one.text.endswith(
        "; it is bound to no cable, and may be of another one than w11 of coax_5mm"
    )
    bound = fingerprint(sample_facts(sample_plan()).chains["gnss1"])
    (one,) = findings("RF404", off_by(1.0, bound=bound))
    assert one.text.endswith("allowed {limit}")


def test_a_shop_that_requires_agreement_gets_a_fail() -> None:
    plan = off_by(1.0)
    strict = replace(plan, policy=replace(plan.policy, agreement=Strictness.REQUIRED))
    assert [one.verdict for one in findings("RF404", strict)] == [Verdict.FAIL]


def test_a_stale_reading_is_let_be() -> None:
    assert findings("RF404", off_by(1.0, bound="00000000")) == []


def test_two_readings_of_one_path_are_two_findings() -> None:
    plan = off_by(1.0)
    both = plan.measurements.having("m2", plan.measurements["m1"])
    assert len(findings("RF404", replace(plan, measurements=both))) == 2
