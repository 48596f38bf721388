# SPDX-License-Identifier: Apache-2.0
"""What commands share that write into a plan: read and judge it, edit, save, say what was done."""

from __future__ import annotations

from argparse import Namespace
from collections.abc import Callable, Iterable
from datetime import date
from pathlib import Path

from rfplan.assess import assess
from rfplan.commands.opening import given_date, opened_catalog, refuse
from rfplan.commands.output import complain, say
from rfplan.edits import Edit, EditError
from rfplan.files.load import load_rulebook
from rfplan.files.problems import ProblemsError
from rfplan.files.replacing import NotSavedError
from rfplan.files.saving import open_plan_file
from rfplan.model.assessment import Assessment
from rfplan.model.plan import State
from rfplan.reports.outcome import NOT_JUDGED
from rfplan.reports.signing import Signature

REFUSED = 1
"""The exit code where there is a plan, and it does not let that be written."""

Edits = Callable[[Assessment], Iterable[Edit]]
Lines = Callable[[Assessment], Iterable[str]]


def write(options: Namespace, edits: Edits, otherwise: str, judged: Lines | None = None) -> int:
    """Make the edits that an assessment leads to and save; `otherwise` is said where none can.

    `judged` tells what the plan comes to with them.
    """
    try:
        return _written(options, edits, judged)
    except ProblemsError as error:
        return refuse(error)
    except EditError as error:
        complain(f"rfplan: {otherwise}: {error}")
        return REFUSED
    except NotSavedError as error:
        complain(f"rfplan: not saved: {error}")
        return NOT_JUDGED


def _written(options: Namespace, edits: Edits, judged: Lines | None) -> int:
    file = open_plan_file(
        Path(options.plan),
        opened_catalog(options),
        load_rulebook(),
        State(options.state),
        options.serial,
    )
    plan = file.loaded.plan
    told: list[str] = []
    for edit in edits(assess(plan, file.catalog, file.rulebook)):
        told.append(edit.words(plan))
        plan = edit.apply(plan)
    if judged is not None:
        told += judged(assess(plan, file.catalog, file.rulebook))
    file.save(plan)
    say("\n".join([*told, f"{file.path.name} saved"]))
    return 0


def given_day(options: Namespace) -> date:
    """Return the day of --date, else today; raises ProblemsError for what is none."""
    day = given_date(options.date)
    return date.fromisoformat(day) if day else date.today()


def signature(options: Namespace) -> Signature:
    """Return who signs and on which day; raises ProblemsError for a day that is none."""
    return Signature(options.by, given_day(options), options.check, getattr(options, "role", None))
