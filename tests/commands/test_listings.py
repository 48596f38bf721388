# SPDX-License-Identifier: Apache-2.0
"""rfplan rules, validation, formulas: what ships, for people and for programs."""

from __future__ import annotations

import json
from dataclasses import replace

import pytest
from command_line import Run

from rfplan.commands import validation
from rfplan.reports.validation import validation_rows
from rfplan.rules import RULES


@pytest.mark.parametrize(
    ("command", "format"),
    [
        ("rules", "rfplan-rules/1"),
        ("validation", "rfplan-validation/1"),
        ("formulas", "rfplan-formulas/1"),
    ],
)
def test_each_listing_is_there_for_programs_and_for_people(
    rfplan: Run, command: str, format: str
) -> None:
    answer = rfplan(command, "--json")
    assert (answer.code, answer.err) == (0, "")
    assert json.loads(answer.out)["format"] == format
    shown = rfplan(command)
    assert (shown.code, shown.err) == (0, "")
    assert len(shown.out.splitlines()) > 20


def test_every_rule_is_listed_and_the_shipped_limits_with_them(rfplan: Run) -> None:
    listed = json.loads(rfplan("rules", "--json").out)["rules"]
    assert [rule["id"] for rule in listed] == [rule.id for rule in RULES]
    assert any(rule["limits"] for rule in listed)
    shown = rfplan("rules").out
    assert all(rule.id in shown for rule in RULES)


def test_a_check_that_does_not_hold_gives_exit_code_1(
    rfplan: Run, monkeypatch: pytest.MonkeyPatch
) -> None:
    good = validation_rows()
    bad = replace(good[0], computed=good[0].check.expected + 1e9)
    monkeypatch.setattr(validation, "validation_rows", lambda: (bad, *good[1:]))
    assert rfplan("validation").code == 1
    answer = rfplan("validation", "--json")
    assert answer.code == 1
    assert json.loads(answer.out)["rows"][0]["pass"] is False


def test_one_rule_is_explained_alone_and_an_unknown_one_named(rfplan: Run) -> None:
    shown = rfplan("rules", "rf501")
    assert shown.code == 0
    assert "RF501" in shown.out and "RF502" not in shown.out
    refused = rfplan("rules", "RF999")
    assert refused.code == 2
    assert "no rule 'RF999'" in refused.err
