# SPDX-License-Identifier: Apache-2.0
"""The history of a plan: revision, people, the word of each state, what differs between them."""

from __future__ import annotations

import pytest
from demo_plans import DEMOS, assessed
from sample import sample_assessment, sample_plan
from sheet_tables import rows_of

from rfplan.model.assessment import Assessment
from rfplan.model.plan import State
from rfplan.reports.context import Context
from rfplan.reports.sheets import revision


def test_the_revision_and_its_people_are_told(clean: Assessment, context: Context) -> None:
    sheet = revision.build(clean, context)
    (told,) = rows_of(sheet, "revision")
    assert (told["letter"], told["status"], told["date"]) == ("A", "draft", "2026-11-25")
    people = {row["role"]: row for row in rows_of(sheet, "people")}
    assert (people["prepared"]["name"], people["prepared"]["stamp"]) == ("P. One", "P1")
    assert (people["checked"]["function"], people["released"]["name"]) == ("engineer", "?")
    assert all(row["signature"] == "________" for row in people.values())


@pytest.mark.parametrize("demo", DEMOS)
def test_all_three_states_have_their_word(demo: str, context: Context) -> None:
    rows = rows_of(revision.build(assessed(demo), context), "states")
    assert [row["state"] for row in rows] == [str(state) for state in State]
    assert [row["verdict"] for row in rows] == [
        str(assessed(demo, state).verdict) for state in State
    ]


@pytest.mark.parametrize("state", State)
def test_the_history_is_the_same_from_whichever_state_it_is_looked_at(
    state: State, context: Context
) -> None:
    here = revision.build(sample_assessment(sample_plan(state=state)), context)
    there = revision.build(sample_assessment(), context)
    assert here.tables == there.tables


def test_changes_are_told_by_object_and_field(clean: Assessment, context: Context) -> None:
    rows = rows_of(revision.build(clean, context), "design_changes")
    told = {(row["object"], row["field"]): (row["before"], row["after"]) for row in rows}
    assert told["antenna gnss1", "on"] == ("glareshield", "top")
    assert told["antenna gnss1", "at"] == ("58 L7 54 in", "80 0 in")
    assert told["cable w11", "length"] == ("31 in", "-")


def test_verdicts_stand_before_the_changes(context: Context) -> None:
    keys = [table.key for table in revision.build(assessed("twin"), context).tables]
    assert keys.index("design_verdicts") < keys.index("design_changes")


def test_a_build_that_kept_to_the_design_has_no_changes(context: Context) -> None:
    sheet = revision.build(assessed("twin"), context)
    last = sheet.tables[-1]
    assert (last.title, last.rows) == ("design to built: changes", ())
