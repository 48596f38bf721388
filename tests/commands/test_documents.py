# SPDX-License-Identifier: Apache-2.0
"""rfplan sheet in formats that are no text: written to a file, or refused in words."""

from __future__ import annotations

import sys
from pathlib import Path

import pytest
from command_line import Run, aircraft

BEGINS = {"pdf": b"%PDF-", "xlsx": b"PK"}


@pytest.fixture
def plan(tmp_path: Path) -> str:
    return aircraft(tmp_path / "kite")


@pytest.mark.parametrize("format", BEGINS)
def test_sheets_are_written_to_a_file(rfplan: Run, plan: str, tmp_path: Path, format: str) -> None:
    out = tmp_path / f"sheets.{format}"
    answer = rfplan("sheet", plan, "--format", format, "-o", str(out))
    assert (answer.code, answer.out, answer.err) == (0, "", "")
    assert out.read_bytes().startswith(BEGINS[format])


@pytest.mark.parametrize("format", BEGINS)
def test_a_screen_is_never_filled_with_bytes(rfplan: Run, plan: str, format: str) -> None:
    answer = rfplan("sheet", plan, "--format", format)
    assert (answer.code, answer.out) == (2, "")
    assert "name a file with -o FILE" in answer.err


@pytest.mark.parametrize(("format", "library"), [("pdf", "fpdf"), ("xlsx", "xlsxwriter")])
def test_a_library_that_is_missing_is_named_with_the_way_to_get_it(
    rfplan: Run,
    plan: str,
    tmp_path: Path,
    monkeypatch: pytest.MonkeyPatch,
    format: str,
    library: str,
) -> None:
    monkeypatch.setitem(sys.modules, library, None)
    out = tmp_path / "out"
    answer = rfplan("sheet", plan, "--format", format, "-o", str(out))
    assert answer.code == 2 and not out.exists()
    assert f"pip install 'rfplan[{format}]'" in answer.err


def test_the_paper_is_the_one_asked_for(rfplan: Run, plan: str, tmp_path: Path) -> None:
    sizes = []
    for paper in ("a4", "letter"):
        out = tmp_path / paper
        arguments = ("sheet", plan, "findings", "--format", "pdf", "--paper", paper)
        assert rfplan(*arguments, "-o", str(out)).code == 0
        sizes.append(out.read_bytes())
    assert b"841.89" in sizes[0] and b"792" in sizes[1]
