# SPDX-License-Identifier: Apache-2.0
"""rfplan sheet: print or write sheets of a plan."""

from __future__ import annotations

import shlex
from argparse import Namespace
from collections.abc import Iterator, Sequence
from contextlib import contextmanager
from dataclasses import replace

from rfplan.analysis.isolation_models import Rung
from rfplan.commands.choices import not_one_of
from rfplan.commands.opening import judge, refuse
from rfplan.commands.output import (
    LONGEST_LINE,
    complain,
    deliver,
    deliver_file,
    progress,
    text_width,
)
from rfplan.files.problems import ProblemsError
from rfplan.model.assessment import Assessment
from rfplan.model.record import visible
from rfplan.records.released import package_of
from rfplan.reports.cells import words
from rfplan.reports.context import Context
from rfplan.reports.documents import MissingExtraError
from rfplan.reports.formats import DOCUMENTS, FORMATS
from rfplan.reports.outcome import NOT_JUDGED
from rfplan.reports.printing import content_of, together
from rfplan.reports.sheet import Field, Sheet, table, text_field
from rfplan.reports.sheets import FILED, SHEETS

ALL = "all"
"""In place of the name of a sheet: every sheet that is filed."""


def run(options: Namespace) -> int:
    """Print or write the sheets asked for; 0 if they could be made, whatever the verdict."""
    for name in options.sheets:
        if name not in SHEETS and name != ALL:
            complain(f"rfplan: {not_one_of('sheet', name, (*SHEETS, ALL))}")
            return NOT_JUDGED
    try:
        with _judged(options) as (assessment, context):
            if not (options.sheets or options.output) and options.format == "text":
                listed = FORMATS["text"].write(_list(options.plan), width=text_width(options))
                return deliver(listed, options, 0)
            built = list(_built(_keys(options.sheets), assessment, context, options.output))
    except ProblemsError as error:
        return refuse(error)
    if options.format in DOCUMENTS:
        return _document(built, options)
    return deliver(together(built, options.format, text_width(options)), options, 0)


@contextmanager
def _judged(options: Namespace) -> Iterator[tuple[Assessment, Context]]:
    """Judge a plan as the options say, or a package as it was packed."""
    package = package_of(options.plan)
    if package is not None:
        # What reads packages with suspicion is much, and no other sheet needs it.
        from rfplan.commands.packaged import judged_package

        with judged_package(package) as filed:
            yield filed.assessment, replace(filed.context, rung=Rung(options.rung))
    else:
        judged = judge(options.plan, options)
        yield judged.assessment, replace(judged.context, rung=Rung(options.rung))


def _keys(names: Sequence[str]) -> list[str]:
    """Return the sheets that the names stand for; no name stands for all."""
    return [key for name in names or [ALL] for key in (FILED if name == ALL else (name,))]


def _list(plan: str) -> Sheet:
    """Return the list of the sheets, and how one or all of them are printed."""
    fields: list[Field[str]] = [
        text_field("sheet", "SHEET", words),
        text_field("title", "what it is", lambda key: words(SHEETS[key].TITLE)),
    ]
    rows = table("sheets", "In the order of filing", fields, SHEETS)
    command = f"rfplan sheet {visible(shlex.quote(plan), LONGEST_LINE)}"
    told = f"{command} {FILED[0]} prints one, {command} {ALL} prints all; -o FILE writes them."
    return Sheet("sheets", "Sheets", (), (rows,), (told,))


def _built(
    names: Sequence[str], assessment: Assessment, context: Context, file: str | None
) -> Iterator[Sheet]:
    """Build sheets one by one; an export of several tells which one is under way."""
    tell = progress if file and len(names) > 1 else lambda text: None
    for number, name in enumerate(names, start=1):
        tell(f"sheet {number} of {len(names)}: {name}")
        yield SHEETS[name].build(assessment, context)
    tell(f"writing {file}")


def _document(sheets: Sequence[Sheet], options: Namespace) -> int:
    """Write sheets in a format that no screen shows."""
    try:
        content = content_of(sheets, options.format, options.paper)
    except MissingExtraError as error:
        complain(f"rfplan: {error}")
        return NOT_JUDGED
    return deliver_file(content, options, 0)
