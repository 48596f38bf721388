# SPDX-License-Identifier: Apache-2.0
"""rfplan compare: what changed between two plans, states or filed packages, verdicts first."""

from __future__ import annotations

from argparse import Namespace
from dataclasses import dataclass, replace
from os.path import lexists
from pathlib import Path

from rfplan.commands.choices import not_one_of
from rfplan.commands.opening import judge, refuse
from rfplan.commands.output import deliver, text_width
from rfplan.files.opening import read_bytes
from rfplan.files.problems import Problem, ProblemsError
from rfplan.model.assessment import Assessment
from rfplan.model.plan import State
from rfplan.records.container import MOST_BYTES, DamagedError
from rfplan.records.reissue import reissue_table
from rfplan.records.revisions import ENDING, released_folder
from rfplan.records.verify import judged_again
from rfplan.reports.compare import compare
from rfplan.reports.printing import together
from rfplan.reports.sheet import Sheet

RELEASED = "rel:"
"""What stands behind the @ before the letter of a released revision."""

_ZIP = b"PK\x03\x04"


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
    package = _package(name)
    if package is not None:
        return _Side(_judged_package(package), filed=True)
    plan, state = _plan_and_state(name)
    asked = Namespace(**{**vars(options), "state": state, "date": None})
    return _Side(judge(plan, asked).assessment, filed=False)


def _package(name: str) -> Path | None:
    """Return the package that a name stands for, if it does."""
    plan, _, state = name.rpartition("@")
    if plan and state.startswith(RELEASED) and not lexists(name):
        letter = Path(state.removeprefix(RELEASED)).name
        return released_folder(Path(plan)) / f"{letter}{ENDING}"
    path = Path(name)
    if not path.is_file():
        return None
    with path.open("rb") as file:
        return path if file.read(len(_ZIP)) == _ZIP else None


def _judged_package(path: Path) -> Assessment:
    try:
        with judged_again(read_bytes(path, str(path), MOST_BYTES)) as filed:
            return filed.assessment
    except DamagedError as error:
        problem = Problem(str(path), 1, 1, f"this is damaged or changed: {error}", "a package")
        raise ProblemsError([problem]) from None


def _plan_and_state(name: str) -> tuple[str, str]:
    """Return a plan and its state; a path that is there may hold an @ of its own."""
    plan, at, state = name.rpartition("@")
    if not at or (lexists(name) and state not in tuple(State)):
        return name, str(State.DESIGN)
    if state not in tuple(State):
        raise ProblemsError([Problem(name, 1, 1, not_one_of("state", state, State))])
    return plan, state
