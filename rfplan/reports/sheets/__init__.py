# SPDX-License-Identifier: Apache-2.0
"""One file a sheet, in the order of filing; each says what it shows of an assessment."""

from __future__ import annotations

from typing import Protocol

from rfplan.model.assessment import Assessment
from rfplan.reports.context import Context
from rfplan.reports.files_by_name import FilesByName
from rfplan.reports.filing_order import FILING_ORDER
from rfplan.reports.sheet import Sheet


class SheetFile(Protocol):
    """What a file of this folder defines."""

    KEY: str
    TITLE: str

    def build(self, assessment: Assessment, context: Context) -> Sheet:
        """Return the sheet."""


SHEETS = FilesByName[SheetFile](__name__, FILING_ORDER)
"""The sheets by key, which is the name of their file, in the order of filing."""

FILED = tuple(key for key in SHEETS if key != "summary")
"""The sheets that are filed; the summary is what a check prints."""
