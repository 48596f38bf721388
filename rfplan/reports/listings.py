# SPDX-License-Identifier: Apache-2.0
"""What ships, without any plan: rules with their limits, formulas, and what they were held to."""

from __future__ import annotations

from collections.abc import Iterable, Sequence

from rfplan.model.rulebook import Rule, Rulebook
from rfplan.reports.cells import LengthUnit, in_shown_unit, listed, number, quantity, words
from rfplan.reports.formulas import every_formula
from rfplan.reports.json_text import Json, rounded
from rfplan.reports.rule_limits import Limit, limits_of
from rfplan.reports.sheet import Cell, Field, Sheet, Table, number_field, table, text_field
from rfplan.reports.validation import Row, counts, outside_by_topic
from rfplan.rules import RULES
from rfplan.sources import Formula

FORMAT = "rfplan-rules/1"


def rules_json(rulebook: Rulebook | None = None, rules: Sequence[Rule] = RULES) -> Json:
    """Return the answer of `rfplan rules --json`, with limits where a rulebook tells them."""
    return {"format": FORMAT, "rules": [_rule_json(rule, rulebook) for rule in rules]}


def rules_sheet(
    rulebook: Rulebook | None = None,
    units: LengthUnit = "in",
    rules: Sequence[Rule] = RULES,
) -> Sheet:
    """Return rules with why they are there, what clears them and what they cannot see."""
    fields: list[Field[Rule]] = [
        text_field("id", "rule", lambda rule: words(rule.id)),
        text_field("name", "name", lambda rule: words(rule.name)),
        text_field("strictness", "strictness", _strictness),
        text_field("title", "finds", lambda rule: words(rule.title)),
        text_field("why", "why", lambda rule: words(rule.why)),
        text_field("remedy", "what clears it", lambda rule: words(rule.remedy)),
        text_field("known_limits", "known limits", lambda rule: words(rule.known_limits)),
        text_field("source", "source", lambda rule: words(rule.source.text())),
        text_field("limits", "shipped limits", lambda rule: _limits(rule, rulebook, units)),
    ]
    return Sheet("rules", "Rules", (), (table("rules", "By number", fields, rules, stub=2),), ())


def _strictness(rule: Rule) -> Cell:
    """Return 'advice; required where the spacing of the pair says so'."""
    other = f"; {rule.other} {rule.otherwise}" if rule.other else ""
    return words(f"{rule.strictness}{other}")


def formulas_sheet() -> Sheet:
    """Return every cited formula: what goes in, what comes out, and who says so."""
    fields: list[Field[Formula]] = [
        text_field("name", "formula", lambda one: words(one.name.removeprefix("rfplan."))),
        text_field("parameters", "takes", _parameters),
        text_field("returns", "returns", lambda one: words(one.returns)),
        text_field("source", "source", lambda one: listed(each.text() for each in one.citations)),
        text_field("class", "known by", _classes),
    ]
    rows = table("formulas", "By name", fields, every_formula())
    return Sheet("formulas", "Formulas and their sources", (), (rows,), ())


def _parameters(formula: Formula) -> Cell:
    return listed(f"{one.name} [{one.unit}]" for one in formula.parameters)


def _classes(formula: Formula) -> Cell:
    return listed(dict.fromkeys(each.document.source_class.words for each in formula.citations))


def validation_sheet(rows: Iterable[Row]) -> Sheet:
    """Return the published checks, source beside expected and computed, and how many they are."""
    rows = tuple(rows)
    fields: list[Field[Row]] = [
        text_field("id", "check", lambda row: words(row.check.id)),
        text_field("outcome", "outcome", lambda row: words("holds" if row.passed else "FAIL")),
        text_field("says", "what is computed", lambda row: words(row.check.says)),
        text_field("expected", "expected", lambda row: words(f"{row.check.expected:g}")),
        text_field("computed", "computed", lambda row: words(f"{row.computed:.6g}")),
        text_field("difference", "difference", lambda row: words(f"{row.difference:.2g}")),
        text_field("tolerance", "tolerance", lambda row: words(f"{row.check.tolerance:g}")),
        text_field("unit", "unit", lambda row: words(row.check.unit)),
        text_field("source", "source", lambda row: words(row.check.source.text())),
        text_field("class", "known by", lambda row: words(row.check.source_class.words)),
        text_field("kind", "worth", lambda row: words(str(row.check.kind).replace("_", " "))),
        text_field("function", "formula", lambda row: words(row.check.function)),
    ]
    tables = (table("rows", "Checks", fields, rows), _counts_table(rows), _topics_table(rows))
    return Sheet("validation", "Formulas against values from outside", (), tables, ())


def _counts_table(rows: tuple[Row, ...]) -> Table:
    """How many checks there are of each sort; sorts are never added up."""
    counted = [
        (sort.removeprefix("by_"), name.replace("_", " "), count)
        for sort, names in counts(rows).items()
        for name, count in sorted(names.items())
    ]
    fields: list[Field[tuple[str, str, int]]] = [
        text_field("by", "by", lambda row: words(row[0])),
        text_field("name", "name", lambda row: words(row[1])),
        number_field("checks", "checks", "", lambda row: number(row[2], "")),
    ]
    return table("counts", "Counts", fields, counted, stub=2)


def _topics_table(rows: tuple[Row, ...]) -> Table:
    """How far each topic rests on something outside, or that nothing was found."""
    fields: list[Field[tuple[str, int]]] = [
        text_field("topic", "topic", lambda row: words(row[0].replace("_", " "))),
        text_field("outside", "outside checks that were read", lambda row: words(_found(row[1]))),
    ]
    return table("topics", "By topic", fields, outside_by_topic(rows).items())


def _found(checks: int) -> str:
    return str(checks) if checks else "no outside check found"


def _rule_json(rule: Rule, rulebook: Rulebook | None) -> Json:
    return {
        "id": rule.id,
        "name": rule.name,
        "title": rule.title,
        "strictness": str(rule.strictness),
        "other_strictness": str(rule.other) if rule.other else None,
        "otherwise": rule.otherwise,
        "why": rule.why,
        "remedy": rule.remedy,
        "known_limits": rule.known_limits,
        "source": rule.source.text(),
        "source_class": str(rule.source.document.source_class),
        "limits": [_limit_json(limit) for limit in _shipped(rule, rulebook)],
    }


def _limit_json(limit: Limit) -> Json:
    return {
        "name": limit.name,
        "min": rounded(limit.least),
        "max": rounded(limit.most),
        "unit": limit.unit,
        "source": limit.source,
    }


def _shipped(rule: Rule, rulebook: Rulebook | None) -> tuple[Limit, ...]:
    return () if rulebook is None else limits_of(rule.id, rulebook)


def _limits(rule: Rule, rulebook: Rulebook | None, units: LengthUnit) -> Cell:
    return listed(_limit_text(limit, units) for limit in _shipped(rule, rulebook))


def _limit_text(limit: Limit, units: LengthUnit) -> str:
    """Return 'sep_gnss_com min 24.0 in'."""
    ends = {"min": limit.least, "max": limit.most}
    shown = [
        f"{side} {quantity(*in_shown_unit(end, limit.unit, units)).text}"
        for side, end in ends.items()
        if end is not None
    ]
    return f"{limit.name} {' '.join(shown)}"
