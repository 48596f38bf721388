# SPDX-License-Identifier: Apache-2.0
"""Waivers and readings: added, replaced, taken out, and refused without a name or a reason."""

from __future__ import annotations

from dataclasses import replace
from datetime import date

import pytest
from sample import sample_plan

from rfplan.edits import (
    AcceptPoint,
    AddWaiver,
    Edit,
    EditError,
    RemoveMeasurement,
    RemoveWaiver,
    SetMeasurement,
    SetRevision,
)
from rfplan.model.plan import AcceptedPoint, FindingRef, Measurement, Person, State, Waiver
from rfplan.model.record import ById

REASON = "no other free place on the roof"
WAIVER = Waiver(FindingRef("RF501", ("gnss1", "com1")), REASON, "A. Person")
ACCEPTED = AcceptedPoint("A. Person", date(2026, 11, 25), "5c1e09a2")
READING = Measurement("gnss1", 2.31, at_hz=1575.42e6)


def test_a_waiver_is_added_and_taken_back() -> None:
    plan = AddWaiver("v1", WAIVER).apply(sample_plan())
    assert plan.waivers == {"v1": WAIVER}
    assert RemoveWaiver("v1").apply(plan) == sample_plan()


def test_an_open_point_is_accepted_in_place_of_who_did_before() -> None:
    plan = AcceptPoint("w21.drops", ACCEPTED).apply(sample_plan())
    again = AcceptPoint("w21.drops", replace(ACCEPTED, who="B. Person")).apply(plan)
    assert [each.accepted["w21.drops"].who for each in (plan, again)] == ["A. Person", "B. Person"]


def test_nineteen_characters_are_too_few_for_a_reason_and_twenty_are_enough() -> None:
    AddWaiver("v1", replace(WAIVER, reason="x" * 20)).apply(sample_plan())
    with pytest.raises(EditError, match="has 19 characters, 20 are needed"):
        AddWaiver("v1", replace(WAIVER, reason=f" {'x' * 19} ")).apply(sample_plan())


def test_a_reading_is_recorded_replaced_and_taken_out() -> None:
    plan = SetMeasurement("m1", READING).apply(sample_plan())
    again = SetMeasurement("m1", replace(READING, loss_db=2.5)).apply(plan)
    assert [each.measurements["m1"].loss_db for each in (plan, again)] == [2.31, 2.5]
    assert RemoveMeasurement("m1").apply(again) == sample_plan()


@pytest.mark.parametrize(
    ("edit", "words"),
    [
        (AddWaiver("v1", replace(WAIVER, who=" ")), "a waiver needs the name of who signs it"),
        (AddWaiver("v1", replace(WAIVER, who="?")), "a waiver needs the name of who signs it"),
        (RemoveWaiver("v1"), "there is no waiver v1"),
        (
            AcceptPoint("w21.drops", replace(ACCEPTED, who=" ")),
            "an open point needs the name of who accepts it",
        ),
        (
            AcceptPoint("w21.drops", replace(ACCEPTED, who=" ? ")),
            "an open point needs the name of who accepts it",
        ),
        (RemoveMeasurement("m1"), "there is no reading m1"),
        (SetMeasurement("m1", replace(READING, path="adf")), "there is no path adf in built"),
        (
            SetMeasurement("m1", replace(READING, at_hz=0.0)),
            "a reading needs a frequency above zero",
        ),
        (
            SetMeasurement("m1", replace(READING, uncertainty_db=-0.1)),
            "an uncertainty is never negative",
        ),
        (
            SetMeasurement("m1", replace(READING, loss_db=None)),
            "a reading needs a loss or a VSWR",
        ),
        (SetMeasurement("m1", replace(READING, vswr=0.99)), "a VSWR is never below 1"),
        (SetRevision(" ", ById()), "a revision needs a letter"),
        (
            SetRevision("B", ById({"checked": Person(" ")})),
            "checked: a name is needed, or ? where there is none yet",
        ),
    ],
)
def test_what_cannot_be_is_refused_in_words(edit: Edit, words: str) -> None:
    with pytest.raises(EditError) as refusal:
        edit.apply(sample_plan())
    assert str(refusal.value) == words


def test_a_waiver_is_not_written_over_by_another_of_its_id() -> None:
    plan = AddWaiver("v1", WAIVER).apply(sample_plan())
    with pytest.raises(EditError, match="there is a waiver v1 already"):
        AddWaiver("v1", WAIVER).apply(plan)


def test_a_reading_of_another_state_needs_the_path_there() -> None:
    plan = sample_plan()
    gone = replace(plan, built=replace(plan.built, paths=type(plan.built.paths)()))
    with pytest.raises(EditError):
        SetMeasurement("m1", READING).apply(gone)
    SetMeasurement("m1", replace(READING, state=State.DESIGN)).apply(gone)


def test_claims_are_told_with_who_and_how_much() -> None:
    plan = sample_plan()
    told = AddWaiver("v1", WAIVER).words(plan)
    assert told == "RF501 for gnss1 and com1 waived by A. Person"
    assert AcceptPoint("w21.drops", ACCEPTED).words(plan) == "w21.drops accepted by A. Person"
    assert SetMeasurement("m1", READING).words(plan) == "gnss1 measured 2.31 dB at 1575.42 MHz"
    both = SetMeasurement("m1", replace(READING, vswr=1.4)).words(plan)
    assert both == "gnss1 measured 2.31 dB, VSWR 1.4 at 1575.42 MHz"
    match = SetMeasurement("m1", replace(READING, loss_db=None, vswr=1.4)).words(plan)
    assert match == "gnss1 measured VSWR 1.4 at 1575.42 MHz"


def test_a_revision_gets_its_letter_and_its_names_and_keeps_the_rest() -> None:
    plan = sample_plan()
    people = ById({"prepared": Person("A. Person"), "checked": Person("B. Person")})
    edit = SetRevision("C", people)
    revised = edit.apply(plan)
    assert revised.revision == replace(plan.revision, letter="C")
    assert revised.people == people
    assert edit.words(plan) == "revision C, prepared by A. Person, checked by B. Person"
