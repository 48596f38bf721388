# SPDX-License-Identifier: Apache-2.0
"""What the rules found: values, limits, what clears each, and who accepted it."""

from __future__ import annotations

from collections.abc import Callable

from rfplan.model.assessment import Assessment
from rfplan.model.findings import RANK, Finding, Verdict, WaiverNote
from rfplan.reports.cells import listed, nothing, words, words_or_nothing
from rfplan.reports.context import Context
from rfplan.reports.heading import sheet, signature
from rfplan.reports.sheet import Cell, Field, Sheet, table, text_field
from rfplan.reports.wording import placed, spoken, value_and_limit
from rfplan.rules.waivers import binding_of, has_numbers

KEY = "findings"
TITLE = "Findings"

LIMITS = (
    "Disposition: a blank is filled in with fix, waive, test or open. What is not known stays "
    "open; advice needs none.",
)


def build(assessment: Assessment, context: Context) -> Sheet:
    """Return every finding, worst first."""
    fields: list[Field[Finding]] = [
        text_field("verdict", "verdict", verdict),
        text_field("rule", "rule", lambda one: words(one.rule)),
        text_field("objects", "objects", lambda one: listed(one.objects)),
        text_field("name", "name", lambda one: words(one.name)),
        text_field("strictness", "strictness", lambda one: words(str(one.strictness))),
        text_field("text", "what was found", lambda one: words(placed(one, context))),
        text_field("value", "value", lambda one: _numbers(one, context)[0]),
        text_field("limit", "limit", lambda one: _numbers(one, context)[1]),
        text_field("remedy", "what clears it", lambda one: words(one.remedy)),
        text_field("source", "source", lambda one: words_or_nothing(one.source)),
        text_field("class", "class", lambda one: words_or_nothing(one.source_class)),
        text_field("paths", "paths", lambda one: listed(one.paths)),
        text_field("disposition", "disposition", _disposition),
        *_waiver_fields(),
        text_field("binds", "a waiver binds to", lambda one: _binds(one, context)),
    ]
    return sheet(
        assessment,
        context,
        KEY,
        TITLE,
        table(KEY, "Worst first", fields, in_order(assessment), stub=3),
        limits=LIMITS,
    )


def in_order(assessment: Assessment) -> list[Finding]:
    """Return the findings, worst first, then by their identity."""
    return sorted(assessment.findings, key=lambda one: (RANK[one.verdict], one.id))


def verdict(finding: Finding) -> Cell:
    """Return the verdict of a finding as a list prints it."""
    return words(spoken(finding.verdict), str(finding.verdict))


def _numbers(finding: Finding, context: Context) -> tuple[Cell, Cell]:
    """Both numbers, or dashes where a rule only says yes or no."""
    if not finding.unit and "{value}" not in finding.text:
        return nothing(), nothing()
    return value_and_limit(finding, context.units)


def _disposition(finding: Finding) -> Cell:
    """What becomes of a finding: as a waiver that holds or missing data says, else a blank."""
    if finding.waiver and finding.waiver.holds:
        return words("waive")
    if finding.verdict is Verdict.INCOMPLETE:
        return words("open")
    return nothing("none needed") if finding.verdict is Verdict.ADVICE else signature()


def _waiver_fields() -> list[Field[Finding]]:
    """Who accepted a finding, when and why, and whether that still holds."""

    def field(key: str, title: str, told: Callable[[WaiverNote], str | None]) -> Field[Finding]:
        return text_field(
            key, title, lambda one: words_or_nothing(told(one.waiver) if one.waiver else None)
        )

    return [
        field("waiver", "waiver", lambda note: note.id),
        field("who", "accepted by", lambda note: note.who),
        field("role", "role", lambda note: note.role),
        field("date", "on", lambda note: note.date),
        field("reason", "reason", lambda note: note.reason),
        field("check", "compensating check", lambda note: note.check),
        field("standing", "standing", _standing),
        field("approved_data", "approved data", lambda note: note.approved_data),
    ]


def _standing(note: WaiverNote) -> str:
    if note.reopened:
        return f"reopened: {'not what was accepted' if note.changed else 'worse than accepted'}"
    if not note.holds:
        return "signed by nobody"
    return "not bound" if note.unbound else "holds"


def _binds(finding: Finding, context: Context) -> Cell:
    """What the tool writes into a waiver that is signed today: values, and eight digits."""
    if finding.verdict is Verdict.INCOMPLETE:
        return nothing("cannot be waived")
    have, need = value_and_limit(finding, context.units)
    values = f"accepted: {{have: {have.text}, need: {need.text}}}, " if has_numbers(finding) else ""
    return words(f"{values}bound: {binding_of(finding)}")
