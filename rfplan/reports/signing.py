# SPDX-License-Identifier: Apache-2.0
"""What somebody puts a name to: a finding waived, an open point accepted, bound as they are."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date

from rfplan.model.findings import Finding, OpenPoint
from rfplan.model.plan import Accepted, AcceptedPoint, FindingRef, Plan, Waiver
from rfplan.reports.cells import LengthUnit
from rfplan.reports.wording import value_and_limit
from rfplan.rules import acceptances, waivers


@dataclass(frozen=True, slots=True)
class Signature:
    """Who signs, on which day, and what is asked for instead of what is let be."""

    who: str
    day: date
    check: str | None = None
    role: str | None = None


def free_waiver_id(plan: Plan) -> str:
    """Return the id of a new waiver."""
    ids = (f"v{number}" for number in range(1, len(plan.waivers) + 2))
    return next(id for id in ids if id not in plan.waivers)


def waiver_of(
    finding: Finding,
    signed: Signature,
    reason: str,
    approved_data: str | None,
    units: LengthUnit,
) -> Waiver:
    """Return the waiver of a finding, bound to its numbers and to the rest of it as they are."""
    return Waiver(
        finding=FindingRef(finding.rule, finding.objects),
        reason=reason,
        who=signed.who,
        state=finding.state,
        role=signed.role,
        date=signed.day,
        accepted=_accepted(finding, units),
        approved_data=approved_data,
        bound=waivers.binding_of(finding),
        check=signed.check,
    )


def _accepted(finding: Finding, units: LengthUnit) -> Accepted | None:
    """The numbers of a finding that has any."""
    if not waivers.has_numbers(finding):
        return None
    have, need = value_and_limit(finding, units)
    return Accepted(have.text, need.text)


def acceptance_of(point: OpenPoint, signed: Signature) -> AcceptedPoint:
    """Return the acceptance of an open point, bound to its value as it is."""
    return AcceptedPoint(signed.who, signed.day, acceptances.binding_of(point), signed.check)
