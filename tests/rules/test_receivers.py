# SPDX-License-Identifier: Apache-2.0
"""The records of receiver and supply hold what the rules judged."""

from __future__ import annotations

import math
from typing import Any

import pytest
from amplified import amplified_catalog, amplified_plan
from sample import sample_assessment

from rfplan.model.assessment import PathAssessment
from rfplan.model.findings import Verdict
from rfplan.model.plan import Plan
from rfplan.model.record import ById
from rfplan.units import NONE, Range


def path(plan: Plan | None = None, **antenna: Any) -> PathAssessment:
    assessment = sample_assessment(plan or amplified_plan(), amplified_catalog(**antenna))
    return next(one for one in assessment.paths if one.id == "gnss1")


def test_a_path_without_gain_or_supply_has_neither_record() -> None:
    bare = next(one for one in sample_assessment().paths if one.id == "gnss1")
    assert (bare.receiver, bare.feed) == ((), None)


def test_the_record_of_a_band_holds_gain_window_and_margins() -> None:
    (one,) = path().receiver
    assert (one.name, one.passive, one.gain_db) == ("rx", False, (26.0, 32.0))
    assert one.window_db == (20.0, 32.0)
    assert one.net_gain_db[0] is not None
    assert one.margins_db[0] == pytest.approx(one.net_gain_db[0] - 20.0)
    assert one.verdict is Verdict.PASS


def test_what_is_not_known_is_none_and_named() -> None:
    (one,) = path(amplifier_db=ById()).receiver
    assert one.net_gain_db == (None, None)
    assert one.noise_figure_db is None
    assert one.verdict is Verdict.INCOMPLETE
    assert one.undecided_by == ("gnss_active.amplifier",)


def test_without_a_limit_there_is_no_word() -> None:
    plan = amplified_plan(net_gain_db=ById(), supervision_a=None, current_a=None)
    (one,) = path(plan).receiver
    assert one.verdict is None
    feed = path(plan, supply_v=None).feed
    assert feed is not None
    assert feed.verdict is None


def test_the_record_of_the_supply_holds_both_ends_of_everything() -> None:
    feed = path().feed
    assert feed is not None
    assert (feed.port_v, feed.supply_v) == ((4.7, 5.3), (4.5, 5.5))
    assert (feed.current_a, feed.supervision_a) == ((0.020, 0.045), (0.010, 0.060))
    assert feed.temperature_c == (-55.0, 70.0)
    assert feed.verdict is Verdict.PASS
    assert all(end is not None and math.isfinite(end) for end in feed.antenna_v)


def test_a_failed_supply_makes_the_whole_path_fail() -> None:
    failed = path(amplified_plan(feed_v=Range(4.4, 4.6)))
    assert failed.feed is not None
    assert failed.feed.verdict is Verdict.FAIL
    assert (failed.loss.verdict, failed.overall) == (Verdict.PASS, Verdict.FAIL)


def test_the_worst_of_net_gain_and_carrier_is_the_word_of_a_band() -> None:
    plan = amplified_plan(net_gain_db=ById({"all": Range(NONE, 1.0)}), cn0_dbhz=30.0)
    (one,) = path(plan).receiver
    assert one.verdict is Verdict.FAIL
    assert one.undecided_by == ("gnss_l1.carrier",)
