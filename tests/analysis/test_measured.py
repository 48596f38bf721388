# SPDX-License-Identifier: Apache-2.0
"""Readings beside predictions, and readings carried to the corners of a band."""

from __future__ import annotations

import math
from dataclasses import replace
from typing import Any

import pytest
from sample import (
    MHZ,
    refitted,
    sample_assessment,
    sample_catalog,
    sample_facts,
    sample_plan,
    with_entry,
    with_port,
)

from rfplan.analysis.facts import Facts
from rfplan.analysis.measured import MeasuredExtent, fingerprint, measured_extents
from rfplan.model.assessment import Reading
from rfplan.model.catalog import AttenuationPoint, AttenuationSet, Catalog
from rfplan.model.findings import Verdict
from rfplan.model.plan import Measurement, Plan, State
from rfplan.model.record import ById
from rfplan.units import NONE, UNKNOWN, Range

HOT = math.sqrt(1 + 0.00393 * 50)
COLD = math.sqrt(1 - 0.00393 * 75)


def catalog(basis: str = "nominal") -> Catalog:
    """Return a catalogue whose cable loses 0.8 dB/m at 1600 MHz and 0.2 at 100, all conductor."""
    points = tuple(AttenuationPoint(f * MHZ, 0.02 * math.sqrt(f)) for f in (100, 400, 1600))
    sets = ById({basis: AttenuationSet(points=points, tolerance_ratio=0.05, source="sheet")})
    return with_entry(sample_catalog(), "cables", "coax_5mm", attenuation=sets, dielectric=None)


def measured(loss_db: float = 2.0, **changes: Any) -> Plan:
    """Return the sample with 2 m of cable to the GNSS antenna and one reading of it, at 20 degC.

    The prediction at 1600 MHz is 2 x 0.8 + 2 x 0.08 = 1.76 dB.
    """
    plan = refitted(sample_plan(), "cables", "w11", length_m=2.0, retermination_m=None)
    plan = refitted(plan, "cables", "w11", tolerance_m=None)
    plan = with_port(plan, "nav1", "gnss", band_hz=Range(1600 * MHZ, 1600 * MHZ))
    reading = Measurement(
        path="gnss1",
        loss_db=loss_db,
        at_hz=1600 * MHZ,
        state=State.DESIGN,
        temperature_c=20.0,
        uncertainty_db=0.1,
        who="P. One",
    )
    return replace(plan, measurements=ById({"m1": replace(reading, **changes)}))


def facts(plan: Plan) -> Facts:
    """Return the facts of a plan with the flat cable."""
    return sample_facts(plan, catalog())


def reading(plan: Plan) -> Reading:
    """Return the one reading of an assessment."""
    path = next(p for p in sample_assessment(plan, catalog()).paths if p.id == "gnss1")
    (one,) = path.readings
    return one


def extent(plan: Plan) -> MeasuredExtent:
    """Return the reading carried to the corners of its one band."""
    (one,) = measured_extents(facts(plan), "m1")
    return one


def test_a_reading_stands_beside_the_prediction_of_its_frequency() -> None:
    one = facts(measured()).readings["m1"]
    assert one.predicted_db == pytest.approx(1.76)
    assert one.difference_db == pytest.approx(0.24)


def test_the_prediction_is_that_of_the_temperature_of_the_reading() -> None:
    one = facts(measured(temperature_c=70.0)).readings["m1"]
    assert one.predicted_db == pytest.approx(1.6 * HOT + 0.16)


def test_the_prediction_is_that_of_the_frequency_of_the_reading_wherever_its_bands_are() -> None:
    # 0.4 dB/m at 400 MHz
    one = facts(measured(at_hz=400 * MHZ)).readings["m1"]
    assert one.predicted_db == pytest.approx(0.8 + 0.16)


def test_a_reading_never_changes_a_prediction() -> None:
    with_reading = sample_assessment(measured(9.9), catalog())
    without = sample_assessment(replace(measured(), measurements=ById()), catalog())
    assert [p.bands for p in with_reading.paths] == [p.bands for p in without.paths]


def test_a_reading_out_of_reach_of_the_table_has_no_prediction_and_no_agreement() -> None:
    plan = measured(at_hz=5000 * MHZ)
    assert facts(plan).readings["m1"].predicted_db is None
    assert reading(plan).agreement is None
    assert measured_extents(facts(plan), "m1") == ()


def test_only_readings_of_the_state_looked_at_are_seen() -> None:
    assert dict(facts(measured(state=State.BUILT)).readings) == {}


def test_a_reading_agrees_up_to_the_allowance_and_differs_beyond_it() -> None:
    # the plan allows 0.5 dB; equality agrees
    assert reading(measured(1.76 + 0.5)).agreement == "AGREES"
    assert reading(measured(1.76 - 0.5)).agreement == "AGREES"
    assert reading(measured(1.76 + 0.51)).agreement == "DIFFERS"
    assert reading(measured(1.76 - 0.51)).agreement == "DIFFERS"


# ----- bound to what was measured


def test_a_reading_is_stale_once_the_path_is_another() -> None:
    bound = fingerprint(facts(measured()).chains["gnss1"])
    assert not facts(measured(bound=bound)).readings["m1"].stale
    for section, id, change in (
        ("cables", "w11", {"length_m": 2.001}),
        ("cables", "w11", {"type": "coax_3mm"}),
        ("cables", "w11", {"plugs": ("bnc", "tnc")}),
    ):
        changed = refitted(measured(bound=bound), section, id, **change)
        assert facts(changed).readings["m1"].stale


def test_a_stale_reading_counts_for_nothing() -> None:
    one = reading(measured(9.9, bound="00000000"))
    assert one.stale
    assert one.agreement is None
    assert one.in_window is Verdict.PASS  # that of the prediction


def test_what_does_not_touch_the_loss_leaves_a_reading_as_it_is() -> None:
    bound = fingerprint(facts(measured()).chains["gnss1"])
    for section, id, change in (
        ("antennas", "com1", {"title": "another title"}),
        ("cables", "w21", {"length_m": 3.0}),
    ):
        assert (
            not facts(refitted(measured(bound=bound), section, id, **change)).readings["m1"].stale
        )


# ----- carried to the corners


def test_a_reading_reaches_the_corners_by_predicted_differences_and_its_uncertainty() -> None:
    # predicted 1.6 HOT + 0.16 hot, 1.6 COLD + 0.16 cold; the reading is 0.24 above, +- 0.1
    one = extent(measured())
    assert one.most_db == pytest.approx(1.6 * HOT + 0.16 + 0.24 + 0.1)
    assert one.least_db == pytest.approx(1.6 * COLD + 0.16 + 0.24 - 0.1)


def test_a_reading_reaches_the_edges_of_the_band_it_lies_in() -> None:
    plan = with_port(
        measured(), "nav1", "gnss", band_hz=Range(400 * MHZ, 1600 * MHZ), limit_at="room"
    )
    one = extent(plan)
    assert one.most_db == pytest.approx(1.76 + 0.24 + 0.1)
    assert one.least_db == pytest.approx(0.96 + 0.24 - 0.1)


def test_a_limit_at_room_temperature_is_not_carried_to_heat_and_cold() -> None:
    one = extent(with_port(measured(), "nav1", "gnss", limit_at="room"))
    assert (one.least_db, one.most_db) == (pytest.approx(1.9), pytest.approx(2.1))


def test_pairs_that_the_limit_leaves_out_are_taken_off_the_reading() -> None:
    plan = with_port(measured(), "nav1", "gnss", limit_at="room", plugs="excluded")
    one = extent(plan)
    assert one.most_db == pytest.approx(2.1 - 0.16)


@pytest.mark.parametrize("lacking", ["temperature_c", "uncertainty_db"])
def test_without_temperature_or_uncertainty_the_window_keeps_the_prediction(lacking: str) -> None:
    plan = measured(9.9, **{lacking: None})
    assert measured_extents(facts(plan), "m1") == ()
    one = reading(plan)
    assert one.in_window is Verdict.PASS
    assert one.agreement == "DIFFERS"  # the column is filled all the same


def test_a_reading_outside_every_band_is_not_carried() -> None:
    assert measured_extents(facts(measured(at_hz=400 * MHZ)), "m1") == ()


def test_a_path_with_something_unknown_carries_no_reading() -> None:
    plan = refitted(measured(), "cables", "w11", length_m=UNKNOWN)
    assert measured_extents(facts(plan), "m1") == ()


def test_a_reading_serves_every_band_in_which_its_frequency_lies() -> None:
    plan = measured(path="com1", at_hz=127 * MHZ, loss_db=0.8)
    assert [one.band for one in measured_extents(facts(plan), "m1")] == ["rx", "tx"]


@pytest.mark.parametrize(
    ("low", "high", "word"),
    [
        (1.0, 3.0, Verdict.PASS),
        (NONE, 2.2, Verdict.FAIL_HIGH),
        (1.7, NONE, Verdict.FAIL_LOW),
        (1.7, 2.2, Verdict.FAIL_HIGH),
        (UNKNOWN, 3.0, Verdict.INCOMPLETE),
        (UNKNOWN, 2.2, Verdict.FAIL_HIGH),
        (NONE, NONE, Verdict.PASS),
    ],
)
def test_a_carried_reading_is_judged_by_the_window(low: Any, high: Any, word: Verdict) -> None:
    # it reaches from 1.6 COLD + 0.3 = 1.644 to 1.6 HOT + 0.5 = 2.250
    plan = with_port(measured(), "nav1", "gnss", loss_db=ById({"all": Range(low, high)}))
    assert reading(plan).in_window is word


def test_a_limit_that_a_carried_reading_meets_exactly_is_met() -> None:
    one = extent(measured())
    window = Range(one.least_db + 5e-10, one.most_db - 5e-10)
    plan = with_port(measured(), "nav1", "gnss", loss_db=ById({"all": window}))
    assert reading(plan).in_window is Verdict.PASS
