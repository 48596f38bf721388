# SPDX-License-Identifier: Apache-2.0
"""rfplan package and verify: one file written, computed anew, or refused."""

from __future__ import annotations

import zipfile
from pathlib import Path

import pytest
from command_line import FAILING, PLAN, Run, aircraft
from plan_files import edited


@pytest.fixture
def packed(rfplan: Run, tmp_path: Path) -> Path:
    """The package of a plan that fails, which it may."""
    out = tmp_path / "kite.zip"
    answer = rfplan("package", aircraft(tmp_path / "kite", FAILING), "-o", str(out))
    assert (answer.code, answer.out, answer.err) == (0, "", "")
    return out


def test_a_package_needs_a_file_to_go_to(rfplan: Run, tmp_path: Path) -> None:
    answer = rfplan("package", aircraft(tmp_path / "kite"))
    assert answer.code == 2
    assert "name a file with -o FILE" in answer.err


def test_a_package_does_not_replace_a_file_unless_told_to(
    rfplan: Run, tmp_path: Path, packed: Path
) -> None:
    plan, before = str(tmp_path / "kite"), packed.read_bytes()
    refused = rfplan("package", plan, "--state", "found", "-o", str(packed))
    assert (refused.code, packed.read_bytes()) == (2, before)
    assert rfplan("package", plan, "--state", "found", "-o", str(packed), "--force").code == 0
    assert packed.read_bytes() != before


def test_a_plan_with_problems_is_not_packed(rfplan: Run, tmp_path: Path) -> None:
    plan = aircraft(tmp_path / "kite", edited(PLAN, ("rg_400_u", "rg_4000_u")))
    answer = rfplan("package", plan, "-o", str(tmp_path / "a.zip"))
    assert answer.code == 2 and "rg_4000_u" in answer.err
    assert not (tmp_path / "a.zip").exists()


def test_a_fresh_package_is_unchanged_since_packed(rfplan: Run, packed: Path) -> None:
    answer = rfplan("verify", str(packed))
    assert (answer.code, answer.err) == (0, "")
    assert "0 differences, unchanged since packed" in answer.out


def test_a_damaged_package_is_refused(rfplan: Run, packed: Path) -> None:
    content = bytearray(packed.read_bytes())
    content[len(content) // 2] ^= 1
    packed.write_bytes(content)
    answer = rfplan("verify", str(packed))
    assert (answer.code, answer.out) == (2, "")
    assert "is damaged or changed" in answer.err


def test_a_package_packed_again_by_another_tool_is_refused(rfplan: Run, packed: Path) -> None:
    with zipfile.ZipFile(packed) as file:
        members = {name: file.read(name) for name in file.namelist()}
    with zipfile.ZipFile(packed, "w", zipfile.ZIP_DEFLATED) as file:
        for name, content in members.items():
            file.writestr(name, content)
    answer = rfplan("verify", str(packed))
    assert answer.code == 2 and "is damaged or changed" in answer.err


@pytest.mark.parametrize("name", ["nowhere.zip", "."])
def test_what_is_no_file_is_no_package(rfplan: Run, name: str) -> None:
    answer = rfplan("verify", name)
    assert (answer.code, answer.out) == (2, "")
