# SPDX-License-Identifier: Apache-2.0
"""Sheets in the formats there are: several in one text or one document, as files hold them."""

from __future__ import annotations

from collections.abc import Sequence

from rfplan.reports.documents import PaperName
from rfplan.reports.formats import DOCUMENTS, FORMATS, html
from rfplan.reports.sheet import Sheet

FILE_WIDTH = 100
"""Columns of text in a file, whatever the screen."""

BETWEEN = {"text": "\n", "markdown": "\n", "csv": "\r\n", "json": ",\n"}
"""What stands between two sheets in one file."""

ENDINGS = {name: name for name in (*FORMATS, *DOCUMENTS)} | {"text": "txt", "markdown": "md"}
"""How the files of each format end."""

_SHORT = {"md": "markdown"}


def together(sheets: Sequence[Sheet], format: str, width: int) -> str:
    """Return sheets in one text; several of them are one page each, or one JSON array."""
    format = _SHORT.get(format, format)
    if format == "html":
        return html.document(sheets)
    text = BETWEEN[format].join(FORMATS[format].write(sheet, width=width) for sheet in sheets)
    return f"[\n{text}]\n" if format == "json" and len(sheets) > 1 else text


def content_of(sheets: Sequence[Sheet], format: str, paper: PaperName = "a4") -> bytes:
    """Return the bytes of a file of sheets; MissingExtraError without the library it needs."""
    if format in DOCUMENTS:
        return DOCUMENTS[format].document(sheets, paper=paper)
    return together(sheets, format, FILE_WIDTH).encode()
