# SPDX-License-Identifier: Apache-2.0
"""Rules and formulas as they are listed for people and for programs."""

from __future__ import annotations

import inspect
import json
import re
from dataclasses import replace
from types import ModuleType

import pytest
from sample import sample_rulebook

from rfplan.model.rulebook import Rulebook
from rfplan.reports.json_text import json_text
from rfplan.reports.listings import formulas_sheet, rules_json, rules_sheet, validation_sheet
from rfplan.reports.rule_limits import limits_of, source_text
from rfplan.reports.validation import published_checks, validation_rows
from rfplan.rules import MODULES, RULES

KEYS = {"id", "name", "strictness", "why", "remedy", "known_limits", "source", "limits"}


@pytest.fixture
def rulebook() -> Rulebook:
    return sample_rulebook()


def test_every_rule_is_listed_with_all_its_words(rulebook: Rulebook) -> None:
    answer = json.loads(json_text(rules_json(rulebook)))
    assert answer["format"] == "rfplan-rules/1"
    assert [rule["id"] for rule in answer["rules"]] == [rule.id for rule in RULES]
    for rule in answer["rules"]:
        assert set(rule) >= KEYS
        assert all(rule[key] for key in KEYS - {"limits"})


def test_the_shipped_spacings_are_the_limits_of_the_spacing_rule(rulebook: Rulebook) -> None:
    limits = {limit.name: limit for limit in limits_of("RF501", rulebook)}
    assert set(limits) == set(rulebook.spacings)
    assert limits["sep_gnss_com"].least == rulebook.spacings["sep_gnss_com"].min_m
    assert limits["sep_gnss_com"].most is None


@pytest.mark.parametrize(
    ("rule", "names"),
    [
        ("RF206", {"base_gap"}),
        ("RF306", {"bend_floor", "bend_advice"}),
        ("RF314", {"shorter_than_straight", "shorter_than_straight_part"}),
        ("RF402", {"transponder.high", "transponder.atcrbs", "transponder.mode_s"}),
        ("RF201", set()),
    ],
)
def test_a_rule_lists_the_numbers_it_compares_with(
    rulebook: Rulebook, rule: str, names: set[str]
) -> None:
    assert {limit.name for limit in limits_of(rule, rulebook)} == names


def test_a_rule_that_fails_in_some_cases_and_advises_in_others_says_both() -> None:
    listed = {row[0].text: row[2].text for row in rules_sheet().tables[0].rows}
    assert (
        listed["RF501"] == "advice; required where the spacing of the pair says `strict: required`"
    )
    assert listed["RF202"].startswith("required; advice where the zone says")
    assert listed["RF401"] == "required"
    by_id = {rule["id"]: rule for rule in rules_json()["rules"]}
    assert by_id["RF205"]["other_strictness"] == "required"
    assert by_id["RF401"]["other_strictness"] is None


DECIDES = re.compile(
    r"Strictness\.(ADVICE|REQUIRED).*Strictness\.(?!\1)|zone_room|\.strict\b|\.agreement\b", re.S
)
"""How the file of a rule reads that does not leave every finding the strictness of the rule."""


@pytest.mark.parametrize("module", MODULES, ids=lambda module: module.RULE.id)
def test_a_rule_says_where_it_is_otherwise_exactly_if_its_findings_may_be(
    module: ModuleType,
) -> None:
    code = inspect.getsource(module).replace(module.RULE.otherwise or "\0", "")
    assert bool(DECIDES.search(code)) == bool(module.RULE.otherwise)


def test_limits_follow_the_tables(rulebook: Rulebook) -> None:
    powers = {limit.name: limit for limit in limits_of("RF402", rulebook)}
    assert (powers["transponder.high"].least, powers["transponder.high"].most) == (125.0, 500.0)


def test_a_document_is_told_by_its_title_and_anything_else_as_it_is() -> None:
    assert source_text("INVENTED") == "Invented for the demo aircraft"
    assert source_text("no such key") == "no such key"
    assert source_text(None) == ""


def test_the_sheet_of_rules_shows_limits_in_the_unit_asked_for(rulebook: Rulebook) -> None:
    for units, shown in (("in", "sep_gnss_com min 24.0 in"), ("mm", "sep_gnss_com min 610 mm")):
        rows = rules_sheet(rulebook, units).tables[0].rows
        assert len(rows) == len(RULES)
        spacing = next(row for row in rows if row[0].text == "RF501")
        assert shown in spacing[-1].text


def test_every_formula_is_listed_with_units_and_source() -> None:
    rows = [[cell.text for cell in row] for row in formulas_sheet().tables[0].rows]
    named = {row[0]: row for row in rows}
    row = named["physics.decibel.power_ratio_db"]
    assert row[1:3] == ["power_w [W], reference_w [W]", "dB"]
    assert "definition of the decibel" in row[3]
    assert len(named) > 50
    assert all(row[3] != "-" for row in rows)


def test_without_a_rulebook_rules_are_listed_without_limits() -> None:
    assert all(rule["limits"] == [] for rule in rules_json()["rules"])
    assert {row[-1].text for row in rules_sheet().tables[0].rows} == {"-"}


def test_validation_shows_every_check_and_counts_each_sort_apart() -> None:
    rows = validation_rows(published_checks()[:5])
    wrong = replace(rows[0], computed=rows[0].computed + 1.0)
    checks, counted, _ = validation_sheet((wrong, *rows[1:])).tables
    assert [row[0].text for row in checks.rows] == [row.check.id for row in rows]
    assert [row[1].text for row in checks.rows] == ["FAIL"] + ["holds"] * 4
    told = {(row[0].text, row[1].text): row[2].value for row in counted.rows}
    assert told["outcome", "pass"] == 4
    assert sum(count for (by, _), count in told.items() if by == "class") == 5


def test_a_topic_without_a_check_from_outside_says_so() -> None:
    rows = validation_rows()
    topics = validation_sheet(rows).tables[2]
    told = {row[0].text: row[1].text for row in topics.rows}
    assert told.keys() == {row.check.topic.replace("_", " ") for row in rows}
    assert "no outside check found" in told.values()
    assert any(text.isdigit() for text in told.values())
