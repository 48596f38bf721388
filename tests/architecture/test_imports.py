# SPDX-License-Identifier: Apache-2.0
"""What importing the core loads, and which way imports may go."""

from __future__ import annotations

import shutil
import subprocess
import sys
from pathlib import Path

import pytest

ROOT = Path(__file__).parents[2]
HEAVY = ("pint", "yaml", "pydantic", "textual", "rich", "skrf", "scipy", "pandas")


def loaded_by(statement: str) -> set[str]:
    """Return the modules that a statement loads in a fresh interpreter."""
    show = f"{statement}; import sys; print(*sorted(sys.modules))"
    done = subprocess.run(
        [sys.executable, "-c", show], cwd=ROOT, capture_output=True, text=True, check=True
    )
    return set(done.stdout.split())


def test_the_core_loads_no_file_format_no_unit_library_and_no_terminal() -> None:
    loaded = loaded_by("import rfplan.assess")
    assert "rfplan.assess" in loaded and "numpy" in loaded
    assert sorted(loaded.intersection(HEAVY)) == []


def test_a_search_for_places_needs_no_more_than_the_core() -> None:
    loaded = loaded_by("import rfplan.propose.places")
    assert sorted(loaded.intersection(HEAVY)) == []


def test_the_core_loads_nothing_of_the_floors_above_it() -> None:
    loaded = loaded_by("import rfplan.assess")
    above = (
        "rfplan.propose",
        "rfplan.files",
        "rfplan.reports",
        "rfplan.commands",
        "rfplan.cli",
        "rfplan.tui",
    )
    assert [name for name in loaded if name.startswith(above)] == []


def test_importing_the_package_loads_nothing_else_of_it() -> None:
    loaded = loaded_by("import rfplan")
    assert {name for name in loaded if name.startswith("rfplan")} == {"rfplan"}
    assert "numpy" not in loaded


def test_a_format_loads_no_other_and_one_sheet_no_other() -> None:
    loaded = loaded_by("from rfplan.reports.formats import FORMATS; FORMATS['csv']")
    assert {name for name in loaded if name.startswith("rfplan.reports.formats.")} == {
        "rfplan.reports.formats.csv"
    }
    loaded = loaded_by("from rfplan.reports.sheets import SHEETS; SHEETS['spacing']")
    assert {name for name in loaded if name.startswith("rfplan.reports.sheets.")} == {
        "rfplan.reports.sheets.spacing"
    }


def test_a_sheet_loads_nothing_of_packages_and_no_masked_arrays() -> None:
    command = "['sheet', 'demo_aircraft/amphibian', 'loss_budget', '-o', '/dev/null', '--force']"
    loaded = loaded_by(f"from rfplan.cli import main; main({command})")
    assert {"rfplan.reports.sheets.loss_budget", "rfplan.reports.formats.text"} <= loaded
    unneeded = ("rfplan.records.manifest", "rfplan.reports.formats.pdf", "fpdf", "numpy.ma")
    assert sorted(loaded.intersection(unneeded)) == []


def test_imports_only_go_down() -> None:
    linter = shutil.which("lint-imports", path=str(Path(sys.executable).parent))
    if linter is None:
        pytest.skip("import-linter is not installed beside this interpreter")
    done = subprocess.run([linter], cwd=ROOT, capture_output=True, text=True, check=False)
    assert done.returncode == 0, done.stdout
