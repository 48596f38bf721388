# SPDX-License-Identifier: Apache-2.0
"""rfplan accept: accept open points by name as they are, each bound to its value of today."""

from __future__ import annotations

from argparse import Namespace
from collections.abc import Iterator

from rfplan.commands.choices import not_one_of
from rfplan.commands.editing import signature, write
from rfplan.edits import AcceptPoint, Edit, EditError
from rfplan.model.assessment import Assessment
from rfplan.model.findings import OpenPoint
from rfplan.reports.signing import acceptance_of


def run(options: Namespace) -> int:
    """Write the acceptances into the plan file, in place of who accepted before."""
    return write(options, lambda assessment: _edits(options, assessment), "not signed")


def _edits(options: Namespace, assessment: Assessment) -> Iterator[Edit]:
    signed = signature(options)
    for id in options.points:
        yield AcceptPoint(id, acceptance_of(_point(id, assessment), signed))


def _point(id: str, assessment: Assessment) -> OpenPoint:
    """Return the open point of an id; raises EditError for none and for what nobody can accept."""
    points = {point.id: point for point in assessment.open_points}
    if id not in points:
        raise EditError(not_one_of("open point", id, points))
    if points[id].blocking:
        raise EditError(f"{id} blocks a verdict: the value is needed, not a name")
    if not points[id].accepts:
        raise EditError(f"{id} cannot be accepted: {points[id].text}")
    return points[id]
