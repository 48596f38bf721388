# SPDX-License-Identifier: Apache-2.0
"""The findings sheet: worst first, with values, what clears each and who accepted it."""

from __future__ import annotations

from dataclasses import replace

import pytest
from sample import sample_assessment

from rfplan.model.assessment import Assessment
from rfplan.model.findings import Finding, Verdict
from rfplan.model.record import ById
from rfplan.reports.context import Context
from rfplan.reports.sheets import findings


def rows(assessment: Assessment, context: Context) -> list[dict[str, str]]:
    table = findings.build(assessment, context).tables[0]
    keys = [column.key for column in table.columns]
    return [dict(zip(keys, [cell.text for cell in row], strict=True)) for row in table.rows]


def test_the_worst_stands_first_and_a_waived_limit_is_said_to_be_not_met(
    busy: Assessment, context: Context
) -> None:
    verdicts = [row["verdict"] for row in rows(busy, context)]
    assert verdicts[:2] == ["FAIL", "WAIVED (limit not met)"]
    assert set(verdicts[2:]) == {"ADVICE"}


def test_a_finding_tells_value_limit_source_and_what_clears_it(
    busy: Assessment, context: Context
) -> None:
    row = rows(busy, context)[0]
    assert (row["rule"], row["name"], row["strictness"]) == ("RF501", "spacing", "required")
    assert (row["value"], row["limit"]) == ("6.0 in", "12.0 in")
    assert row["text"] == "xpdr1 is 6.0 in from gnss1; needs 12.0 in"
    assert row["source"] == "invented sheet issue 1 (specification, invented)"
    assert row["class"] == "specification"
    assert row["remedy"].startswith("move one of them")
    assert row["paths"] == "gnss1, xpdr1"


def test_a_waiver_tells_who_when_and_why(busy: Assessment, context: Context) -> None:
    row = rows(busy, context)[1]
    assert (row["waiver"], row["who"], row["date"]) == ("v1", "E. Three", "2026-11-25")
    assert row["reason"] == "no free place further aft"
    assert row["approved_data"] == "-"


def test_a_waiver_tells_the_role_of_who_signed_it(busy: Assessment, context: Context) -> None:
    assert rows(busy, context)[1]["role"] == "-"
    plan = busy.plan
    signed = replace(plan.waivers["v1"], role="engineer")
    changed = sample_assessment(replace(plan, waivers=ById({"v1": signed})))
    assert rows(changed, context)[1]["role"] == "engineer"


def test_a_waiver_tells_what_is_checked_to_make_up_for_it(
    busy: Assessment, context: Context
) -> None:
    assert rows(busy, context)[1]["check"] == "-"
    plan = busy.plan
    asked = replace(plan.waivers["v1"], check="key com1 and watch gnss1")
    changed = sample_assessment(replace(plan, waivers=ById({"v1": asked})))
    assert rows(changed, context)[1]["check"] == "key com1 and watch gnss1"


def test_a_disposition_is_told_where_it_is_taken_and_else_left_blank(
    busy: Assessment, context: Context
) -> None:
    failed, waived, advice = busy.findings[0], busy.findings[1], busy.findings[-1]
    assert waived.waiver is not None
    again = replace(
        waived, verdict=Verdict.FAIL, waiver=replace(waived.waiver, reopened=True, changed=True)
    )

    def told(finding: Finding) -> str:
        (row,) = rows(replace(busy, findings=(finding,)), context)
        return row["disposition"]

    assert [told(one) for one in (failed, waived, again)] == ["________", "waive", "________"]
    assert told(replace(failed, verdict=Verdict.INCOMPLETE)) == "open"
    assert told(advice) == "none needed"
    assert told(replace(advice, waiver=waived.waiver)) == "waive"


@pytest.mark.parametrize(
    ("reopened", "unbound", "standing"),
    [
        (True, False, "reopened: worse than accepted"),
        (False, True, "not bound"),
        (False, False, "holds"),
    ],
)
def test_a_waiver_tells_whether_it_still_holds(
    busy: Assessment, context: Context, reopened: bool, unbound: bool, standing: str
) -> None:
    waived = busy.findings[1]
    assert waived.waiver is not None
    note = replace(waived.waiver, reopened=reopened, unbound=unbound)
    changed = replace(busy, findings=(replace(waived, waiver=note),))
    assert rows(changed, context)[0]["standing"] == standing


def test_a_rule_that_only_says_yes_or_no_prints_no_numbers(
    busy: Assessment, context: Context
) -> None:
    told = replace(busy.findings[0], text="it is inside", value=0.0, limit=1.0, unit="")
    row = rows(replace(busy, findings=(told,)), context)[0]
    assert (row["value"], row["limit"]) == ("-", "-")


def test_a_finding_that_may_be_waived_tells_what_a_waiver_binds_to(
    busy: Assessment, context: Context
) -> None:
    told = rows(busy, context)
    assert told[0]["binds"].startswith("accepted: {have: 6.0 in, need: 12.0 in}, bound: ")
    assert all("bound: " in row["binds"] for row in told)
    unknown = replace(busy.findings[0], verdict=Verdict.INCOMPLETE)
    (row,) = rows(replace(busy, findings=(unknown,)), context)
    assert row["binds"] == "cannot be waived"


def test_a_waiver_that_was_signed_for_something_else_says_so(
    busy: Assessment, context: Context
) -> None:
    waived = busy.findings[1]
    assert waived.waiver is not None
    note = replace(waived.waiver, reopened=True, changed=True)
    changed = replace(busy, findings=(replace(waived, waiver=note),))
    assert rows(changed, context)[0]["standing"] == "reopened: not what was accepted"
