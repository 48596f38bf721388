# SPDX-License-Identifier: Apache-2.0
"""Where packages lie: released ones beside their plan, any other where its name says."""

from __future__ import annotations

from os.path import lexists
from pathlib import Path

FOLDER = "released"
ENDING = ".zip"

RELEASED = "rel:"
"""What stands behind the @ before the letter of a released revision."""

_ZIP = b"PK\x03\x04"


def released_folder(plan: Path) -> Path:
    """Return the folder of released revisions beside a plan, a file or its folder."""
    return (plan if plan.is_dir() else plan.parent) / FOLDER


def package_of(name: str) -> Path | None:
    """Return the package that a file or PLAN@rel:LETTER stands for; None where it is a plan."""
    plan, _, state = name.rpartition("@")
    if plan and state.startswith(RELEASED) and not lexists(name):
        letter = Path(state.removeprefix(RELEASED)).name
        return released_folder(Path(plan)) / f"{letter}{ENDING}"
    path = Path(name)
    if not path.is_file():
        return None
    with path.open("rb") as file:
        return path if file.read(len(_ZIP)) == _ZIP else None
