# SPDX-License-Identifier: Apache-2.0
"""rfplan sweep: what a measured sweep says beside the plan."""

from __future__ import annotations

from argparse import Namespace
from collections.abc import Sequence
from pathlib import Path

from rfplan.analysis.facts import gather
from rfplan.analysis.sweep_study import PathSweeps, SweepStudy, study
from rfplan.commands.choices import not_one_of
from rfplan.commands.opening import Judged, judge, refuse
from rfplan.commands.output import complain, deliver, text_width
from rfplan.files.problems import Problem, ProblemsError
from rfplan.files.touchstone import read_sweep
from rfplan.model.rulebook import Strictness
from rfplan.model.sweep import Sweep
from rfplan.reports.outcome import NOT_JUDGED
from rfplan.reports.printing import together
from rfplan.reports.sweep_report import sweep_sheet
from rfplan.units import TEMPERATURE, QuantityError, parse

DIFFERS = 1
"""The exit code where the plan's policy requires agreement and the loss differs."""


def run(options: Namespace) -> int:
    """Print what the sweeps say; 0 if they could be read, whatever they say of advice."""
    try:
        sweeps = _sweeps(options)
        judged = judge(options.plan, options)
    except ProblemsError as error:
        return refuse(error)
    paths = judged.loaded.plan.installation.paths
    for path in (sweeps.path, *((sweeps.other[0],) if sweeps.other else ())):
        if path not in paths:
            complain(f"rfplan: {not_one_of('path', path, paths)}")
            return NOT_JUDGED
    told = study(gather(judged.loaded.plan, judged.catalog, judged.rulebook), sweeps)
    sheet = sweep_sheet(judged.assessment, judged.context, told)
    text = together([sheet], options.format, text_width(options))
    return deliver(text, options, _exit_code(judged, told))


def _exit_code(judged: Judged, told: SweepStudy) -> int:
    required = judged.loaded.plan.policy.agreement is Strictness.REQUIRED
    return DIFFERS if told.differs and required else 0


def _sweeps(options: Namespace) -> PathSweeps:
    """Read everything that was swept; raises ProblemsError with the problems of all files."""
    if (options.open is None) != (options.short is None):
        missing, given = ("--short", "--open") if options.short is None else ("--open", "--short")
        raise ProblemsError([Problem(missing, 1, 1, f"missing beside {given}", "both sweeps")])
    far_ends = [] if options.open is None else [options.open, options.short]
    other_path, *other_file = options.swap_with or [""]
    sweep, *more = _read([options.file, *far_ends, *other_file], Path(options.plan))
    return PathSweeps(
        path=options.path,
        sweep=sweep,
        far_ends=(more[0], more[1]) if far_ends else None,
        other=(other_path, more[-1]) if other_file else None,
        temperature_c=_temperature_c(options.temperature),
    )


def _read(files: Sequence[str], plan: Path) -> list[Sweep]:
    folder = plan if plan.is_dir() else plan.parent
    sweeps: list[Sweep] = []
    problems: list[Problem] = []
    for file in files:
        try:
            sweeps.append(read_sweep(Path(file), plan_folder=folder))
        except ProblemsError as error:
            problems += error.problems
    if problems:
        raise ProblemsError(problems)
    return sweeps


def _temperature_c(text: str | None) -> float | None:
    try:
        return parse(text, TEMPERATURE) if text else None
    except QuantityError as error:
        problem = Problem("--temperature", 1, 1, error.message, error.expected, "--temperature")
        raise ProblemsError([problem]) from None
