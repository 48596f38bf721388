# SPDX-License-Identifier: Apache-2.0
"""Exit codes, counts, and what decided a path."""

from __future__ import annotations

from dataclasses import replace

import pytest
from sample import sample_assessment, sample_plan

from rfplan.model.assessment import Assessment
from rfplan.model.findings import Verdict
from rfplan.model.plan import Revision
from rfplan.reports.outcome import decided_by, exit_code, is_draft, loss_word, waived, word_counts


@pytest.mark.parametrize(
    ("verdict", "code"),
    [
        (Verdict.FAIL_HIGH, 1),
        (Verdict.FAIL_LOW, 1),
        (Verdict.FAIL, 1),
        (Verdict.INCOMPLETE, 3),
        (Verdict.WAIVED, 0),
        (Verdict.NEAR, 0),
        (Verdict.PASS, 0),
    ],
)
def test_the_exit_code_follows_the_verdict(clean: Assessment, verdict: Verdict, code: int) -> None:
    assert exit_code(replace(clean, verdict=verdict)) == code


def test_strict_turns_a_waived_finding_into_a_failure(busy: Assessment) -> None:
    only_waived = replace(
        busy,
        verdict=Verdict.WAIVED,
        findings=tuple(one for one in busy.findings if one.verdict is Verdict.WAIVED),
    )
    assert exit_code(only_waived) == 0
    assert exit_code(only_waived, strict=True) == 1
    assert exit_code(replace(only_waived, verdict=Verdict.INCOMPLETE), strict=True) == 1


def test_strict_changes_nothing_where_nothing_is_waived(clean: Assessment) -> None:
    assert exit_code(clean, strict=True) == 0


def test_counts_name_every_word_even_those_that_do_not_occur() -> None:
    counts = word_counts([Verdict.PASS, Verdict.PASS, Verdict.FAIL])
    assert set(counts) == set(Verdict)
    assert (counts[Verdict.PASS], counts[Verdict.FAIL], counts[Verdict.NEAR]) == (2, 1, 0)


def test_waived_findings_are_counted(busy: Assessment) -> None:
    assert waived(busy) == 1


@pytest.mark.parametrize(
    ("status", "verdict", "draft"),
    [
        ("draft", Verdict.PASS, True),
        (None, Verdict.PASS, True),
        ("released", Verdict.PASS, False),
        ("as built", Verdict.WAIVED, False),
        ("released", Verdict.FAIL_LOW, True),
        ("released", Verdict.INCOMPLETE, True),
    ],
)
def test_a_sheet_is_a_draft_until_it_is_released_and_decided(status, verdict, draft) -> None:
    assessment = sample_assessment(sample_plan(revision=Revision("A", status)))
    assert is_draft(replace(assessment, verdict=verdict)) is draft


def test_the_loss_decides_where_it_is_as_bad_as_the_path(clean: Assessment) -> None:
    assert {decided_by(path, clean) for path in clean.paths} == {""}


def test_a_near_loss_is_named_near(clean: Assessment) -> None:
    path = clean.paths[0]
    near = replace(path, loss=replace(path.loss, near=True), overall=Verdict.NEAR)
    assert loss_word(near) is Verdict.NEAR
    assert decided_by(near, clean) == ""


def test_the_rule_that_made_a_path_worse_than_its_loss_is_named(busy: Assessment) -> None:
    decided = {path.id: decided_by(path, busy) for path in busy.paths}
    assert decided == {"com1": "spacing", "gnss1": "spacing", "xpdr1": "spacing"}


def test_power_at_the_antenna_is_named_where_no_finding_decided(clean: Assessment) -> None:
    path = replace(clean.paths[2], overall=Verdict.FAIL)
    assert decided_by(path, clean) == "power-at-antenna"
