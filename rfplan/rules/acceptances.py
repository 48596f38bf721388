# SPDX-License-Identifier: Apache-2.0
"""What names do to open points: accept them as they are, until they change."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from dataclasses import replace

from rfplan.analysis.binding import binding
from rfplan.model.findings import Acceptance, OpenPoint
from rfplan.model.plan import AcceptedPoint, Plan
from rfplan.model.record import is_name


def accept(plan: Plan, points: Iterable[OpenPoint]) -> Iterator[OpenPoint]:
    """Yield the open points, those that somebody accepted with who and whether that still holds."""
    for point in points:
        entry = plan.accepted.get(point.id)
        if entry is not None and is_name(entry.who) and point.accepts:
            point = replace(point, acceptance=_acceptance(entry, point))
        yield point


def binding_of(point: OpenPoint) -> str | None:
    """Return eight hex digits of what an acceptance of a point is bound to, None for no value."""
    return binding(*point.accepts) if point.accepts else None


def _acceptance(entry: AcceptedPoint, point: OpenPoint) -> Acceptance:
    return Acceptance(
        who=entry.who,
        date=entry.date.isoformat(),
        reopened=entry.bound not in (None, binding_of(point)),
        unbound=entry.bound is None,
        check=entry.check,
    )
