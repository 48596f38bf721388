# SPDX-License-Identifier: Apache-2.0
"""Sheets and drawings are the same bytes whatever folder, zone, locale or hash seed they met."""

from __future__ import annotations

import os
import shutil
import subprocess
import sys
from pathlib import Path

import pytest
from demo_plans import FOLDER

ELSEWHERE = [
    {"PYTHONHASHSEED": "1", "TZ": "Asia/Tokyo", "LC_ALL": "C"},
    {"PYTHONHASHSEED": "77", "TZ": "America/Lima", "LC_ALL": "C.UTF-8", "COLUMNS": "60"},
]
ALL, SHEET = ("sheet", "--format"), ("sheet", "placement", "open_points", "--format")
WANTED = {
    "svg": ("drawing",),
    "html": (*SHEET, "html"),
    "csv": (*SHEET, "csv"),
    "json": (*SHEET, "json"),
    "pdf": (*ALL, "pdf"),
    "xlsx": (*ALL, "xlsx"),
}


def written(folder: Path, ending: str, environment: dict[str, str]) -> bytes:
    """Return what a process of its own writes of a copy of a demo in a folder."""
    aircraft, out = folder / "aircraft", folder / f"out.{ending}"
    shutil.copytree(FOLDER / "amphibian", aircraft)
    command, *words = WANTED[ending]
    subprocess.run(
        [sys.executable, "-m", "rfplan", command, str(aircraft), *words, "-o", str(out)],
        cwd=folder,
        env={**os.environ, **environment},
        check=True,
        capture_output=True,
    )
    return out.read_bytes()


@pytest.mark.parametrize("ending", WANTED)
def test_a_file_is_the_same_wherever_it_is_written(tmp_path: Path, ending: str) -> None:
    files = []
    for place, environment in enumerate(ELSEWHERE):
        folder = tmp_path / f"folder {place}"
        folder.mkdir()
        files.append(written(folder, ending, environment))
    assert files[0] == files[1]
    assert str(tmp_path).encode() not in files[0]
