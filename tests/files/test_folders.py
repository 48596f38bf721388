# SPDX-License-Identifier: Apache-2.0
"""Shipped files are found in an installed package and in a checkout, and nowhere else."""

from __future__ import annotations

from pathlib import Path

import pytest

from rfplan.files import folders


@pytest.fixture
def package(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    """Return a folder that the package seems to be installed in."""
    package = tmp_path / "rfplan"
    package.mkdir()
    monkeypatch.setattr(folders, "_PACKAGE", package)
    return package


def test_files_inside_the_package_go_first(package: Path) -> None:
    (package.parent / "demo").mkdir()
    (package.parent / "pyproject.toml").touch()
    assert folders.shipped("demo") == package.parent / "demo"
    (package / "data" / "demo").mkdir(parents=True)
    assert folders.shipped("demo") == package / "data" / "demo"


def test_a_folder_beside_the_package_counts_only_in_a_checkout(package: Path) -> None:
    (package.parent / "demo").mkdir()
    with pytest.raises(FileNotFoundError, match=r"no folder demo: looked for .*data.*demo and"):
        folders.shipped("demo")


def test_the_catalogue_ships() -> None:
    assert (folders.shipped("cable_catalog") / "cables").is_dir()
    assert (folders.tables() / "limits.yaml").is_file()
