# SPDX-License-Identifier: Apache-2.0
"""What the command line asks to be opened."""

from __future__ import annotations

from dataclasses import dataclass
from pathlib import Path


@dataclass(frozen=True, slots=True)
class Request:
    """What to open, and which state of it."""

    path: Path | None
    state: str = "design"
    serial: str | None = None
    catalog: Path | None = None
    date: str | None = None
