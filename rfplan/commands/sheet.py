# SPDX-License-Identifier: Apache-2.0
"""rfplan sheet: print or write sheets of a plan."""

from __future__ import annotations

from argparse import Namespace
from collections.abc import Iterator, Sequence
from dataclasses import replace

from rfplan.analysis.isolation_models import Rung
from rfplan.commands.choices import not_one_of
from rfplan.commands.opening import Judged, judge, refuse
from rfplan.commands.output import complain, deliver, deliver_file, progress, text_width
from rfplan.files.problems import ProblemsError
from rfplan.reports.documents import MissingExtraError
from rfplan.reports.formats import DOCUMENTS
from rfplan.reports.outcome import NOT_JUDGED
from rfplan.reports.printing import content_of, together
from rfplan.reports.sheet import Sheet
from rfplan.reports.sheets import FILED, SHEETS


def run(options: Namespace) -> int:
    """Print or write the sheets asked for; 0 if they could be made, whatever the verdict."""
    for name in options.sheets:
        if name not in SHEETS:
            complain(f"rfplan: {not_one_of('sheet', name, SHEETS)}")
            return NOT_JUDGED
    try:
        judged = judge(options.plan, options)
    except ProblemsError as error:
        return refuse(error)
    judged = replace(judged, context=replace(judged.context, rung=Rung(options.rung)))
    built = list(_built(options.sheets or FILED, judged, options.output))
    if options.format in DOCUMENTS:
        return _document(built, options)
    return deliver(together(built, options.format, text_width(options)), options, 0)


def _built(names: Sequence[str], judged: Judged, file: str | None) -> Iterator[Sheet]:
    """Build sheets one by one; an export of several tells which one is under way."""
    tell = progress if file and len(names) > 1 else lambda text: None
    for number, name in enumerate(names, start=1):
        tell(f"sheet {number} of {len(names)}: {name}")
        yield SHEETS[name].build(judged.assessment, judged.context)
    tell(f"writing {file}")


def _document(sheets: Sequence[Sheet], options: Namespace) -> int:
    """Write sheets in a format that no screen shows."""
    try:
        content = content_of(sheets, options.format, options.paper)
    except MissingExtraError as error:
        complain(f"rfplan: {error}")
        return NOT_JUDGED
    return deliver_file(content, options, 0)
