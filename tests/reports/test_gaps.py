# SPDX-License-Identifier: Apache-2.0
"""What is missing for a verdict, by the name it has in its file."""

from __future__ import annotations

from interfering import HARMONICS, exposures, facts_with, gained_catalog
from sample import sample_plan, with_port

from rfplan.analysis.facts import Facts
from rfplan.analysis.interference import interference
from rfplan.model.interference import NOISE
from rfplan.model.record import ById
from rfplan.reports.gaps import gaps

ALL_140 = ById({"all": -140.0})


def told(facts: Facts, source: str, victim: str, order: int) -> tuple[str, ...]:
    """Return the gaps of the worst exposure of an order."""
    matrix = interference(facts)
    cell = next(c for c in matrix.cells if (c.source, c.victim) == (source, victim))
    one = next(e for e in exposures(matrix, source, victim) if e.order == order)
    return gaps(cell, one, facts)


def test_a_level_a_limit_and_a_gain_are_named_where_they_are_missing() -> None:
    level, gain = told(facts_with(), "com1", "gnss1", 13)
    assert level == "harmonic 13 of nav1.com, as its data state it"
    assert gain.startswith("gain of com_whip in the catalogue")
    limit, *_ = told(facts_with(), "xpdr1", "com1", 1)
    assert limit == "overload of nav1.com, as its data state it"


def test_what_is_entered_is_no_longer_missing() -> None:
    plan = with_port(sample_plan(), "nav1", "com", harmonics_db=HARMONICS, overload_dbm=-10.0)
    facts = facts_with(plan, gained_catalog())
    (unsure,) = told(facts, "com1", "gnss1", 13)
    assert unsure == "a measured isolation: a bound alone never fails"
    assert not any("overload" in gap for gap in told(facts, "xpdr1", "com1", 1))


def test_an_unknown_power_is_named_before_its_harmonics() -> None:
    plan = with_port(sample_plan(), "nav1", "com", power_w=None)
    level, *_ = told(facts_with(plan), "com1", "gnss1", 13)
    assert level == "power of nav1.com, as its data state it"


def test_noise_and_noise_figure_are_named_where_they_are_missing() -> None:
    level, limit, *_ = told(facts_with(), "com1", "xpdr1", NOISE)
    assert level == "noise of nav1.com at 1030 MHz, as its data state it"
    assert limit == "noise figure of xp1.ant, as its data state it"
    plan = with_port(sample_plan(), "nav1", "com", noise_dbm_per_hz=ALL_140, power_w=None)
    plan = with_port(plan, "xp1", "ant", noise_figure_db=9.0)
    assert not any(
        "noise" in gap or "power" in gap for gap in told(facts_with(plan), "com1", "xpdr1", NOISE)
    )


def test_a_bandwidth_is_named_where_a_harmonic_falls_into_the_band() -> None:
    *_, limit, _ = told(facts_with(), "com1", "xpdr1", 8)
    assert limit == "noise figure and bandwidth of xp1.ant, as its data state them"
