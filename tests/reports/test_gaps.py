# SPDX-License-Identifier: Apache-2.0
"""What is missing for a verdict, by the name it has in its file."""

from __future__ import annotations

from interfering import HARMONICS, exposures, facts_with, gained_catalog
from sample import sample_plan, with_port

from rfplan.analysis.facts import Facts
from rfplan.analysis.interference import interference
from rfplan.reports.gaps import gaps


def told(facts: Facts, source: str, victim: str, order: int) -> tuple[str, ...]:
    """Return the gaps of the worst exposure of an order."""
    matrix = interference(facts)
    cell = next(c for c in matrix.cells if (c.source, c.victim) == (source, victim))
    one = next(e for e in exposures(matrix, source, victim) if e.order == order)
    return gaps(cell, one, facts)


def test_a_level_a_limit_and_a_gain_are_named_where_they_are_missing() -> None:
    level, gain = told(facts_with(), "com1", "gnss1", 13)
    assert level == "harmonics of nav1.com, the 13th, as its data state them"
    assert gain.startswith("gain of com_whip in the catalogue")
    limit, *_ = told(facts_with(), "xpdr1", "com1", 1)
    assert limit == "overload of nav1.com, as its data state it"


def test_what_is_entered_is_no_longer_missing() -> None:
    plan = with_port(sample_plan(), "nav1", "com", harmonics_db=HARMONICS, overload_dbm=-10.0)
    facts = facts_with(plan, gained_catalog())
    assert told(facts, "com1", "gnss1", 13) == ()
    assert not any("overload" in gap for gap in told(facts, "xpdr1", "com1", 1))


def test_an_unknown_power_is_named_before_its_harmonics() -> None:
    plan = with_port(sample_plan(), "nav1", "com", power_w=None)
    level, *_ = told(facts_with(plan), "com1", "gnss1", 13)
    assert level == "power of nav1.com, as its data state it"
