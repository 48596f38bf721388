# SPDX-License-Identifier: Apache-2.0
"""What `rfplan check` prints: the verdict, a line for each path, findings, open points, counts."""

from __future__ import annotations

from collections.abc import Iterable
from itertools import groupby

from rfplan.model.assessment import Assessment, PathAssessment
from rfplan.model.findings import Finding, OpenPoint, Verdict
from rfplan.reports.cells import (
    listed,
    verdict_cell,
    words,
    words_or_nothing,
)
from rfplan.reports.context import Context
from rfplan.reports.heading import CAUTIONS, aircraft, marks
from rfplan.reports.loss_line import governing, nearer_margin, window_text
from rfplan.reports.outcome import decided_by, loss_word, word_counts
from rfplan.reports.sheet import Cell, Field, Sheet, Table, table, text_field
from rfplan.reports.sheets.findings import in_order
from rfplan.reports.sheets.open_points import kind_cell
from rfplan.reports.wording import place_of, placed, spoken

KEY = "summary"
TITLE = "Check"


def build(assessment: Assessment, context: Context) -> Sheet:
    """Return the verdict and what led to it; the last line counts everything."""
    header = (
        ("verdict", verdict_cell(assessment.verdict)),
        *marks(assessment),
        *aircraft(assessment.plan),
    )
    tables = (
        _paths_table(assessment),
        _findings_table(assessment, context),
        _open_points_table(assessment),
    )
    return Sheet(KEY, TITLE, header, tables, (*CAUTIONS, counts_line(assessment)))


def _paths_table(assessment: Assessment) -> Table:
    fields: list[Field[PathAssessment]] = [
        text_field("overall", "overall", lambda path: verdict_cell(path.overall)),
        text_field("path", "path", lambda path: words(path.id)),
        text_field("loss", "loss", lambda path: verdict_cell(loss_word(path))),
        text_field(
            "window", "loss in its window", lambda path: words(window_text(governing(path)))
        ),
        text_field("margin", "margin", lambda path: nearer_margin(governing(path))),
        text_field(
            "decided_by",
            "decided by",
            lambda path: words_or_nothing(decided_by(path, assessment)),
        ),
    ]
    return table("paths", "Paths", fields, assessment.paths, stub=2)


def _findings_table(assessment: Assessment, context: Context) -> Table:
    """Findings worst first; advice of one rule shares a line."""
    groups = [
        list(group)
        for _, group in groupby(in_order(assessment), lambda one: (one.verdict, _shared(one)))
    ]
    fields: list[Field[list[Finding]]] = [
        text_field(
            "verdict",
            "verdict",
            lambda group: words(spoken(group[0].verdict), str(group[0].verdict)),
        ),
        text_field("rule", "rule", lambda group: words(f"{group[0].rule} {group[0].name}")),
        text_field("text", "what was found", lambda group: _told(group, context)),
    ]
    return table("findings", "Findings", fields, groups, stub=2)


def _shared(finding: Finding) -> str:
    return finding.rule if finding.verdict is Verdict.ADVICE else finding.id


def _told(group: list[Finding], context: Context) -> Cell:
    if len(group) == 1:
        return words(placed(group[0], context))
    named = listed(f"{place_of(one, context)}{'+'.join(one.objects)}" for one in group)
    return words(f"{len(group)}: {named.text}")


def _open_points_table(assessment: Assessment) -> Table:
    fields: list[Field[OpenPoint]] = [
        text_field("kind", "kind", kind_cell),
        text_field("text", "what is open", lambda point: words(point.text)),
    ]
    return table("open_points", "Open points", fields, assessment.open_points)


def counts_line(assessment: Assessment) -> str:
    """Return 'paths: 2 PASS; findings: 1 FAIL, 2 WAIVED; open points: 0 blocking, 1 to confirm'."""
    blocking = sum(point.blocking for point in assessment.open_points)
    to_confirm = len(assessment.open_points) - blocking
    return "; ".join(
        (
            f"paths: {_counted(path.overall for path in assessment.paths)}",
            f"findings: {_counted(finding.verdict for finding in assessment.findings)}",
            f"open points: {blocking} blocking, {to_confirm} to confirm",
        )
    )


def _counted(verdicts: Iterable[Verdict]) -> str:
    counts = word_counts(verdicts)
    return ", ".join(f"{count} {word}" for word, count in counts.items() if count) or "none"
