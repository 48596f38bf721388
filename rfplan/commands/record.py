# SPDX-License-Identifier: Apache-2.0
"""rfplan record: a reading of a path into the plan, beside the prediction it never changes."""

from __future__ import annotations

from argparse import Namespace
from collections.abc import Iterator

from rfplan.analysis.measured import fingerprint
from rfplan.commands.choices import not_one_of
from rfplan.commands.editing import given_day, write
from rfplan.edits import Edit, EditError, SetMeasurement
from rfplan.files.problems import Problem, ProblemsError
from rfplan.model.assessment import Assessment
from rfplan.model.plan import Measurement, Plan
from rfplan.reports.reading_words import doubts, judged_lines
from rfplan.reports.study import facts_of
from rfplan.units import FREQUENCY, LOSS, RATIO, TEMPERATURE, Kind, QuantityError, parse

KINDS: dict[str, Kind] = {
    "at": FREQUENCY,
    "loss": LOSS,
    "vswr": RATIO,
    "temperature": TEMPERATURE,
    "uncertainty": LOSS,
}
"""The options that are quantities."""


def run(options: Namespace) -> int:
    """Write a new reading, bound to its path as that is, into the plan and tell how it agrees."""
    return write(
        options,
        lambda assessment: _edits(options, assessment),
        "not recorded",
        _judged,
    )


def _judged(assessment: Assessment) -> Iterator[str]:
    """What the reading that was entered last comes to, and what may be a slip in it."""
    *_, newest = assessment.plan.measurements
    for path in assessment.paths:
        for reading in path.readings:
            if reading.id == newest:
                yield from judged_lines(reading)
                yield from doubts(assessment.plan.measurements[newest], path)


def _edits(options: Namespace, assessment: Assessment) -> Iterator[Edit]:
    plan, chains = assessment.plan, facts_of(assessment).chains
    if options.path not in chains:
        raise EditError(not_one_of("path", options.path, chains))
    read = _quantities(options)
    reading = Measurement(
        path=options.path,
        loss_db=read["loss"],
        at_hz=read["at"] or 0.0,
        vswr=read["vswr"],
        state=plan.state,
        temperature_c=read["temperature"],
        uncertainty_db=read["uncertainty"],
        with_=options.instrument,
        who=options.by,
        date=given_day(options),
        bound=fingerprint(chains[options.path]),
    )
    yield SetMeasurement(_free_id(plan), reading)


def _quantities(options: Namespace) -> dict[str, float | None]:
    """Return what was read; raises ProblemsError with all that is no such quantity."""
    read: dict[str, float | None] = {}
    problems: list[Problem] = []
    for name, kind in KINDS.items():
        text, option = getattr(options, name), f"--{name}"
        try:
            read[name] = parse(text, kind) if text else None
        except QuantityError as error:
            problems.append(Problem(option, 1, 1, error.message, error.expected, option))
    if problems:
        raise ProblemsError(problems)
    return read


def _free_id(plan: Plan) -> str:
    ids = (f"m{number}" for number in range(1, len(plan.measurements) + 2))
    return next(id for id in ids if id not in plan.measurements)
