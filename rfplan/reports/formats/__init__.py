# SPDX-License-Identifier: Apache-2.0
"""One file a format, found by name; each writes any sheet, as text or as a document of bytes."""

from __future__ import annotations

from collections.abc import Sequence
from pkgutil import iter_modules
from typing import Protocol

from rfplan.reports.documents import LIBRARIES, PaperName
from rfplan.reports.files_by_name import FilesByName
from rfplan.reports.sheet import Sheet


class FormatFile(Protocol):
    """What a file of this folder defines for a format that is text."""

    def write(self, sheet: Sheet, *, width: int = ...) -> str:
        """Return a sheet as text of this format; only plain text looks at the width."""


class DocumentFile(Protocol):
    """What a file of this folder defines for a format that no screen shows."""

    def document(self, sheets: Sequence[Sheet], paper: PaperName = ...) -> bytes:
        """Return sheets as the bytes of one file; MissingExtraError without its library."""


_FOUND = {found.name for found in iter_modules(__path__)}

FORMATS = FilesByName[FormatFile](__name__, sorted(_FOUND - LIBRARIES.keys()))
"""The formats that are text, by name."""

DOCUMENTS = FilesByName[DocumentFile](__name__, sorted(_FOUND & LIBRARIES.keys()))
"""The others, each of which needs a library of its own, by name."""
