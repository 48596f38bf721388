# SPDX-License-Identifier: Apache-2.0
"""One file a format, found by name; each writes any sheet, as text or as a document of bytes."""

from __future__ import annotations

import importlib
import pkgutil
from collections.abc import Sequence
from typing import Protocol, cast

from rfplan.reports.documents import PaperName
from rfplan.reports.sheet import Sheet


class FormatFile(Protocol):
    """What a file of this folder defines for a format that is text."""

    def write(self, sheet: Sheet, *, width: int = ...) -> str:
        """Return a sheet as text of this format; only plain text looks at the width."""


class DocumentFile(Protocol):
    """What a file of this folder defines for a format that no screen shows."""

    def document(self, sheets: Sequence[Sheet], paper: PaperName = ...) -> bytes:
        """Return sheets as the bytes of one file; MissingExtraError without its library."""


_FILES = {
    found.name: importlib.import_module(f"{__name__}.{found.name}")
    for found in sorted(pkgutil.iter_modules(__path__), key=lambda found: found.name)
}

FORMATS = {name: cast(FormatFile, file) for name, file in _FILES.items() if hasattr(file, "write")}
"""The formats that are text, by name."""

DOCUMENTS = {name: cast(DocumentFile, file) for name, file in _FILES.items() if name not in FORMATS}
"""The others, by name."""
