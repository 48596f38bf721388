# SPDX-License-Identifier: Apache-2.0
"""rfplan waive: accept a finding by name and with a reason, bound to what it is today."""

from __future__ import annotations

from argparse import Namespace
from collections.abc import Iterator
from dataclasses import replace

from rfplan.commands.choices import not_one_of
from rfplan.commands.editing import signature, write
from rfplan.edits import AddWaiver, Edit, EditError, RemoveWaiver
from rfplan.model.assessment import Assessment
from rfplan.model.findings import Finding, Verdict
from rfplan.model.plan import Waiver
from rfplan.reports.signing import free_waiver_id, waiver_of


def run(options: Namespace) -> int:
    """Write the waiver into the plan file; one that is there already is signed anew."""
    return write(options, lambda assessment: _edits(options, assessment), "not signed")


def _edits(options: Namespace, assessment: Assessment) -> Iterator[Edit]:
    finding, plan = _finding(options.finding, assessment), assessment.plan
    signed = signature(options)
    new = waiver_of(finding, signed, options.reason or "", options.data, options.units)
    if finding.waiver is None:
        yield AddWaiver(free_waiver_id(plan), new)
        return
    id = finding.waiver.id
    yield RemoveWaiver(id)
    yield AddWaiver(id, _anew(plan.waivers[id], new))


def _anew(before: Waiver, new: Waiver) -> Waiver:
    """Return a waiver signed anew; what is not said again stays as it was."""
    return replace(
        new,
        finding=before.finding,
        reason=new.reason or before.reason,
        role=new.role or before.role,
        approved_data=new.approved_data or before.approved_data,
        check=new.check or before.check,
    )


def _parts(id: str) -> tuple[frozenset[str], ...]:
    """Rule, objects and state of a finding's id; its objects have no order."""
    return tuple(frozenset(part.split("+")) for part in id.split("/"))


def _finding(id: str, assessment: Assessment) -> Finding:
    """Return the finding of an id; raises EditError for none and for what cannot be waived."""
    found = {finding.id: finding for finding in assessment.findings}
    id = next((one for one in found if _parts(one) == _parts(id)), id)
    if id not in found:
        raise EditError(not_one_of("finding", id, found))
    verdict = found[id].verdict
    if verdict is Verdict.INCOMPLETE:
        raise EditError(f"{id} is INCOMPLETE: a value is missing, which nobody can waive")
    if not (verdict.fails or verdict is Verdict.WAIVED):
        raise EditError(f"{id} is {verdict}: only a FAIL of a rule can be waived")
    return found[id]
