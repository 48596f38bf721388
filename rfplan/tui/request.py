# SPDX-License-Identifier: Apache-2.0
"""What the command line asks to be opened, and what the workspace asks to be done beside it."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from dataclasses import dataclass
from pathlib import Path
from typing import TypeAlias

Steps: TypeAlias = Iterator[Callable[[], object]]
"""Work that takes long: after each step it yields what to do where the keys are heeded."""


@dataclass(frozen=True, slots=True)
class Request:
    """What to open, and which state of it."""

    path: Path | None
    state: str = "design"
    serial: str | None = None
    catalog: Path | None = None
    date: str | None = None
