# SPDX-License-Identifier: Apache-2.0
"""A sheet says whose it is, what it rests on, and that it is a draft while it is one."""

from __future__ import annotations

from dataclasses import replace

import pytest
from sample import sample_assessment, sample_plan

from rfplan.model.assessment import Assessment
from rfplan.model.plan import Revision, State
from rfplan.reports.context import Context
from rfplan.reports.heading import CAUTIONS, heading, sheet_id
from rfplan.reports.sheets import SHEETS


def lines(assessment: Assessment, context: Context) -> dict[str, str]:
    return {label: cell.text for label, cell in heading(assessment, context, "loss_budget")}


def test_the_heading_tells_everything_the_numbers_rest_on(
    clean: Assessment, context: Context
) -> None:
    told = lines(clean, context)
    assert told["sheet"] == "sample/A/design/loss_budget"
    assert told["aircraft"] == "Sample two-seater"
    assert (told["serial"], told["variant"], told["state"]) == ("17", "base", "design")
    assert told["revision"] == "A, draft, 2026-11-25"
    assert told["date"] == "2026-11-26"
    assert told["files"] == "plan.yaml, airframe.yaml"
    assert told["tool"] == "rfplan 0.0.test"
    assert told["plan hash"] == context.hashes.plan
    assert told["catalogue hash"] == context.hashes.catalog
    assert told["rules hash"] == context.hashes.rules
    assert told["temperature"] == "-55 .. 70 degC"
    assert told["temperature model"].startswith("conductor")
    assert told["stack-up"] == "worst_case"
    assert told["prepared"] == "P. One, P1"
    assert told["checked"] == "C. Two, engineer"


def test_without_a_date_a_sheet_is_undated(clean: Assessment, context: Context) -> None:
    assert lines(clean, replace(context, date=None))["date"] == "undated"


def test_a_draft_says_so_with_verdict_and_status(busy: Assessment, context: Context) -> None:
    assert lines(busy, context)["DRAFT"] == "verdict FAIL, revision draft"


def test_a_released_sheet_that_passes_is_no_draft(context: Context) -> None:
    released = sample_assessment(sample_plan(revision=Revision("B", "released")))
    assert "DRAFT" not in lines(released, context)


def test_a_sheet_without_revision_letter_still_has_an_id() -> None:
    plan = sample_plan(revision=Revision(), state=State.FOUND)
    assert sheet_id(plan, "spacing") == "sample/no-letter/found/spacing"


@pytest.mark.parametrize("key", SHEETS)
def test_every_sheet_carries_the_draft_mark_and_ends_with_the_cautions(
    key: str, busy: Assessment, context: Context
) -> None:
    sheet = SHEETS[key].build(busy, context)
    assert "DRAFT" in dict(sheet.header)
    first = sheet.notes.index(CAUTIONS[0])
    assert sheet.notes[first : first + len(CAUTIONS)] == CAUTIONS


def test_no_caution_promises_more_than_an_entered_limit_that_is_met() -> None:
    text = " ".join(CAUTIONS)
    assert "entered limit" in text
    for word in ("certified", "approved", "airworthy", "safe"):
        assert word not in text
