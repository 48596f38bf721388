# SPDX-License-Identifier: Apache-2.0
"""An invented aircraft in its folder, and its package."""

from __future__ import annotations

from pathlib import Path

import pytest
from command_line import aircraft

from rfplan.records.package import package
from rfplan.records.settings import Settings


@pytest.fixture
def plan(tmp_path: Path) -> Path:
    """A folder with a plan that meets its limits."""
    return Path(aircraft(tmp_path / "kite"))


@pytest.fixture(scope="session")
def packed(tmp_path_factory: pytest.TempPathFactory) -> bytes:
    """The package of a plan that meets its limits."""
    return package(Path(aircraft(tmp_path_factory.mktemp("kite"))), Settings())
