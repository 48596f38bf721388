# SPDX-License-Identifier: Apache-2.0
"""RF407: volts at the antenna, hot and loaded most, cold and loaded least."""

from __future__ import annotations

from dataclasses import replace
from typing import Any

import pytest
from amplified import CENTRE, amplified_catalog, amplified_plan
from rooms import findings
from sample import refitted, sample_assessment, with_entry

from rfplan.model.catalog import Catalog
from rfplan.model.electrical import Feed
from rfplan.model.findings import Finding, Verdict
from rfplan.model.plan import Plan
from rfplan.model.source import Source
from rfplan.units import NONE, UNKNOWN, Range

HOT, COLD = 1.0 + 0.00393 * 50.0, 1.0 - 0.00393 * 75.0


def feed(plan: Plan, catalog: Catalog) -> Feed:
    assessment = sample_assessment(plan, catalog)
    found = next(path.feed for path in assessment.paths if path.id == "gnss1")
    assert found is not None
    return found


def found(catalog: Catalog | None = None, **port: Any) -> list[Finding]:
    return findings("RF407", amplified_plan(**port), catalog or amplified_catalog())


def test_a_supply_inside_the_range_of_the_antenna_is_fine() -> None:
    assert found() == []


def test_the_drop_is_that_of_centre_and_shield_hot_at_the_most_current() -> None:
    one = feed(amplified_plan(), amplified_catalog())
    run = sample_assessment(amplified_plan(), amplified_catalog()).cables["w11"]
    least_ohm = run.length_m.least * 0.042 * COLD
    most_ohm = run.length_m.most * 0.042 * HOT
    assert one.resistance_ohm == pytest.approx((least_ohm, most_ohm))
    assert one.antenna_v == pytest.approx((4.7 - 0.045 * most_ohm, 5.3 - 0.020 * least_ohm))


def test_too_few_volts_fail_with_what_reaches_the_antenna() -> None:
    (one,) = found(feed_v=Range(4.501, 5.3))
    assert (one.verdict, one.unit, one.limit) == (Verdict.FAIL, "V", 4.5)
    assert one.value is not None
    assert 4.4 < one.value < 4.5
    assert "invented sheet" in one.source


def test_too_many_volts_fail_too() -> None:
    (one,) = found(feed_v=Range(5.0, 5.6))
    assert one.limit == 5.5


def test_a_shield_that_is_not_known_lies_between_nothing_and_the_centre() -> None:
    catalog = with_entry(amplified_catalog(), "cables", "coax_5mm", shield=None)
    length_m = sample_assessment().cables["w11"].length_m
    one = feed(amplified_plan(), catalog)
    bounds = (length_m.least * 0.030 * COLD, length_m.most * 0.060 * HOT)
    assert one.resistance_ohm == pytest.approx(bounds)
    assert found(catalog) == []


def test_an_unknown_shield_blocks_only_where_its_bounds_differ() -> None:
    catalog = with_entry(amplified_catalog(), "cables", "coax_5mm", shield=None)
    most = feed(amplified_plan(), catalog).resistance_ohm[1]
    assert most is not None
    (one,) = found(catalog, feed_v=Range(4.5 + 0.045 * most - 0.001, 5.3))
    assert one.verdict is Verdict.INCOMPLETE
    assert "coax_5mm.shield" in one.text
    plan = amplified_plan(feed_v=Range(4.5 + 0.045 * most - 0.001, 5.3))
    points = sample_assessment(plan, catalog).open_points
    assert "coax_5mm.shield" in {point.id for point in points if point.blocking}


def test_an_unknown_centre_is_bounded_by_what_the_cable_loses() -> None:
    catalog = with_entry(amplified_catalog(), "cables", "coax_5mm", centre=None)
    most = feed(amplified_plan(), catalog).resistance_ohm[1]
    length_m = sample_assessment().cables["w11"].length_m.most
    assert most == pytest.approx(2 * 50 * 0.0458 * 1.05 / 8.685889638 * length_m * HOT)
    assert found(catalog, feed_v=Range(5.0, 5.3)) == []


def test_a_resistance_from_memory_is_widened_by_a_tenth() -> None:
    recalled = Source("assumed", read="memory")
    catalog = with_entry(
        amplified_catalog(),
        "cables",
        "coax_5mm",
        centre=replace(CENTRE, source="recalled"),
        sources=amplified_catalog().cables["coax_5mm"].sources.having("recalled", recalled),
    )
    length_m = sample_assessment().cables["w11"].length_m
    one = feed(amplified_plan(), catalog)
    ends = (length_m.least * 0.039 * COLD, length_m.most * 0.045 * HOT)
    assert one.resistance_ohm == pytest.approx(ends)


def test_a_current_that_is_not_stated_is_at_most_what_the_port_gives() -> None:
    catalog = amplified_catalog(current_a=None)
    assert found(catalog) == []
    (one,) = found(catalog, current_a=None)
    assert one.verdict is Verdict.INCOMPLETE
    assert "gnss_active.current" in one.text


def test_an_antenna_that_states_no_range_and_a_port_that_feeds_none_are_not_judged() -> None:
    assert found(amplified_catalog(supply_v=None)) == []
    assert found(feed_v=None) == []
    assert found(feed_v=Range(NONE, NONE)) == []


def test_an_unknown_feed_blocks() -> None:
    (one,) = found(feed_v=Range(UNKNOWN, UNKNOWN))
    assert one.verdict is Verdict.INCOMPLETE
    assert "port.feed" in one.text


def test_a_cable_of_unknown_length_blocks_where_it_decides() -> None:
    plan = refitted(amplified_plan(), "cables", "w11", length_m=UNKNOWN)
    (one,) = findings("RF407", plan, amplified_catalog())
    assert "w11.length" in one.text
