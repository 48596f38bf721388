# SPDX-License-Identifier: Apache-2.0
"""Where the files that ship with the tool are: inside the installed package, or in a checkout."""

from __future__ import annotations

from pathlib import Path

_PACKAGE = Path(__file__).resolve().parent.parent


def shipped(name: str) -> Path:
    """Return the folder of shipped files; FileNotFoundError names both places it may be in."""
    installed, checkout = _PACKAGE / "data" / name, _PACKAGE.parent / name
    if installed.is_dir():
        return installed
    if checkout.is_dir() and (_PACKAGE.parent / "pyproject.toml").is_file():
        return checkout
    raise FileNotFoundError(f"no folder {name}: looked for {installed} and {checkout}")


def tables() -> Path:
    """Return the folder of the tables that rules compare with."""
    return _PACKAGE / "tables"
