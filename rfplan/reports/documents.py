# SPDX-License-Identifier: Apache-2.0
"""What formats that are no text share: libraries that may be missing, and a date without clock."""

from __future__ import annotations

from collections.abc import Sequence
from datetime import UTC, datetime
from importlib import import_module
from importlib.util import find_spec
from typing import Any, Literal

from rfplan.reports.sheet import Cell, Sheet

PaperName = Literal["a4", "letter"]

NO_DATE = datetime(1980, 1, 1, tzinfo=UTC)
"""When a document was made, where its sheets tell no date."""


class MissingExtraError(Exception):
    """A format needs a library that is not installed; the text says how to get it."""


LIBRARIES = {"pdf": "fpdf", "xlsx": "xlsxwriter"}
"""The libraries that only one format needs, by the extra that installs them."""


def library(extra: str, part: str = "") -> Any:
    """Return the library of a format, or '.part' of it; MissingExtraError where it is not there."""
    if reason := missing_library(extra):
        raise MissingExtraError(reason)
    return import_module(LIBRARIES[extra] + part)


def missing_library(format: str) -> str:
    """Return why a format cannot be written, nothing if it can."""
    if format not in LIBRARIES or find_spec(LIBRARIES[format]) is not None:
        return ""
    return f"{format} files need a library that is not there: pip install 'rfplan[{format}]'"


def made_on(sheets: Sequence[Sheet]) -> datetime:
    """Return the date that sheets tell, else always the same one; never that of a clock."""
    for sheet in sheets:
        cell = told(sheet, "date")
        try:
            return datetime.strptime(cell.text if cell else "", "%Y-%m-%d").replace(tzinfo=UTC)
        except ValueError:
            continue
    return NO_DATE


def told(sheet: Sheet, label: str) -> Cell | None:
    """Return what the heading of a sheet tells under a label."""
    return next((cell for name, cell in sheet.header if name == label), None)
