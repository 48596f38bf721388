# SPDX-License-Identifier: Apache-2.0
"""Who sends what, and who listens."""

from __future__ import annotations

from interfering import facts_with
from sample import sample_plan, with_port

from rfplan.analysis.emissions import emissions, receivers
from rfplan.model.record import ById


def test_only_harmonics_near_a_signal_in_use_are_looked_at_unless_entered() -> None:
    facts = facts_with()
    told = emissions(facts, receivers(facts))
    assert [one.order for one in told if one.path == "com1"] == [1, 12, 13]
    assert [one.order for one in told if one.path == "xpdr1"] == [1]


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
