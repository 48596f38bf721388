# SPDX-License-Identifier: Apache-2.0
"""RF406: gain less loss, each corner against its own limit."""

from __future__ import annotations

from typing import Any

import pytest
from amplified import amplified_catalog, amplified_plan
from rooms import findings
from sample import refitted, sample_assessment, sample_rulebook, with_port, with_radio

from rfplan.model.findings import Finding, Verdict
from rfplan.model.record import ById
from rfplan.model.rulebook import Band, Rulebook
from rfplan.units import NONE, UNKNOWN, Range


def found(window: Range, **antenna: Any) -> list[Finding]:
    plan = amplified_plan(net_gain_db=ById({"all": window}))
    return findings("RF406", plan, amplified_catalog(**antenna))


def losses_db() -> tuple[float, float]:
    path = next(one for one in sample_assessment().paths if one.id == "gnss1")
    least, most = path.bands[0].min_corner.loss_db, path.bands[0].max_corner.loss_db
    assert least is not None
    assert most is not None
    return least, most


def test_a_net_gain_inside_its_window_is_fine() -> None:
    assert findings("RF406", amplified_plan(), amplified_catalog()) == []


def test_a_port_without_a_window_says_nothing() -> None:
    plan = amplified_plan(net_gain_db=ById())
    assert findings("RF406", plan, amplified_catalog()) == []


def test_the_least_gain_less_the_most_loss_stands_against_the_lower_limit() -> None:
    net_db = 26.0 - losses_db()[1]
    assert found(Range(net_db, NONE)) == []
    (one,) = found(Range(net_db + 0.01, NONE))
    assert (one.verdict, one.unit, one.objects) == (Verdict.FAIL, "dB", ("gnss1",))
    assert one.value == pytest.approx(net_db)
    assert one.limit == pytest.approx(net_db + 0.01)
    assert "below" in one.text
    assert "invented sheet" in one.source


def test_the_most_gain_less_the_least_loss_stands_against_the_upper_limit() -> None:
    net_db = 32.0 - losses_db()[0]
    assert found(Range(NONE, net_db)) == []
    (one,) = found(Range(NONE, net_db - 0.01))
    assert one.value == pytest.approx(net_db)
    assert "above" in one.text


def test_a_passive_antenna_leaves_the_loss_and_nothing_more() -> None:
    passive = ById({"all": Range(NONE, NONE)})
    assert found(Range(-4.0, 0.0), amplifier_db=passive) == []
    (one,) = found(Range(-0.5, 0.0), amplifier_db=passive)
    assert one.value == pytest.approx(-losses_db()[1])


def test_a_gain_that_is_not_stated_blocks_where_it_decides() -> None:
    (one,) = found(Range(20.0, 40.0), amplifier_db=ById())
    assert one.verdict is Verdict.INCOMPLETE
    assert "gnss_active.amplifier" in one.text
    half = ById({"all": Range(26.0, UNKNOWN)})
    assert found(Range(20.0, NONE), amplifier_db=half) == []
    assert found(Range(20.0, 40.0), amplifier_db=half)[0].verdict is Verdict.INCOMPLETE


def test_an_unknown_window_blocks() -> None:
    plan = amplified_plan(net_gain_db=ById({"all": Range(UNKNOWN, UNKNOWN)}))
    assessment = sample_assessment(plan, amplified_catalog())
    assert "nav1.gnss.net_gain" in {point.id for point in assessment.open_points if point.blocking}


def test_an_unknown_cable_blocks_the_lower_limit_only() -> None:
    plan = refitted(amplified_plan(), "cables", "w11", type="?")
    (one,) = findings("RF406", plan, amplified_catalog())
    assert one.verdict is Verdict.INCOMPLETE
    assert "w11.type" in one.text
    one_sided = with_port(plan, "nav1", "gnss", net_gain_db=ById({"all": Range(NONE, 32.0)}))
    assert findings("RF406", one_sided, amplified_catalog()) == []


def two_signals() -> Rulebook:
    bands = ById({"l1": Band("rx", 1563.42e6, 1587.42e6), "l5": Band("rx", 1164.45e6, 1188.45e6)})
    return with_radio(sample_rulebook(), "gnss_l1", bands=bands)


def test_each_signal_has_its_own_window_and_gain() -> None:
    gains = ById({"l1": Range(26.0, 32.0), "l5": Range(15.0, 22.0)})
    windows = ById({"l1": Range(20.0, 32.0), "l5": Range(20.0, 32.0)})
    plan, catalog = amplified_plan(net_gain_db=windows), amplified_catalog(amplifier_db=gains)
    (one,) = findings("RF406", plan, catalog, two_signals())
    assert " l5 " in one.text
    windows = ById({"l1": Range(20.0, 32.0), "l5": Range(10.0, 32.0)})
    plan = amplified_plan(net_gain_db=windows)
    assert findings("RF406", plan, catalog, two_signals()) == []


def test_a_signal_that_the_window_leaves_out_is_not_judged_silently() -> None:
    plan = amplified_plan(net_gain_db=ById({"l1": Range(20.0, 32.0)}))
    (one,) = findings("RF406", plan, amplified_catalog(), two_signals())
    assert one.verdict is Verdict.INCOMPLETE


def test_end_mismatch_is_no_part_of_the_net_gain() -> None:
    matched = sample_assessment(amplified_plan(vswr=2.0), amplified_catalog())
    plan = amplified_plan(vswr=2.0, terminations="mismatched")
    counted = sample_assessment(plan, amplified_catalog())
    one, other = (
        next(path.receiver[0].net_gain_db for path in a.paths if path.id == "gnss1")
        for a in (matched, counted)
    )
    assert one == pytest.approx(other)
