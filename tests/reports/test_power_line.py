# SPDX-License-Identifier: Apache-2.0
"""The level that decides a path, in words with the limit that it does not meet."""

from __future__ import annotations

from dataclasses import replace

import pytest
from sample import sample_assessment, sample_plan, with_port

from rfplan.model.assessment import PathAssessment, Receive
from rfplan.model.findings import Verdict
from rfplan.model.record import ById
from rfplan.reports.power_line import power_line
from rfplan.units import Range


def path(**port: object) -> PathAssessment:
    """Return the transponder's path of the sample with another port."""
    plan = with_port(sample_plan(), "xp1", "ant", **port)
    return next(one for one in sample_assessment(plan).paths if one.id == "xpdr1")


def test_too_little_power_is_told_with_the_least_that_is_asked() -> None:
    weak = path(power_w=Range(120.0, 120.0))
    assert weak.transmit is not None and weak.transmit.antenna_w is not None
    assert power_line(weak) == (
        f"power at the antenna {weak.transmit.antenna_w:.1f} W, at least 125.0 W"
    )


def test_too_much_power_is_told_with_the_most_that_is_allowed() -> None:
    strong = path(power_w=Range(200.0, 900.0))
    assert strong.transmit is not None and strong.transmit.antenna_most_w is not None
    assert power_line(strong) == (
        f"power at the antenna {strong.transmit.antenna_most_w:.1f} W, at most 500.0 W"
    )


def test_a_class_that_is_not_stated_leaves_the_limit_open() -> None:
    weak = path(power_w=Range(120.0, 120.0))
    assert weak.transmit is not None
    sent = replace(weak.transmit, verdict=Verdict.INCOMPLETE)
    told = power_line(replace(weak, overall=Verdict.INCOMPLETE, transmit=sent))
    assert told.endswith(" W, against which limit is not known")


@pytest.mark.parametrize(
    ("low", "high", "words"),
    [
        (-78.6, -74.0, "at least -77.0 dBm"),
        (-76.0, -67.0, "at most -69.0 dBm"),
    ],
)
def test_sensitivity_is_told_by_the_side_that_is_not_met(
    low: float, high: float, words: str
) -> None:
    told = power_line(path(sensitivity_dbm=ById({"atcrbs": Range(low, high)})))
    assert told.startswith("sensitivity atcrbs at the antenna -") and told.endswith(words)


def test_levels_that_are_met_decide_nothing() -> None:
    met = replace(path(), overall=Verdict.FAIL)
    assert power_line(met) == ""
    unheard = Receive("atcrbs", -76.0, None, -77.0, -69.0, Verdict.INCOMPLETE, "INVENTED")
    open_path = replace(met, overall=Verdict.INCOMPLETE, receive=(unheard,))
    assert power_line(open_path) == "sensitivity atcrbs at the antenna ?"
