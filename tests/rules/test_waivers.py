# SPDX-License-Identifier: Apache-2.0
"""Waivers: accepted by name, reopened when worse, never for what is not known."""

from __future__ import annotations

from dataclasses import replace
from datetime import date
from typing import Any

import pytest
from rooms import findings
from sample import inch, place, refitted, sample_assessment, sample_plan, with_airframe

from rfplan.model.findings import Finding, Verdict
from rfplan.model.plan import Accepted, FindingRef, Plan, State, Waiver
from rfplan.model.record import ById
from rfplan.model.rulebook import Spacing, Strictness
from rfplan.reports.wording import said
from rfplan.rules.waivers import binding_of

SPACING = FindingRef("RF501", ("gnss1", "com1"))
ACCEPTED = Accepted("35.0 in", "36.0 in")


def too_near(distance_in: float = 35, *, need_in: float = 36, **changes: Any) -> Plan:
    """Return the sample with COM and GNSS antenna too near each other, and a waiver for it."""
    plan = refitted(sample_plan(), "antennas", "com1", at=place(80 + distance_in, 0))
    rule = replace(plan.spacing["gnss_com"], min_m=inch(need_in))
    plan = replace(plan, spacing=ById({"gnss_com": rule}))
    waiver = Waiver(
        finding=SPACING,
        reason="key-down check added",
        who="A. Three",
        date=date(2026, 11, 25),
        accepted=ACCEPTED,
        approved_data="letter 12",
        bound=binding_of(spacing(plan)),
    )
    return replace(plan, waivers=ById({"v1": replace(waiver, **changes)}))


def spacing(plan: Plan) -> Finding:
    """Return the one finding about the spacing."""
    (one,) = findings("RF501", plan)
    return one


def test_a_waived_finding_shows_who_accepted_it_and_why() -> None:
    one = spacing(too_near())
    assert one.verdict is Verdict.WAIVED
    assert one.waiver is not None
    note = one.waiver
    assert (note.id, note.who, note.date) == ("v1", "A. Three", "2026-11-25")
    assert (note.reason, note.approved_data) == ("key-down check added", "letter 12")
    assert not note.reopened
    assert not note.unbound


def test_a_waived_finding_outweighs_near_and_nothing_more() -> None:
    result = sample_assessment(too_near())
    assert result.verdict is Verdict.WAIVED
    assert {path.id: path.overall for path in result.paths} == {
        "com1": Verdict.WAIVED,
        "gnss1": Verdict.WAIVED,
        "xpdr1": Verdict.PASS,
    }


@pytest.mark.parametrize(
    ("distance_in", "need_in", "reopened"),
    [
        (35.0, 36.0, False),
        (35.5, 36.0, False),  # better than accepted
        (34.97, 36.0, False),  # prints as 35.0 in
        (34.9, 36.0, True),
        (35.0, 36.5, True),  # more is asked for
    ],
)
def test_a_waiver_reopens_when_the_finding_falls_further_short(
    distance_in: float, need_in: float, reopened: bool
) -> None:
    one = spacing(too_near(distance_in, need_in=need_in))
    assert one.waiver is not None
    assert one.waiver.reopened is reopened
    assert one.verdict is (Verdict.FAIL if reopened else Verdict.WAIVED)


def test_accepted_values_may_be_written_in_another_unit() -> None:
    assert spacing(too_near(accepted=Accepted("889 mm", "914.4 mm"))).verdict is Verdict.WAIVED


def test_accepted_values_that_cannot_be_read_reopen_the_waiver() -> None:
    assert spacing(too_near(accepted=Accepted("near", "far"))).verdict is Verdict.FAIL


@pytest.mark.parametrize("lacking", ["accepted", "bound"])
def test_a_waiver_written_by_hand_holds_and_is_marked_unbound(lacking: str) -> None:
    one = spacing(too_near(**{lacking: None}))
    assert one.verdict is Verdict.WAIVED
    assert one.waiver is not None
    assert one.waiver.unbound


def test_a_waiver_of_one_side_of_a_limit_does_not_cover_the_other() -> None:
    shortfall = Accepted("37.0 in", "36.0 in")  # as much, but beyond the limit
    assert spacing(too_near(accepted=shortfall)).verdict is Verdict.FAIL


def test_a_waiver_is_bound_to_the_document_behind_the_limit() -> None:
    plan = too_near()
    assert spacing(plan).verdict is Verdict.WAIVED
    later = replace(plan.sources["sheet"], issue="2")
    one = spacing(replace(plan, sources=plan.sources.having("sheet", later)))
    assert one.verdict is Verdict.FAIL
    assert one.waiver is not None
    assert one.waiver.changed


def test_a_waiver_of_better_values_is_bound_to_the_same() -> None:
    near, far = spacing(too_near(35.0)), spacing(too_near(35.5))
    assert binding_of(near) == binding_of(far)


def test_a_finding_without_numbers_is_waived_as_it_was_found() -> None:
    plan = refitted(sample_plan(), "cables", "w21", plugs=("bnc", "tnc"))
    (one,) = findings("RF305", plan)
    waiver = Waiver(
        FindingRef("RF305", ("com1",)), "adapter at hand", "A. Three", bound=binding_of(one)
    )
    waived = replace(plan, waivers=ById({"v1": waiver}))
    (one,) = findings("RF305", waived)
    assert one.verdict is Verdict.WAIVED
    assert one.waiver is not None
    assert not one.waiver.unbound
    other = refitted(waived, "cables", "w21", plugs=("tnc", "bnc"))  # now at the unit
    (one,) = findings("RF305", other)
    assert one.verdict is Verdict.FAIL


def test_a_waiver_holds_in_its_own_state_only() -> None:
    one = spacing(too_near(state=State.BUILT))
    assert (one.verdict, one.waiver) == (Verdict.FAIL, None)


def test_advice_stays_advice_and_carries_the_note() -> None:
    plan = too_near()
    advice = replace(plan.spacing["gnss_com"], strict=Strictness.ADVICE)
    one = spacing(replace(plan, spacing=ById({"gnss_com": advice})))
    assert one.verdict is Verdict.ADVICE
    assert one.waiver is not None


def test_what_is_not_known_cannot_be_waived() -> None:
    plan = refitted(too_near(), "antennas", "gnss1", on="cabin", at=place(80, 0, 60))
    along = Spacing("gnss", "vhf_com", inch(36), "gnss_com", "skin", Strictness.REQUIRED)
    one = next(
        f
        for f in findings("RF501", replace(plan, spacing=ById({"gnss_com": along})))
        if "com1" in f.objects
    )
    assert one.verdict is Verdict.INCOMPLETE
    assert one.waiver is not None  # it is known of, and does not help


def overfull(cables: int) -> Plan:
    """Return the sample with one pass at the left door post and a waiver for two cables there."""
    plan = sample_plan()
    route = plan.airframe.route
    nodes = route.nodes.having("apl", replace(route.nodes["apl"], passes=1))
    plan = with_airframe(plan, route=replace(route, nodes=nodes))
    for id in ("w21", "w31")[: cables - 1]:
        plan = refitted(plan, "cables", id, via=("apl",))
    names = ("apl", "w11", "w21", "w31")[: cables + 1]
    waiver = Waiver(FindingRef("RF311", names), "thin", "A. Three", accepted=Accepted("2", "1"))
    return replace(plan, waivers=ById({"v1": waiver}))


@pytest.mark.parametrize(("cables", "word"), [(2, Verdict.WAIVED), (3, Verdict.FAIL)])
def test_a_count_that_got_worse_reopens_its_waiver(cables: int, word: Verdict) -> None:
    (one,) = findings("RF311", overfull(cables))
    assert one.verdict is word


def test_a_finding_without_numbers_has_nothing_that_could_get_worse() -> None:
    plan = refitted(sample_plan(), "cables", "w21", plugs=("bnc", "tnc"))
    waiver = Waiver(
        FindingRef("RF305", ("com1",)), "adapter at hand", "A. Three", accepted=ACCEPTED
    )
    (one,) = findings("RF305", replace(plan, waivers=ById({"v1": waiver})))
    assert one.verdict is Verdict.WAIVED


@pytest.mark.parametrize("who", ["?", " "])
def test_what_nobody_signed_by_name_waives_nothing(who: str) -> None:
    one = spacing(too_near(who=who))
    assert one.verdict is Verdict.FAIL
    assert one.waiver is not None and not one.waiver.holds and not one.waiver.reopened
    assert said(one, "in").endswith("; waiver v1 is signed by nobody")
