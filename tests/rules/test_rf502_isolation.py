# SPDX-License-Identifier: Apache-2.0
"""RF502: cells of the interference matrix that fail, and nothing that is not certain."""

from __future__ import annotations

from dataclasses import replace

import pytest
from crowded_aircraft import crowded_facts
from demo_plans import DEMOS, assessed
from interfering import facts_with, masked_rulebook, reading_of, two_transponders
from rooms import room_of
from sample import sample_catalog

from rfplan.analysis.interference import failing, interference
from rfplan.assess import assess
from rfplan.model.findings import Finding, Verdict
from rfplan.model.plan import FindingRef, Plan, Waiver
from rfplan.model.record import ById
from rfplan.rules import rf502_isolation


def found(plan: Plan) -> list[Finding]:
    """Return what RF502 finds in a plan under the shipped masks."""
    assessment = assess(plan, sample_catalog(), masked_rulebook())
    return [one for one in assessment.findings if one.rule == "RF502"]


def test_a_receiver_that_is_reached_above_its_damage_level_fails() -> None:
    findings = found(two_transponders(10.0))
    assert {one.objects for one in findings} == {("xpdr1", "xpdr2")}
    (one,) = findings
    cell = next(
        cell
        for cell in interference(facts_with(two_transponders(10.0))).cells
        if (cell.source, cell.victim) == ("xpdr1", "xpdr2")
    )
    assert (one.value, one.limit) == (cell.worst.coupling.have_db, cell.worst.need_db)
    assert one.value - one.limit == pytest.approx(cell.worst.margin_db)
    assert (one.verdict, one.unit) == (Verdict.FAIL, "dB")
    assert {"xpdr1", "xpdr2"} <= set(one.paths)


@pytest.mark.parametrize("damage_dbm", [None, 50.0])
def test_a_limit_that_is_met_or_not_stated_is_no_finding(damage_dbm: float | None) -> None:
    assert found(two_transponders(damage_dbm)) == []


def test_a_measured_isolation_clears_what_was_computed_until_an_antenna_moves() -> None:
    plan = two_transponders(10.0)
    assert found(reading_of(plan, "xpdr1", "xpdr2", 1090e6, 60.0)) == []
    assert len(found(reading_of(plan, "xpdr1", "xpdr2", 1090e6, 60.0, off_m=0.2))) == 1


def test_a_waiver_names_both_antennas() -> None:
    waiver = Waiver(
        FindingRef("RF502", ("xpdr1", "xpdr2")), "a check on the aircraft is step nine", "A. One"
    )
    plan = replace(two_transponders(10.0), waivers=ById({"v1": waiver}))
    assert [one.verdict for one in found(plan)] == [Verdict.WAIVED]


@pytest.mark.parametrize("demo", DEMOS)
def test_the_rule_finds_what_the_matrix_fails(demo: str) -> None:
    assessment = assessed(demo)
    from rfplan.reports.study import facts_of

    cells = interference(facts_of(assessment)).cells
    failed = {(c.source, c.victim) for c in cells if c.worst.verdict is Verdict.FAIL}
    told = {one.objects for one in assessment.findings if one.rule == "RF502"}
    assert told == failed


def test_the_few_meetings_that_may_fail_are_those_that_do_in_the_whole_matrix() -> None:
    facts = crowded_facts()
    whole = [cell for cell in interference(facts).cells if cell.worst.verdict is Verdict.FAIL]
    few = failing(facts)
    assert {(c.source, c.victim, c.worst) for c in few} == {
        (c.source, c.victim, c.worst) for c in whole
    }


def test_room_is_in_decibels_and_says_the_words_of_the_finding() -> None:
    facts = facts_with(two_transponders(10.0))
    (one,) = found(facts.plan)
    for antenna in ("xpdr1", "xpdr2"):
        room = room_of(rf502_isolation, facts, antenna)
        assert room is not None
        (constraint,) = room.constraints
        assert (constraint.objects, constraint.text) == (one.objects, one.text)
        assert constraint.off == ""
        assert (room.have[0, 0], room.need[0, 0], room.unit) == (one.value, one.limit, "dB")
    assert room_of(rf502_isolation, facts, "gnss1") is None


def test_where_nothing_fails_there_is_isolation_without_end() -> None:
    room = room_of(rf502_isolation, facts_with(two_transponders(50.0)), "xpdr2")
    assert room is not None
    assert room.margins.tolist() == [[float("inf")]]
