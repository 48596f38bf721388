# SPDX-License-Identifier: Apache-2.0
"""One file a sheet, found by name; each says what it shows of an assessment."""

from __future__ import annotations

import importlib
import pkgutil
from typing import Protocol, cast

from rfplan.model.assessment import Assessment
from rfplan.reports.context import Context
from rfplan.reports.sheet import Sheet


class SheetFile(Protocol):
    """What a file of this folder defines."""

    KEY: str
    TITLE: str

    def build(self, assessment: Assessment, context: Context) -> Sheet:
        """Return the sheet."""


def _files() -> dict[str, SheetFile]:
    names = sorted(found.name for found in pkgutil.iter_modules(__path__))
    files = [cast(SheetFile, importlib.import_module(f"{__name__}.{name}")) for name in names]
    return {file.KEY: file for file in files}


SHEETS = _files()
"""The sheets by key."""

FILED = tuple(key for key in SHEETS if key != "summary")
"""The sheets that are filed; the summary is what a check prints."""
