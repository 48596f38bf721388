# SPDX-License-Identifier: Apache-2.0
"""The list of findings, worst first, in the words of the check."""

from __future__ import annotations

from rfplan.model.assessment import Assessment, PathAssessment
from rfplan.model.findings import Finding, OpenPoint, Verdict
from rfplan.reports.outcome import own_word, unmet_paths
from rfplan.reports.sheets.findings import in_order
from rfplan.reports.wording import said
from rfplan.reports.wrapping import wrapped
from rfplan.tui.panes import Item, Pane, heading
from rfplan.tui.present.tags import Type, tag
from rfplan.tui.runs import Row, Run, width, words_cut
from rfplan.tui.tokens import Token

ALL_GOOD = "Nothing to report: every path and rule passes."
INDENT = "  "


def findings_pane(assessment: Assessment, chosen: str | None, columns: int, type: Type) -> Pane:
    """Return what bears on a verdict, then advice, then what is to be confirmed."""
    found = in_order(assessment)
    items = [Item(_rows(finding, columns, type), finding.id) for finding in found]
    points = [
        Item(_open_rows(point, columns, type), point.id if point.accepts else "")
        for point in sorted(assessment.open_points, key=lambda point: not point.blocking)
    ]
    blocking = sum(point.blocking for point in assessment.open_points)
    counted = sum(finding.verdict is not Verdict.ADVICE for finding in found)
    items[counted:counted] = points[:blocking]
    items += points[blocking:]
    unmet = unmet_paths(assessment)
    if not found and not unmet:
        items.insert(0, Item([[Run(ALL_GOOD, Token.PASS)]]))
    title = heading(_title(found, unmet))
    return Pane("findings", title, items, cursor=chosen or "")


def _title(found: list[Finding], unmet: list[PathAssessment]) -> str:
    """The count of what bears on a verdict, of paths that their own limits fail, and of advice."""
    advice = sum(finding.verdict is Verdict.ADVICE for finding in found)
    counted = len(found) - advice
    counts = [f"Findings {counted}"]
    failed = sum(own_word(path).fails for path in unmet)
    if failed:
        counts.append("1 path fails" if failed == 1 else f"{failed} paths fail")
    if unmet[failed:]:
        counts.append(f"{len(unmet) - failed} INCOMPLETE")
    if advice:
        counts.append(f"advice {advice}")
    return ", ".join(counts)


def _rows(finding: Finding, columns: int, type: Type) -> list[Row]:
    """Sign, word and rule, then what was found, wrapped below; an advice on one line."""
    first = _tag(finding, type)
    if finding.verdict is Verdict.ADVICE:
        room = columns - width(first) - 1
        told = words_cut(f"{finding.name}: {', '.join(finding.objects)}", room, type.ellipsis)
        return [[*first, Run(f" {told}", Token.DIM)]]
    lines = wrapped(said(finding, type.unit), columns - len(INDENT))
    name = Run(f" {finding.name}", Token.DIM)
    return [[*first, name], *([Run(INDENT), Run(line)] for line in lines)]


def _open_rows(point: OpenPoint, columns: int, type: Type) -> list[Row]:
    """A point that blocks in full, one to confirm on one line."""
    if not point.blocking:
        told = words_cut(point_words(point), columns - len(INDENT), type.ellipsis)
        return [[Run(INDENT), Run(told, Token.FAINT)]]
    lines = wrapped(point.text, columns - len(INDENT))
    first = [*tag(Verdict.INCOMPLETE, type.glyphs), Run(" open point", Token.DIM)]
    return [first, *([Run(INDENT), Run(line)] for line in lines)]


def point_words(point: OpenPoint) -> str:
    """Return a point to confirm on one line: what is open, and whether somebody accepted it."""
    accepted = point.acceptance
    if accepted is None or accepted.reopened:
        return f"to confirm: {point.text}"
    return f"accepted by {accepted.who}: {point.text}"


def finding_words(finding: Finding, type: Type) -> Row:
    """Return a finding on one line."""
    text = f"{finding.rule} {finding.name}: {said(finding, type.unit)}"
    return [*_tag(finding, type), Run(f"  {text}")]


def _tag(finding: Finding, type: Type) -> Row:
    return tag(finding.verdict, type.glyphs)
