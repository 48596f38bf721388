# SPDX-License-Identifier: Apache-2.0
"""rfplan compare: what changed between two plans, states or filed packages, verdicts first."""

from __future__ import annotations

from argparse import Namespace
from dataclasses import dataclass, replace
from os.path import lexists

from rfplan.commands.choices import not_one_of
from rfplan.commands.opening import judge, refuse
from rfplan.commands.output import deliver, text_width
from rfplan.commands.packaged import judged_package
from rfplan.files.problems import Problem, ProblemsError
from rfplan.model.assessment import Assessment
from rfplan.model.plan import State
from rfplan.records.reissue import reissue_table
from rfplan.records.released import package_of
from rfplan.reports.compare import compare
from rfplan.reports.printing import together
from rfplan.reports.sheet import Sheet


@dataclass(frozen=True, slots=True)
class _Side:
    """One of the two that are compared; `filed` where it was taken from a package."""

    assessment: Assessment
    filed: bool


def run(options: Namespace) -> int:
    """Print the differences; 0 if there are none, 1 if there are."""
    try:
        before, after = (_side(name, options) for name in (options.before, options.after))
    except ProblemsError as error:
        return refuse(error)
    sheet = _compared(before, after, options)
    code = 1 if any(table.rows for table in sheet.tables) else 0
    return deliver(together([sheet], options.format, text_width(options)), options, code)


def _compared(before: _Side, after: _Side, options: Namespace) -> Sheet:
    """Return the differences, and what must be issued anew where something was filed."""
    sheet = compare(before.assessment, after.assessment, options.units)
    if not (before.filed or after.filed):
        return sheet
    anew = reissue_table(before.assessment, after.assessment, options.units)
    return replace(sheet, tables=(*sheet.tables, anew))


def _side(name: str, options: Namespace) -> _Side:
    """Judge a package, PLAN@rel:LETTER, PLAN, or PLAN in a state."""
    package = package_of(name)
    if package is not None:
        with judged_package(package) as filed:
            return _Side(filed.assessment, filed=True)
    plan, state = _plan_and_state(name)
    asked = Namespace(**{**vars(options), "state": state, "date": None})
    return _Side(judge(plan, asked).assessment, filed=False)


def _plan_and_state(name: str) -> tuple[str, str]:
    """Return a plan and its state; a path that is there may hold an @ of its own."""
    plan, at, state = name.rpartition("@")
    if not at or (lexists(name) and state not in tuple(State)):
        return name, str(State.DESIGN)
    if state not in tuple(State):
        raise ProblemsError([Problem(name, 1, 1, not_one_of("state", state, State))])
    return plan, state
