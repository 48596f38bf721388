# SPDX-License-Identifier: Apache-2.0
"""RF402: power and sensitivity at the antenna end of the line, worked out by hand."""

from __future__ import annotations

import math
from dataclasses import replace
from typing import Any

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from rooms import findings
from sample import (
    refitted,
    sample_assessment,
    sample_catalog,
    sample_plan,
    sample_rulebook,
    with_entry,
    with_port,
    with_radio,
)

from rfplan.model.assessment import PathAssessment, Receive, Transmit
from rfplan.model.catalog import Catalog, LossSet
from rfplan.model.findings import Verdict
from rfplan.model.plan import Plan
from rfplan.model.record import ById
from rfplan.model.rulebook import RadioClass, Rulebook, SensitivityLimit
from rfplan.units import NONE, UNKNOWN, Range


def half_a_decibel() -> Catalog:
    """Return a catalogue in which a pair of plugs loses exactly 0.5 dB."""
    pair = ById({"nominal": LossSet(0.5, tolerance_db=0.0, source="sheet")})
    return with_entry(sample_catalog(), "connectors", "bnc", loss=pair)


def line(**changes: Any) -> Plan:
    """Return the sample with 1 mm of cable to the transponder: two pairs lose 1.0 dB."""
    there = {"length_m": 0.001, "retermination_m": None, "tolerance_m": None}
    plan = refitted(sample_plan(), "cables", "w31", **there)
    return with_port(plan, "xp1", "ant", **changes)


def path(plan: Plan, rulebook: Rulebook | None = None) -> PathAssessment:
    """Return the assessment of the transponder's path."""
    return next(
        p for p in sample_assessment(plan, half_a_decibel(), rulebook).paths if p.id == "xpdr1"
    )


def sent(watts: Range | float, rulebook: Rulebook | None = None, **changes: Any) -> Transmit:
    """Return the power of a transponder over the line of 1.0 dB."""
    power = watts if isinstance(watts, Range) else Range(watts, watts)
    found = path(line(power_w=power, **changes), rulebook).transmit
    assert found is not None
    return found


def heard(low: Any, high: Any) -> dict[str, Receive]:
    """Return the sensitivity of a transponder over the line of 1.0 dB."""
    plan = line(sensitivity_dbm=ById({"all": Range(low, high)}))
    return {one.name: one for one in path(plan).receive}


def watts(dbw: float) -> float:
    """Return a power."""
    return 10 ** (dbw / 10)


def test_the_power_at_the_antenna_is_that_of_the_unit_less_the_line() -> None:
    # 200 W = 23.01 dBW; 1 mm of cable adds 0.0006 dB
    one = sent(Range(200.0, 250.0))
    assert one.antenna_dbw == pytest.approx(10 * math.log10(200) - 1.0, abs=1e-3)
    assert one.antenna_w == pytest.approx(200 * 10**-0.1, rel=1e-3)
    assert one.antenna_most_w == pytest.approx(250 * 10**-0.1, rel=1e-3)
    assert one.min_dbw == pytest.approx(20.969, abs=1e-3)  # 125 W
    assert one.max_dbw == pytest.approx(26.990, abs=1e-3)  # 500 W
    assert one.verdict is Verdict.PASS


def class_of(low: float, high: float) -> Rulebook:
    """Return the rulebook with a class `high` of these powers, in watts."""
    classes = ById({"high": RadioClass(Range(low, high), "INVENTED")})
    return with_radio(sample_rulebook(), "transponder", classes=classes)


@pytest.mark.parametrize("limit_w", [125.0, watts(21.0)])
@pytest.mark.parametrize("antenna_w", [125.0, watts(21.0), watts(20.95)])
def test_either_printed_form_of_the_limit_passes(limit_w: float, antenna_w: float) -> None:
    # 125 W is 20.97 dBW, printed beside 21.0: both round to 21.0
    unit_w = antenna_w * 10**0.1 * 1.0002
    assert sent(unit_w, class_of(limit_w, 500.0)).verdict is Verdict.PASS


@pytest.mark.parametrize("limit_w", [125.0, watts(21.0)])
def test_a_tenth_of_a_decibel_below_the_limit_fails(limit_w: float) -> None:
    assert sent(watts(20.9 + 1.0), class_of(limit_w, 500.0)).verdict is Verdict.FAIL


def test_the_weakest_unit_decides_the_lower_limit_and_the_strongest_the_upper() -> None:
    assert sent(Range(140.0, 500.0)).verdict is Verdict.FAIL  # 21.46 - 1.0
    assert sent(Range(200.0, 700.0)).verdict is Verdict.FAIL  # 28.45 - 1.0 is above 26.99
    assert sent(Range(200.0, 620.0)).verdict is Verdict.PASS  # 27.92 - 1.0


def test_a_failing_power_fails_its_path_and_the_plan() -> None:
    plan = line(power_w=Range(120.0, 120.0))
    assert path(plan).overall is Verdict.FAIL
    assert sample_assessment(plan, half_a_decibel()).verdict is Verdict.FAIL


def test_the_ports_own_limits_come_before_those_of_its_class() -> None:
    own = {"antenna_power_w": Range(70.0, 500.0)}
    assert sent(100.0, **own).verdict is Verdict.PASS
    assert sent(100.0).verdict is Verdict.FAIL


def test_a_limit_of_which_the_document_states_none_is_no_limit() -> None:
    assert sent(1.0, antenna_power_w=Range(NONE, 500.0)).verdict is Verdict.PASS
    assert sent(900.0, antenna_power_w=Range(70.0, NONE)).verdict is Verdict.PASS


def two_classes() -> Rulebook:
    """Return the rulebook with the classes of the regulation."""
    high, low = (RadioClass(Range(watts(low), watts(27.0)), "INVENTED") for low in (21.0, 18.5))
    return with_radio(sample_rulebook(), "transponder", classes=ById({"high": high, "low": low}))


def test_without_a_class_only_what_holds_for_all_of_them_is_decided() -> None:
    assert sent(250.0, two_classes(), class_=None).verdict is Verdict.PASS
    assert sent(60.0, two_classes(), class_=None).verdict is Verdict.FAIL
    assert sent(120.0, two_classes(), class_=None).verdict is Verdict.INCOMPLETE
    assert sent(120.0, two_classes(), class_="low").verdict is Verdict.PASS


def test_a_line_of_unknown_length_cannot_lose_too_little_power() -> None:
    unknown = refitted(line(power_w=Range(200.0, 250.0)), "cables", "w31", length_m=UNKNOWN)
    one = path(unknown).transmit
    assert one is not None
    assert (one.antenna_dbw, one.verdict) == (None, Verdict.INCOMPLETE)
    over = path(
        refitted(line(power_w=Range(900.0, 900.0)), "cables", "w31", length_m=0.001)
    ).transmit
    assert over is not None and over.verdict is Verdict.FAIL


def test_pairs_that_the_window_leaves_out_still_take_power() -> None:
    one, other = sent(200.0, plugs="included"), sent(200.0, plugs="excluded")
    assert other.antenna_dbw == pytest.approx(one.antenna_dbw)


def test_a_radio_that_only_receives_sends_nothing_and_one_without_limits_is_not_judged() -> None:
    paths = {p.id: p for p in sample_assessment().paths}
    assert paths["gnss1"].transmit is None
    com = paths["com1"].transmit
    assert com is not None
    assert (com.unit_w, com.verdict, com.min_dbw) == (16.0, None, None)


def test_a_band_that_the_port_states_serves_both_directions() -> None:
    one = path(line(band_hz=Range(1025e6, 1095e6), power_w=Range(200.0, 200.0)))
    assert one.transmit is not None
    assert len(one.receive) == 2


# ----- sensitivity


def test_the_line_makes_the_receiver_less_sensitive() -> None:
    one = heard(-76.0, -74.0)["atcrbs"]
    assert one.least_dbm == pytest.approx(-75.0, abs=1e-3)
    assert one.most_dbm == pytest.approx(-73.0, abs=1e-3)
    assert (one.min_dbm, one.max_dbm) == (-77.0, -69.0)


@pytest.mark.parametrize(
    ("low", "high", "atcrbs", "mode_s"),
    [
        (-78.0, -72.0, "PASS", "PASS"),  # -77 .. -71 at the antenna: both ends met exactly
        (-78.2, -72.0, "FAIL", "FAIL"),  # too lively
        (-78.0, -71.8, "PASS", "FAIL"),  # too deaf for Mode S
        (-78.0, -69.8, "FAIL", "FAIL"),  # too deaf for both
        (-78.04, -71.97, "PASS", "PASS"),  # rounded to 0.1 dB
    ],
)
def test_sensitivity_is_limited_on_both_sides(
    low: float, high: float, atcrbs: str, mode_s: str
) -> None:
    found = heard(low, high)
    assert (found["atcrbs"].verdict, found["mode_s"].verdict) == (atcrbs, mode_s)


def test_each_mode_may_have_a_sensitivity_of_its_own() -> None:
    levels = ById({"atcrbs": Range(-76.0, -74.0), "mode_s": Range(-80.0, -74.0)})
    found = {one.name: one.verdict for one in path(line(sensitivity_dbm=levels)).receive}
    assert found == {"atcrbs": Verdict.PASS, "mode_s": Verdict.FAIL}
    only = ById({"mode_s": Range(-76.0, -74.0)})
    assert [one.name for one in path(line(sensitivity_dbm=only)).receive] == ["mode_s"]


def test_a_limit_with_one_side_has_one_side() -> None:
    limit = ById({"atcrbs": SensitivityLimit(Range(NONE, -69.0), "INVENTED")})
    rulebook = with_radio(sample_rulebook(), "transponder", sensitivity=limit)
    plan = line(sensitivity_dbm=ById({"all": Range(-99.0, -74.0)}))
    (one,) = path(plan, rulebook).receive
    assert one.verdict is Verdict.PASS


def test_over_a_line_of_unknown_length_too_deaf_cannot_be_excluded() -> None:
    plan = refitted(line(), "cables", "w31", length_m=UNKNOWN)
    assert {one.verdict for one in path(plan).receive} == {Verdict.INCOMPLETE}


def test_levels_that_are_known_and_levels_without_limits_are_fine() -> None:
    assert findings("RF402") == []
    com = with_port(sample_plan(), "nav1", "com", power_w=Range(UNKNOWN, UNKNOWN))
    assert findings("RF402", com) == []


@settings(max_examples=40, deadline=None)
@given(st.floats(50.0, 800.0), st.floats(0.0, 5.0), st.floats(0.001, 8.0))
def test_a_longer_line_never_raises_the_power_at_the_antenna(
    unit_w: float, more_m: float, length_m: float
) -> None:
    def at(length: float) -> Transmit:
        plan = refitted(line(power_w=Range(unit_w, unit_w)), "cables", "w31", length_m=length)
        found = path(plan).transmit
        assert found is not None
        return found

    short, long = at(length_m), at(length_m + more_m)
    assert short.antenna_dbw is not None and long.antenna_dbw is not None
    assert long.antenna_dbw <= short.antenna_dbw
    assert long.antenna_most_w is not None and short.antenna_most_w is not None
    assert long.antenna_most_w <= short.antenna_most_w
    assert replace(short, verdict=None).unit_w == unit_w
