# SPDX-License-Identifier: Apache-2.0
"""rfplan sheet: print or write sheets of a plan."""

from __future__ import annotations

from argparse import Namespace
from collections.abc import Sequence

from rfplan.commands.choices import not_one_of
from rfplan.commands.opening import judge, refuse
from rfplan.commands.output import complain, deliver, deliver_file, text_width
from rfplan.files.problems import ProblemsError
from rfplan.reports.documents import MissingExtraError
from rfplan.reports.formats import DOCUMENTS, FORMATS, html
from rfplan.reports.outcome import NOT_JUDGED
from rfplan.reports.sheet import Sheet
from rfplan.reports.sheets import FILED, SHEETS

BETWEEN = {"text": "\n", "md": "\n", "csv": "\r\n", "json": ",\n"}
"""What stands between two sheets in one file."""


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
    built = [
        SHEETS[name].build(judged.assessment, judged.context) for name in options.sheets or FILED
    ]
    if options.format in DOCUMENTS:
        return _document(built, options)
    return deliver(together(built, options.format, text_width(options)), options, 0)


def _document(sheets: Sequence[Sheet], options: Namespace) -> int:
    """Write sheets in a format that no screen shows."""
    try:
        content = DOCUMENTS[options.format].document(sheets, paper=options.paper)
    except MissingExtraError as error:
        complain(f"rfplan: {error}")
        return NOT_JUDGED
    return deliver_file(content, options, 0)


def together(sheets: Sequence[Sheet], format: str, width: int) -> str:
    """Return sheets in one text; several of them are one page each, or one JSON array."""
    if format == "html":
        return html.document(sheets)
    writer = FORMATS["markdown" if format == "md" else format]
    text = BETWEEN[format].join(writer.write(sheet, width=width) for sheet in sheets)
    return f"[\n{text}]\n" if format == "json" and len(sheets) > 1 else text
