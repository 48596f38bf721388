# SPDX-License-Identifier: Apache-2.0
"""What stands above and below every sheet: whose it is, what it rests on, and the cautions."""

from __future__ import annotations

from rfplan.model.assessment import Assessment
from rfplan.model.plan import Person, Plan, Policy
from rfplan.reports.cells import listed, nothing, printed, verdict_cell, words, words_or_nothing
from rfplan.reports.context import Context
from rfplan.reports.outcome import is_draft
from rfplan.reports.sheet import Cell, Sheet, Table
from rfplan.reports.strokes import Picture

Heading = tuple[tuple[str, Cell], ...]

CAUTIONS = (
    "Planning aid: PASS says that the entered limit is met, and nothing beyond that.",
    "Equipment and airframe data, licensed practice and the local authority prevail.",
    "Estimates do not replace the check on the aircraft.",
)


def sheet(
    assessment: Assessment,
    context: Context,
    key: str,
    title: str,
    *tables: Table,
    documents: Heading = (),
    limits: tuple[str, ...] = (),
    pictures: tuple[Picture, ...] = (),
) -> Sheet:
    """Return a sheet with the full heading, the limits of its method, and the cautions."""
    notes = (*limits, *CAUTIONS)
    header = heading(assessment, context, key, documents)
    return Sheet(key, title, header, tables, notes, pictures)


def heading(assessment: Assessment, context: Context, key: str, documents: Heading = ()) -> Heading:
    """Return whose sheet it is, in which state, and everything its numbers rest on."""
    plan = assessment.plan
    return (
        ("sheet", words(sheet_id(plan, key))),
        *marks(assessment),
        ("verdict", verdict_cell(assessment.verdict)),
        *aircraft(plan),
        ("date", words(context.date or "undated")),
        ("files", listed(filter(None, (context.plan_file, context.airframe_file)))),
        ("tool", words(f"rfplan {context.version}")),
        ("plan hash", words(context.hashes.plan)),
        ("catalogue hash", words(context.hashes.catalog)),
        ("rules hash", words(context.hashes.rules)),
        *documents,
        *basis(plan.policy),
        *((role, words(_signature(person))) for role, person in plan.people.items()),
    )


def marks(assessment: Assessment) -> Heading:
    """Return DRAFT while a sheet may not be filed, else nothing."""
    if not is_draft(assessment):
        return ()
    status = assessment.plan.revision.status or "without status"
    return (("DRAFT", words(f"verdict {assessment.verdict}, revision {status}", "DRAFT")),)


def aircraft(plan: Plan) -> Heading:
    """Return the aircraft, what is looked at, and the revision."""
    revision = plan.revision
    day = revision.date.isoformat() if revision.date else None
    told = filter(None, (revision.letter, revision.status, day))
    return (
        ("plan", words(plan.title)),
        ("aircraft", words(plan.airframe.name)),
        ("serial", words_or_nothing(plan.serial)),
        ("variant", words_or_nothing(plan.variant)),
        ("state", words(str(plan.state))),
        ("revision", words_or_nothing(", ".join(told))),
    )


def basis(policy: Policy) -> Heading:
    """Return the choices of the shop that every corner rests on."""
    cold_c, hot_c = policy.temperature_c.known()
    span = f"{printed(cold_c, 'degC')} .. {printed(hot_c, 'degC')} degC"
    models = {"conductor": "conductor part of the loss", "k1_only": "square-root part of the loss"}
    return (
        ("temperature", words(span)),
        ("temperature model", words(f"{policy.model}: acts on the {models[policy.model]}")),
        ("stack-up", words(str(policy.stack))),
        ("near", words(f"within {printed(policy.near_db, 'dB')} dB of a limit")),
    )


def sheet_id(plan: Plan, key: str) -> str:
    """Return what a sheet is filed under: plan, revision letter, state and kind of sheet."""
    letter = plan.revision.letter or "no-letter"
    return "/".join((plan.id, letter, str(plan.state), key))


def _signature(person: Person) -> str:
    day = person.date.isoformat() if person.date else None
    return ", ".join(filter(None, (person.name, person.role, person.stamp, day)))


def signature() -> Cell:
    """Return a blank to sign in."""
    return nothing("________")
