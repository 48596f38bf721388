# SPDX-License-Identifier: Apache-2.0
"""What waivers do to findings: accept them by name, and reopen when they got worse."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from dataclasses import replace

from rfplan.analysis.binding import binding
from rfplan.model.findings import Finding, Verdict, WaiverNote
from rfplan.model.plan import Accepted, Plan, Waiver
from rfplan.units import (
    ANGLE,
    CARRIER_TO_NOISE,
    CURRENT,
    LENGTH,
    LOSS,
    RATIO,
    TIME,
    VOLTAGE,
    Kind,
    QuantityError,
    parse,
)

KINDS: dict[str, tuple[Kind, float]] = {
    "m": (LENGTH, 0.0013),
    "dB": (LOSS, 0.005),
    "": (RATIO, 0.0005),
    "V": (VOLTAGE, 0.005),
    "A": (CURRENT, 0.00005),
    "dBHz": (CARRIER_TO_NOISE, 0.05),
    "s": (TIME, 0.5e-12),
    "rad": (ANGLE, 0.0009),
}
"""How accepted values are read, by the unit of the finding, and the half digit they print to."""


def apply(plan: Plan, findings: Iterable[Finding]) -> Iterator[Finding]:
    """Yield the findings, those with a waiver of this state as WAIVED or marked as reopened.

    INCOMPLETE cannot be waived; ADVICE stays ADVICE and only carries the note. What nobody signed
    by name waives nothing.
    """
    waivers = {
        (waiver.finding.rule, frozenset(waiver.finding.of)): (id, waiver)
        for id, waiver in plan.waivers.items()
        if waiver.state == plan.state
    }
    for finding in findings:
        entry = waivers.get((finding.rule, frozenset(finding.objects)))
        yield _waived(finding, *entry) if entry else finding


def _waived(finding: Finding, id: str, waiver: Waiver) -> Finding:
    changed = waiver.bound not in (None, binding_of(finding))
    note = WaiverNote(
        id=id,
        who=waiver.who,
        date=waiver.date.isoformat() if waiver.date else None,
        reason=waiver.reason,
        reopened=changed or _worse(finding, waiver.accepted),
        unbound=waiver.bound is None or (has_numbers(finding) and waiver.accepted is None),
        approved_data=waiver.approved_data,
        accepted=waiver.accepted,
        changed=changed,
        role=waiver.role,
        check=waiver.check,
    )
    accepts = finding.verdict is Verdict.FAIL and note.holds
    return replace(finding, verdict=Verdict.WAIVED if accepts else finding.verdict, waiver=note)


def binding_of(finding: Finding) -> str:
    """Return eight hex digits of what a waiver of a finding accepts beside its numbers.

    That is what it is about and the document behind its limit; where its words tell no number
    that could get worse, also what was found.
    """
    found = "" if has_numbers(finding) else finding.text
    return binding(finding.rule, *sorted(finding.objects), found, finding.source)


def has_numbers(finding: Finding) -> bool:
    """Whether the words of a finding tell a value and a limit, so that one can be worse."""
    return "{value}" in finding.text and None not in (finding.value, finding.limit)


def _worse(finding: Finding, accepted: Accepted | None) -> bool:
    """Whether a finding falls further short of its limit than was accepted, or of another limit."""
    if accepted is None or finding.value is None or finding.limit is None:
        return False
    kind, half_digit = KINDS[finding.unit]
    try:
        allowed = parse(accepted.need, kind) - parse(accepted.have, kind)
    except QuantityError:
        return True
    shortfall = finding.limit - finding.value
    return shortfall * allowed < 0.0 or abs(shortfall) > abs(allowed) + half_digit
