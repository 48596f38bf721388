# SPDX-License-Identifier: Apache-2.0
"""Every number behind one path or one finding."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace

from rfplan.model.assessment import Assessment
from rfplan.model.findings import Finding
from rfplan.model.record import ById
from rfplan.model.rulebook import Rule
from rfplan.reports.cells import words
from rfplan.reports.context import Context
from rfplan.reports.sheet import Field, Sheet, Table, table, text_field
from rfplan.reports.sheets import findings, loss_budget, response
from rfplan.rules import RULES


def why(assessment: Assessment, context: Context, id: str) -> Sheet | None:
    """Return the sheet of one path or finding by its id, or None where there is no such id."""
    if any(path.id == id for path in assessment.paths):
        narrowed = _of_path(assessment, id)
        budget = loss_budget.build(narrowed, context)
        found = findings.build(narrowed, context) if narrowed.findings else None
        over = response.build(narrowed, context)
        tables = budget.tables + over.tables + (found.tables if found else ())
        return replace(budget, title=f"Why {id}", tables=tuple(t for t in tables if t.rows))
    matching = tuple(one for one in assessment.findings if one.id == id)
    if not matching:
        return None
    sheet = findings.build(replace(assessment, findings=matching), context)
    return replace(sheet, title=f"Why {id}", tables=(*sheet.tables, *_rule_tables(matching)))


def _of_path(assessment: Assessment, id: str) -> Assessment:
    path = next(path for path in assessment.paths if path.id == id)
    return replace(
        assessment,
        paths=(path,),
        cables=ById((name, assessment.cables[name]) for name in path.cables),
        findings=tuple(one for one in assessment.findings if one.id in path.findings),
    )


def _rule_tables(matching: tuple[Finding, ...]) -> Iterator[Table]:
    fields: list[Field[tuple[str, str]]] = [
        text_field("what", "what", lambda row: words(row[0])),
        text_field("text", "in words", lambda row: words(row[1])),
    ]
    for rule in RULES:
        if rule.id in {one.rule for one in matching}:
            yield table("rule", f"{rule.id} {rule.title}", fields, _rule_rows(rule))


def _rule_rows(rule: Rule) -> list[tuple[str, str]]:
    return [
        ("why", rule.why),
        ("what clears it", rule.remedy),
        ("limits of the rule", rule.known_limits),
        ("source", rule.source.text()),
    ]
