# SPDX-License-Identifier: Apache-2.0
"""The history of this plan: its revision, who stands for it, what differs from state to state."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass, replace

from rfplan.assess import assess
from rfplan.model.assessment import Assessment
from rfplan.model.plan import Person, State
from rfplan.reports.cells import UNKNOWN, nothing, verdict_cell, words, words_or_nothing
from rfplan.reports.compare import compare
from rfplan.reports.context import Context
from rfplan.reports.heading import sheet, signature
from rfplan.reports.sheet import Cell, Field, Sheet, Table, table, text_field
from rfplan.reports.sheets.summary import counts_line

KEY = "revision"
TITLE = "Revision and differences"

STEPS = ((State.FOUND, State.DESIGN), (State.DESIGN, State.BUILT))

LIMITS = (
    "Method: all three states of the plan at hand are judged with the same catalogue and rules and "
    "compared by object and field; the order of things and the layout of files never count. What "
    "earlier revisions held is not in this plan: compare with the filed one.",
)


def build(assessment: Assessment, context: Context) -> Sheet:
    """Return the revision, the people, the word of each state, and what changed between them."""
    states = {state: _judged(assessment, state) for state in State}
    return sheet(
        assessment,
        context,
        KEY,
        TITLE,
        _revision_table(assessment),
        _people_table(assessment),
        _states_table(states),
        *(
            one
            for before, after in STEPS
            for one in _differences(states[before], states[after], context)
        ),
        limits=LIMITS,
    )


def _judged(assessment: Assessment, state: State) -> Assessment:
    """The assessment of one state; the one at hand is taken over."""
    plan = assessment.plan
    if plan.state is state:
        return assessment
    return assess(replace(plan, state=state), assessment.catalog, assessment.rulebook)


def _revision_table(assessment: Assessment) -> Table:
    fields: list[Field[Assessment]] = [
        text_field("letter", "revision", lambda one: words_or_nothing(one.plan.revision.letter)),
        text_field("status", "status", lambda one: words_or_nothing(one.plan.revision.status)),
        text_field("date", "date", lambda one: _date(one)),
        text_field("serial", "serial", lambda one: words_or_nothing(one.plan.serial)),
        text_field("replaces", "replaces", lambda one: signature()),
        text_field("reason", "reason", lambda one: signature()),
    ]
    return table("revision", "This revision", fields, [assessment])


def _date(assessment: Assessment) -> Cell:
    day = assessment.plan.revision.date
    return nothing() if day is None else words(day.isoformat())


@dataclass(frozen=True, slots=True)
class _Signed:
    role: str
    person: Person | None


def _people_table(assessment: Assessment) -> Table:
    """Who prepared, checked and released, those not yet named among them."""
    people = assessment.plan.people
    roles = dict.fromkeys((*people, "prepared", "checked", "released"))
    fields: list[Field[_Signed]] = [
        text_field("role", "role", lambda one: words(one.role)),
        text_field("name", "name", lambda one: _name(one.person)),
        text_field("function", "function", lambda one: _told(one.person, "role")),
        text_field("stamp", "stamp", lambda one: _told(one.person, "stamp")),
        text_field("date", "date", lambda one: _told(one.person, "date")),
        text_field("signature", "signature", lambda one: signature()),
    ]
    return table("people", "People", fields, [_Signed(role, people.get(role)) for role in roles])


def _name(person: Person | None) -> Cell:
    return nothing(UNKNOWN) if person is None else words(person.name)


def _told(person: Person | None, field: str) -> Cell:
    value = getattr(person, field) if person else None
    return nothing() if value is None else words(str(value))


def _states_table(states: dict[State, Assessment]) -> Table:
    fields: list[Field[tuple[State, Assessment]]] = [
        text_field("state", "state", lambda row: words(str(row[0]))),
        text_field("verdict", "verdict", lambda row: verdict_cell(row[1].verdict)),
        text_field("counts", "counts", lambda row: words(counts_line(row[1]))),
    ]
    return table("states", "The three states", fields, states.items())


def _differences(before: Assessment, after: Assessment, context: Context) -> Iterator[Table]:
    """Yield what changed from one state to the next, verdicts first; empty tables left out."""
    step = f"{before.plan.state} to {after.plan.state}"
    tables = [one for one in compare(before, after, context.units).tables if one.rows]
    for one in tables:
        title = f"{step}: {one.title.lower()}"
        yield replace(one, key=f"{after.plan.state}_{one.key}", title=title)
    if not tables:
        yield Table(f"{after.plan.state}_changes", f"{step}: changes", (), ())
