# SPDX-License-Identifier: Apache-2.0
"""What formats that are no text share: libraries that may be missing, and a date without clock."""

from __future__ import annotations

from collections.abc import Sequence
from datetime import UTC, datetime
from importlib import import_module
from typing import Any, Literal

from rfplan.reports.sheet import Cell, Sheet

PaperName = Literal["a4", "letter"]

NO_DATE = datetime(1980, 1, 1, tzinfo=UTC)
"""When a document was made, where its sheets tell no date."""


class MissingExtraError(Exception):
    """A format needs a library that is not installed; the text says how to get it."""


def library(name: str, extra: str) -> Any:
    """Return a library that only one format needs; MissingExtraError where it is not there."""
    try:
        return import_module(name)
    except ImportError:
        text = f"{extra} files need a library that is not there: pip install 'rfplan[{extra}]'"
        raise MissingExtraError(text) from None


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
