# SPDX-License-Identifier: Apache-2.0
"""The wheel holds everything that rfplan needs away from its checkout, and runs there."""

from __future__ import annotations

import os
import subprocess
import sys
import zipfile
from collections.abc import Iterator
from pathlib import Path

import pytest

TOP = Path(__file__).parents[1]


def run(*command: str | Path, cwd: Path, **environment: str) -> str:
    """Run a program to its good end and return what it printed."""
    done = subprocess.run(
        command,
        cwd=cwd,
        capture_output=True,
        text=True,
        check=False,
        timeout=60,
        env={**os.environ, **environment},
    )
    assert done.returncode == 0, done.stdout + done.stderr
    return done.stdout


@pytest.fixture(scope="module")
def wheel(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """The wheel, built from this checkout."""
    folder = tmp_path_factory.mktemp("dist")
    run(sys.executable, "-m", "hatchling", "build", "-t", "wheel", "-d", folder, cwd=TOP)
    (built,) = folder.glob("*.whl")
    return built


@pytest.fixture(scope="module")
def installed(wheel: Path, tmp_path_factory: pytest.TempPathFactory) -> Path:
    """A folder into which the wheel, and nothing it depends on, is installed."""
    folder = tmp_path_factory.mktemp("installed")
    alone = ("--no-deps", "--no-index", "--no-compile", "--quiet", "--target", folder)
    run(sys.executable, "-m", "pip", "install", *alone, wheel, cwd=folder)
    return folder


def shipped_files() -> Iterator[tuple[str, Path]]:
    """Yield the name that each file of the checkout has in the wheel, and the file."""
    for folder, inside in (
        ("rfplan", "rfplan"),
        ("cable_catalog", "rfplan/data/cable_catalog"),
        ("demo_aircraft", "rfplan/data/demo_aircraft"),
    ):
        for path in sorted((TOP / folder).rglob("*")):
            if path.is_file() and "__pycache__" not in path.parts:
                yield f"{inside}/{path.relative_to(TOP / folder).as_posix()}", path


def test_the_wheel_holds_every_file_and_no_other(wheel: Path) -> None:
    with zipfile.ZipFile(wheel) as archive:
        held = {name: archive.read(name) for name in archive.namelist()}
    (licence,) = (name for name in held if name.endswith("/licenses/LICENSE"))
    assert held[licence] == (TOP / "LICENSE").read_bytes()
    package = {name: content for name, content in held.items() if ".dist-info/" not in name}
    assert package == {name: path.read_bytes() for name, path in shipped_files()}


def test_tables_catalogue_and_demo_are_among_them() -> None:
    names = [name for name, _ in shipped_files()]
    for start in ("rfplan/tables/", "rfplan/data/cable_catalog/", "rfplan/data/demo_aircraft/"):
        assert any(name.startswith(start) and name.endswith(".yaml") for name in names)


def test_an_installed_rfplan_shows_its_demo_and_prints_a_sheet(
    installed: Path, tmp_path: Path
) -> None:
    command = (sys.executable, installed / "bin" / "rfplan")
    elsewhere = {"PYTHONPATH": str(installed)}
    shown = run(*command, "demo", "--to", "mine", cwd=tmp_path, **elsewhere)
    assert "== as designed ==" in shown
    assert (tmp_path / "mine" / "plan.yaml").is_file()
    sheet = run(*command, "sheet", "mine", "spacing", "--format", "html", cwd=tmp_path, **elsewhere)
    assert sheet.startswith("<!DOCTYPE html>")
    where = run(
        sys.executable, "-c", "import rfplan; print(rfplan.__file__)", cwd=tmp_path, **elsewhere
    )
    assert Path(where.strip()).is_relative_to(installed)
