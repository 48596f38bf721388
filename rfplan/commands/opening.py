# SPDX-License-Identifier: Apache-2.0
"""What every command on a plan does first: read plan, catalogue and rules, and judge."""

from __future__ import annotations

from argparse import Namespace
from dataclasses import dataclass
from pathlib import Path

from rfplan.assess import assess
from rfplan.commands.output import complain
from rfplan.files.load import LoadedPlan, load_catalog, load_plan, load_rulebook
from rfplan.files.problems import Problem, ProblemsError
from rfplan.model.assessment import Assessment
from rfplan.model.catalog import Catalog
from rfplan.model.plan import State
from rfplan.model.rulebook import Rulebook
from rfplan.records.context_of import context_of
from rfplan.records.settings import Settings
from rfplan.reports.context import Context
from rfplan.reports.outcome import NOT_JUDGED
from rfplan.units import QuantityError, parse_date


@dataclass(frozen=True, slots=True)
class Judged:
    """A plan as read and as judged, and how it is to be shown."""

    loaded: LoadedPlan
    catalog: Catalog
    rulebook: Rulebook
    assessment: Assessment
    context: Context


def judge(plan: str, options: Namespace) -> Judged:
    """Read a plan and judge it; raises ProblemsError with every problem at once."""
    date = given_date(options.date)
    rulebook, catalog = load_rulebook(), opened_catalog(options)
    loaded = load_plan(
        Path(plan),
        catalog=catalog,
        rulebook=rulebook,
        state=State(options.state),
        serial=options.serial,
    )
    assessment = assess(loaded.plan, catalog, rulebook)
    settings = Settings(state=loaded.plan.state, units=options.units, date=date)
    context = context_of(assessment, loaded, settings, catalog_folder(options))
    return Judged(loaded, catalog, rulebook, assessment, context)


def opened_catalog(options: Namespace) -> Catalog:
    """Return the shipped catalogue with the folder of --catalog over it."""
    return load_catalog(catalog_folder(options))


def refuse(error: ProblemsError) -> int:
    """Say every problem, a line each, and that nothing was judged; return the exit code."""
    lines = [problem.text() for problem in error.problems]
    count = len(lines)
    complain("\n".join([*lines, f"{count} problem{'s' if count != 1 else ''}; nothing was judged"]))
    return NOT_JUDGED


def given_date(text: str | None) -> str | None:
    """Return the date of --date; raises ProblemsError for what is none."""
    try:
        return parse_date(text).isoformat() if text else None
    except QuantityError as error:
        problem = Problem("--date", 1, 1, error.message, error.expected, "--date")
        raise ProblemsError([problem]) from None


def catalog_folder(options: Namespace) -> Path | None:
    """Return the folder of --catalog."""
    return Path(options.catalog) if options.catalog else None
