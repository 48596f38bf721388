# SPDX-License-Identifier: Apache-2.0
"""One file a sheet, found by name; each says what it shows of an assessment."""

from __future__ import annotations

from pkgutil import iter_modules
from typing import Protocol

from rfplan.model.assessment import Assessment
from rfplan.reports.context import Context
from rfplan.reports.files_by_name import FilesByName
from rfplan.reports.sheet import Sheet


class SheetFile(Protocol):
    """What a file of this folder defines."""

    KEY: str
    TITLE: str

    def build(self, assessment: Assessment, context: Context) -> Sheet:
        """Return the sheet."""


SHEETS = FilesByName[SheetFile](__name__, (found.name for found in iter_modules(__path__)))
"""The sheets by key, which is the name of their file."""

FILED = tuple(key for key in SHEETS if key != "summary")
"""The sheets that are filed; the summary is what a check prints."""
