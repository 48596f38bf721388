# SPDX-License-Identifier: Apache-2.0
"""HTML printed by a browser: the drawing on pages of its own, true to scale, nothing lost."""

from __future__ import annotations

import os
import re
import shutil
import subprocess
from pathlib import Path
from typing import Any

import pytest
from command_line import Run
from demo_plans import DEMOS, FOLDER

pypdf = pytest.importorskip("pypdf")

BROWSER = shutil.which("chromium") or shutil.which("chromium-browser")
THOROUGH = os.environ.get("RFPLAN_THOROUGH") == "1"
pytestmark = [
    pytest.mark.thorough,
    pytest.mark.skipif(not THOROUGH, reason="long; RFPLAN_THOROUGH=1 runs it, with a browser"),
    pytest.mark.skipif(not BROWSER, reason="no Chromium here"),
    pytest.mark.filterwarnings("ignore::DeprecationWarning"),
]

APART_MM = 128.0
"""From the label of the drawing's name to that of who prepared it, in the title block."""


def printed(sheet: Path, paper: str) -> list[Any]:
    """Return the pages that a browser prints."""
    asked = sheet.with_suffix(f".{paper}.html")
    text = sheet.read_text("utf-8").replace("size: landscape", f"size: {paper} landscape")
    asked.write_text(text, "utf-8")
    out = asked.with_suffix(".pdf")
    words = ("--headless", "--no-sandbox", "--disable-gpu", "--no-pdf-header-footer")
    subprocess.run(
        [str(BROWSER), *words, f"--print-to-pdf={out}", asked.as_uri()],
        check=True,
        capture_output=True,
        timeout=120,
    )
    return list(pypdf.PdfReader(out).pages)


@pytest.mark.parametrize("demo", DEMOS)
@pytest.mark.parametrize("paper", ["A4", "letter"])
def test_each_page_of_the_drawing_is_printed_on_one_page(
    rfplan: Run, tmp_path: Path, demo: str, paper: str
) -> None:
    sheet = tmp_path / "placement.html"
    arguments = ("sheet", str(FOLDER / demo), "placement", "--format", "html")
    assert rfplan(*arguments, "-o", str(sheet)).code == 0
    pages = printed(sheet, paper)
    drawn = [page for page in pages if "where this frame is 250 mm wide" in page.extract_text()]
    assert pages[-len(drawn) :] == drawn and len(drawn) > 5
    for number, page in enumerate(drawn, start=1):
        assert re.search(rf"\b{number} of {len(drawn)}\b", page.extract_text())
        apart = place_of("prepared", page) - place_of("drawing", page)
        assert apart / 72.0 * 25.4 == pytest.approx(APART_MM, abs=0.1)


def place_of(word: str, page: Any) -> float:
    """Return where a text begins, in points from the left."""
    found: list[float] = []

    def look(text: str, cm: list[float], tm: list[float], *_: object) -> None:
        if text.strip() == word:
            found.append(tm[4] * cm[0] + tm[5] * cm[2] + cm[4])

    page.extract_text(visitor_text=look)
    return found[0]
