# SPDX-License-Identifier: Apache-2.0
"""RF412: a VSWR read at the unit, carried to the antenna and held against its data."""

from __future__ import annotations

from dataclasses import replace
from typing import Any

import pytest
from rooms import findings
from sample import MHZ, sample_assessment, sample_catalog, sample_facts, sample_plan, with_entry

from rfplan.model.assessment import Reading
from rfplan.model.catalog import Catalog
from rfplan.model.findings import Finding, Verdict
from rfplan.model.plan import Measurement, Plan, State
from rfplan.model.record import ById
from rfplan.model.rulebook import Strictness

# A VSWR of 1.5 at the unit is 0.2 of the wave; 3.01 dB of line take the wave down to a half of its
# power each way, so that 0.4 of it came back from the antenna: a VSWR of 1.4 / 0.6 = 2.33.
THREE_DB = 3.0103


def read(vswr: float = 1.5, loss_db: float | None = THREE_DB, **changes: Any) -> Plan:
    """Return the sample with the VSWR of the GNSS path read at its unit."""
    reading = Measurement("gnss1", loss_db, State.DESIGN, at_hz=1575.42 * MHZ, vswr=vswr)
    return replace(sample_plan(), measurements=ById({"m1": replace(reading, **changes)}))


def antenna(vswr: float | None) -> Catalog:
    """Return the sample's catalogue with what the data of the GNSS antenna state."""
    return with_entry(sample_catalog(), "antennas", "gnss_active", vswr=vswr)


def found(plan: Plan, stated: float | None) -> list[Finding]:
    return findings("RF412", plan, antenna(stated))


def told(plan: Plan, stated: float | None = 2.0) -> Reading:
    path = next(p for p in sample_assessment(plan, antenna(stated)).paths if p.id == "gnss1")
    (one,) = path.readings
    return one


def test_an_antenna_that_reflects_more_than_its_data_state_is_told_with_both() -> None:
    (one,) = found(read(), 2.0)
    assert (one.objects, one.verdict) == (("gnss1", "m1"), Verdict.ADVICE)
    assert (one.value, one.limit, one.unit) == (2.33, 2.0, "")
    assert "is about {value}" in one.text  # the line's own reflections are in it too
    assert one.source == "invented sheet issue 1 (specification, invented)"
    assert told(read()).match == "DIFFERS"


@pytest.mark.parametrize("stated", [2.33, 2.5, None])
def test_an_antenna_within_its_data_or_without_any_is_let_be(stated: float | None) -> None:
    assert found(read(), stated) == []
    assert told(read(), stated).match == (None if stated is None else "AGREES")


def test_without_a_loss_of_its_own_the_line_counts_as_predicted() -> None:
    plan = read(loss_db=None)
    (reading,) = sample_facts(plan).readings.values()
    assert reading.predicted_db is not None
    through = 0.2 * 10 ** (reading.predicted_db / 10.0)
    assert reading.antenna_vswr == pytest.approx((1.0 + through) / (1.0 - through))
    assert (reading.difference_db, told(plan).agreement) == (None, None)


def test_nothing_is_said_where_the_line_hides_the_antenna() -> None:
    # 13.98 dB at the unit: with 6.49 dB of line less than 1 dB of it is the antenna
    assert told(read(loss_db=6.48)).antenna_vswr is not None
    hidden = read(loss_db=6.49)
    assert told(hidden).antenna_vswr is None
    assert found(hidden, 1.1) == []


def test_a_perfect_match_is_one_at_both_ends() -> None:
    assert told(read(vswr=1.0)).antenna_vswr == 1.0


def test_a_stale_reading_is_let_be() -> None:
    assert found(read(bound="00000000"), 2.0) == []
    assert told(read(bound="00000000")).match is None


@pytest.mark.parametrize("at_mhz", [1200.0, 1550.0, 1600.0])
def test_a_reading_beside_the_bands_of_its_path_is_let_be(at_mhz: float) -> None:
    aside = read(at_hz=at_mhz * MHZ)
    assert found(aside, 1.1) == []
    assert (told(aside, 1.1).match, told(aside, 1.1).antenna_vswr) == (
        None,
        told(read()).antenna_vswr,
    )


def test_a_shop_that_requires_agreement_gets_a_fail() -> None:
    plan = read()
    strict = replace(plan, policy=replace(plan.policy, agreement=Strictness.REQUIRED))
    assert [one.verdict for one in found(strict, 2.0)] == [Verdict.FAIL]


def test_a_vswr_never_changes_a_prediction() -> None:
    with_reading, without = (
        sample_assessment(plan, antenna(2.0)) for plan in (read(), sample_plan())
    )
    assert [p.bands for p in with_reading.paths] == [p.bands for p in without.paths]
