# SPDX-License-Identifier: Apache-2.0
"""The words of a finding with its numbers put in."""

from __future__ import annotations

import re

from rfplan.model.findings import Finding, Verdict, WaiverNote
from rfplan.reports.cells import LengthUnit, in_shown_unit, quantity, telling_digits
from rfplan.reports.context import Context
from rfplan.reports.sheet import Cell

_TOKEN = re.compile(r"\{(value|limit)\}")


def value_and_limit(finding: Finding, units: LengthUnit) -> tuple[Cell, Cell]:
    """Return both numbers of a finding, with digits enough to tell one from the other."""
    value, unit = in_shown_unit(finding.value, finding.unit, units)
    limit, _ = in_shown_unit(finding.limit, finding.unit, units)
    digits = telling_digits(value, limit, unit, fails=True) if unit else None
    return quantity(value, unit, digits=digits), quantity(limit, unit, digits=digits)


def said(finding: Finding, units: LengthUnit) -> str:
    """Return the text of a finding with `{value}` and `{limit}` printed, and why it reopened."""
    value, limit = value_and_limit(finding, units)
    printed = {"value": value.text, "limit": limit.text}
    return _TOKEN.sub(lambda token: printed[token[1]], finding.text) + _reopening(finding.waiver)


def placed(finding: Finding, context: Context) -> str:
    """Return what is said of a finding, behind the place of the entry that it is about."""
    return place_of(finding, context) + said(finding, context.units)


def place_of(finding: Finding, context: Context) -> str:
    """Return 'plan.yaml:12:3: ' of a finding about an entry of the plan, else nothing."""
    if not finding.where or context.where is None:
        return ""
    return "{}:{}:{}: ".format(*context.where(finding.where))


def _reopening(note: WaiverNote | None) -> str:
    """Return '; waiver v1 covers 26.0 in, needed 30.0 in' where that is no longer so."""
    if note is None or note.holds:
        return ""
    if not note.reopened:
        return f"; waiver {note.id} is signed by nobody"
    if note.changed or note.accepted is None:
        return f"; waiver {note.id} was signed for another finding or document"
    return f"; waiver {note.id} covers {note.accepted.have}, needed {note.accepted.need}"


def spoken(verdict: Verdict) -> str:
    """Return a verdict as a findings list prints it: a waived limit is still not met."""
    return "WAIVED (limit not met)" if verdict is Verdict.WAIVED else str(verdict)
