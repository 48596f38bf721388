# SPDX-License-Identifier: Apache-2.0
"""One file a format, found by name; each writes any sheet."""

from __future__ import annotations

import importlib
import pkgutil
from typing import Protocol, cast

from rfplan.reports.sheet import Sheet


class FormatFile(Protocol):
    """What a file of this folder defines."""

    def write(self, sheet: Sheet, *, width: int = ...) -> str:
        """Return a sheet as text of this format; only plain text looks at the width."""


FORMATS = {
    found.name: cast(FormatFile, importlib.import_module(f"{__name__}.{found.name}"))
    for found in sorted(pkgutil.iter_modules(__path__), key=lambda found: found.name)
}
"""The formats by name."""
