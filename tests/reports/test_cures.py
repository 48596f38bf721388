# SPDX-License-Identifier: Apache-2.0
"""What would help: every means with its number, none where it cannot help."""

from __future__ import annotations

import pytest
from demo_plans import assessed
from interfering import HARMONICS, facts_with, gained_catalog, two_transponders
from sample import sample_plan, with_port

from rfplan.analysis.facts import Facts
from rfplan.analysis.interference import interference
from rfplan.model.interference import NOISE
from rfplan.reports.cures import Cure, cures
from rfplan.reports.study import facts_of


def helping(facts: Facts) -> tuple[Cure, ...]:
    return cures(interference(facts), facts)


def test_twenty_decibels_more_ask_for_ten_times_the_distance() -> None:
    plan = with_port(sample_plan(), "nav1", "com", harmonics_db=HARMONICS)
    told = helping(facts_with(plan, gained_catalog()))
    one = next(cure for cure in told if cure.exposure.order == 13)
    assert one.missing_db is not None and one.away_m is not None
    assert one.missing_db == pytest.approx(-(one.exposure.margin_db or 0.0))
    assert one.away_m / one.cell.distance_m == pytest.approx(10.0 ** (one.missing_db / 20.0))


def test_a_harmonic_of_unknown_level_is_told_how_low_it_must_lie() -> None:
    one = next(cure for cure in helping(facts_with()) if cure.exposure.order == 13)
    exposure = one.exposure
    assert (one.missing_db, one.away_m) == (None, None)
    assert exposure.carrier_dbm is not None and exposure.coupling.have_db is not None
    assert one.below_carrier_db == pytest.approx(
        exposure.carrier_dbm + 126.5 - exposure.coupling.have_db
    )


def test_filters_are_offered_that_pass_what_is_sent_and_stop_the_harmonic() -> None:
    facts = facts_of(assessed("amphibian"))
    one = next(cure for cure in helping(facts) if cure.exposure.order == 13)
    assert one.filters == (("filter_notch_l1_bnc", 35.0), ("filter_vhf", 50.0))


def test_a_filter_is_not_offered_where_its_data_promise_nothing() -> None:
    told = helping(facts_of(assessed("amphibian")))
    noise = [cure for cure in told if cure.exposure.order == NOISE]
    between = [cure for cure in noise if cure.exposure.frequency_hz == 1030e6]
    assert between
    assert {cure.filters for cure in between} == {()}


def test_a_pad_is_offered_in_a_receivers_line_never_ahead_of_a_gnss_amplifier() -> None:
    told = helping(facts_with(two_transponders(27.0)))
    pads = {cure.cell.victim: cure.pad for cure in told if cure.missing_db is not None}
    assert pads["xpdr2"] == "pad_3db"
    coms = helping(facts_with(with_port(sample_plan(), "nav1", "com", harmonics_db=HARMONICS)))
    assert {cure.pad for cure in coms} == {None}


def test_the_other_side_counts_by_its_longer_way() -> None:
    told = helping(facts_with(with_port(sample_plan(), "nav1", "com", harmonics_db=HARMONICS)))
    gained = {cure.across_db for cure in told if cure.cell.victim == "gnss1"}
    assert all(one is not None and 0.0 < one < 20.0 for one in gained)


def test_each_emission_is_told_once_by_its_worst_limit() -> None:
    told = helping(facts_of(assessed("amphibian")))
    keys = [(one.exposure.source, one.exposure.victim, one.exposure.order) for one in told]
    assert len(keys) == len(set(keys))


def test_noise_of_unknown_level_is_told_how_low_it_must_lie_in_1_hz() -> None:
    plan = with_port(sample_plan(), "xp1", "ant", noise_figure_db=9.0)
    told = helping(facts_with(plan, gained_catalog()))
    one = next(c for c in told if (c.exposure.order, c.exposure.victim) == (NOISE, "xpdr1"))
    exposure = one.exposure
    assert exposure.limit_dbm is not None and exposure.coupling.have_db is not None
    below_db = (exposure.carrier_dbm or 0.0) - exposure.limit_dbm - exposure.coupling.have_db
    assert one.below_carrier_db == pytest.approx(below_db)
    assert (one.pad, one.missing_db) == (None, None)
