# SPDX-License-Identifier: Apache-2.0
"""Who sends what, and who listens."""

from __future__ import annotations

from demo_plans import assessed
from interfering import facts_with
from sample import sample_plan, with_port

from rfplan.analysis.chain_response import response
from rfplan.analysis.emissions import emissions, receivers
from rfplan.analysis.interference import interference
from rfplan.analysis.mixing import mixing
from rfplan.model.interference import NOISE
from rfplan.model.record import ById
from rfplan.reports.study import facts_of
from rfplan.rules.verdicts import path_assessment
from rfplan.units import NONE, UNKNOWN, Range


def test_only_harmonics_that_somebody_may_hear_are_looked_at_unless_entered() -> None:
    facts = facts_with()
    told = emissions(facts, receivers(facts))
    assert {one.order for one in told if one.path == "com1"} - {NOISE} == {1, 8, 12, 13}
    assert [one.order for one in told if one.path == "xpdr1"] == [1]


def test_noise_is_sent_into_every_band_that_is_heard_except_by_short_pulses() -> None:
    stated = ById({"all": -140.0, "gnss": -165.0})
    facts = facts_with(with_port(sample_plan(), "nav1", "com", noise_dbm_per_hz=stated))
    told = [one for one in emissions(facts, receivers(facts)) if one.order == NOISE]
    assert {one.path for one in told} == {"com1"}
    levels = {one.heard_by: one.level_dbm for one in told}
    assert levels == {"gnss": -165.0, "lband": -140.0, "vhf_com": None}


def test_an_entered_harmonic_is_looked_at_wherever_it_lands() -> None:
    plan = with_port(sample_plan(), "xp1", "ant", harmonics_db=ById({"3": 70.0, "25": 90.0}))
    facts = facts_with(plan)
    told = [one for one in emissions(facts, receivers(facts)) if one.path == "xpdr1"]
    assert [one.order for one in told] == [1, 3, 25]
    third = told[1]
    assert (third.low_hz, third.high_hz) == (3 * 1090e6, 3 * 1090e6)
    assert third.level_dbm is not None and third.carrier_dbm is not None
    assert third.carrier_dbm - third.level_dbm == 70.0


def test_the_line_of_the_sender_takes_nothing_from_a_harmonic() -> None:
    plan = with_port(sample_plan(), "nav1", "com", harmonics_db=ById({"13": 95.0}))
    facts = facts_with(plan)
    told = {one.order: one for one in emissions(facts, receivers(facts)) if one.path == "com1"}
    carrier, harmonic = told[1], told[13]
    assert harmonic.carrier_dbm is not None and carrier.level_dbm is not None
    assert harmonic.carrier_dbm > carrier.level_dbm


def test_a_receivers_line_counts_in_its_own_bands_only() -> None:
    com = next(one for one in receivers(facts_with()) if one.path == "com1")
    assert com.line_db > 0.0
    assert com.line_loss_db(120e6) == com.line_db
    assert com.line_loss_db(1090e6) == 0.0


def test_a_port_whose_power_is_none_sends_nothing_and_still_receives() -> None:
    facts = facts_with(with_port(sample_plan(), "nav1", "com", power_w=Range(NONE, NONE)))
    assert "com1" not in {one.path for one in emissions(facts, receivers(facts))}
    assert "com1" in {one.path for one in receivers(facts)}
    path = path_assessment(facts, "com1", ())
    assert (path.direction, path.transmit) == ("rx", None)
    told = response(facts, "com1")
    assert told is not None
    assert {band.delivered_w for band in told.bands} == {None}


def test_a_power_that_is_not_known_or_not_stated_is_a_transmitter_all_the_same() -> None:
    for power_w in (None, Range(UNKNOWN, UNKNOWN), Range(NONE, 16.0)):
        facts = facts_with(with_port(sample_plan(), "nav1", "com", power_w=power_w))
        assert "com1" in {one.path for one in emissions(facts, receivers(facts))}
        assert path_assessment(facts, "com1", ()).direction == "txrx"


def test_the_receiving_antenna_of_the_radar_altimeter_is_no_sender_anywhere() -> None:
    twin = assessed("twin")
    facts = facts_of(twin)
    matrix = interference(facts)
    assert "ralt_r" not in matrix.sources
    assert {"ralt_r", "ralt_t"} & {*matrix.sources} == {"ralt_t"}
    assert "ralt_r" in matrix.victims
    assert "ralt_t" not in matrix.victims
    directions = {path.id: path.direction for path in twin.paths}
    assert (directions["ralt_t"], directions["ralt_r"]) == ("tx", "rx")
    senders = {id for one in mixing(facts).bands for alike in one.senders for id in alike}
    assert "ralt_t" in senders
    assert "ralt_r" not in senders
