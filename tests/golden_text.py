# SPDX-License-Identifier: Apache-2.0
"""Golden files: they prove a text unchanged, never right. RFPLAN_REGENERATE=1 writes them anew."""

from __future__ import annotations

import os
from pathlib import Path

GOLDEN = Path(__file__).parent / "golden"


def assert_golden(name: str, text: str) -> None:
    """Compare a text with its golden file, or write the file where that is asked for."""
    file = GOLDEN / name
    written = "\n".join(line.rstrip() for line in text.splitlines()) + "\n"
    if os.environ.get("RFPLAN_REGENERATE") == "1":
        file.parent.mkdir(parents=True, exist_ok=True)
        file.write_text(written, encoding="utf-8", newline="\n")
    assert file.read_text(encoding="utf-8") == written
