# SPDX-License-Identifier: Apache-2.0
"""Fixtures of the tests of the workspace: a plan of its own and a state folder of its own."""

from __future__ import annotations

from collections.abc import Iterator
from pathlib import Path

import pytest
from workspaces import OPEN, frozen_folder


@pytest.fixture(autouse=True)
def own_state(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Iterator[None]:
    """Keep journals in a folder of the test, and close them after it."""
    monkeypatch.setenv("XDG_STATE_HOME", str(tmp_path / "state"))
    yield
    while OPEN:
        OPEN.pop().journal.close(keep=True)


@pytest.fixture
def frozen(tmp_path: Path) -> Path:
    """Return a folder with the frozen plan."""
    return frozen_folder(tmp_path / "frozen")
