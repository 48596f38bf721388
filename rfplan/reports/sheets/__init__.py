# SPDX-License-Identifier: Apache-2.0
"""One file a sheet, found by name; each says what it shows of an assessment."""

from __future__ import annotations

import importlib
import pkgutil
from collections.abc import Iterator, Mapping
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


class _Sheets(Mapping[str, SheetFile]):
    """The files of this folder by name, each read when it is first asked for."""

    def __init__(self) -> None:
        self._names = sorted(found.name for found in pkgutil.iter_modules(__path__))

    def __getitem__(self, key: str) -> SheetFile:
        if key not in self._names:
            raise KeyError(key)
        return cast(SheetFile, importlib.import_module(f"{__name__}.{key}"))

    def __iter__(self) -> Iterator[str]:
        return iter(self._names)

    def __len__(self) -> int:
        return len(self._names)


SHEETS = _Sheets()
"""The sheets by key, which is the name of their file."""

FILED = tuple(key for key in SHEETS if key != "summary")
"""The sheets that are filed; the summary is what a check prints."""
