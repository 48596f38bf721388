# SPDX-License-Identifier: Apache-2.0
"""Why an exposure has no verdict, in words of its kind."""

from __future__ import annotations

from dataclasses import replace

from interfering import exposure, facts_with

from rfplan.analysis.interference import interference
from rfplan.model.findings import Verdict
from rfplan.model.interference import CellWord, Coupling
from rfplan.reports.interference_words import undecided_by


def undecided(**changes: object) -> tuple[str, ...]:
    """What keeps an exposure from a verdict of which all is known but what is given."""
    known = Coupling(10.0, "model", (-1.0, 1.0), True, CellWord.COMPUTED)
    one = replace(
        exposure(interference(facts_with()), "com1", "gnss1"),
        level_dbm=40.0,
        limit_dbm=0.0,
        fail_above_dbm=0.0,
        coupling=known,
        verdict=None,
    )
    return undecided_by(replace(one, **changes))  # type: ignore[arg-type]


def test_what_keeps_two_antennas_from_a_verdict_is_told_by_its_kind() -> None:
    known = Coupling(10.0, "model", (-1.0, 1.0), True, CellWord.COMPUTED)
    assert undecided(verdict=Verdict.PASS) == ()
    assert undecided(level_dbm=None, limit_dbm=None) == ("level", "limit")
    assert undecided(coupling=replace(known, valid=False)) == ("isolation",)
    assert undecided(coupling=replace(known, word=CellWord.BOUND)) == ("only a bound",)
    assert undecided(fail_above_dbm=None) == ("limit not read",)
    assert undecided() == ("within its band",)
    other = replace(known, word=CellWord.TEST)
    assert undecided(coupling=other) == ("rung decides nothing",)
