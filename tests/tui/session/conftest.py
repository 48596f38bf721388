# SPDX-License-Identifier: Apache-2.0
"""Fixtures of the tests of a session: an aircraft of its own, and a session on it."""

from __future__ import annotations

from collections.abc import Iterator
from pathlib import Path

import pytest
from plan_files import write_aircraft
from sessions import OPENED, opened

from rfplan.tui.session import Session


@pytest.fixture(autouse=True)
def closed() -> Iterator[None]:
    """Close the journals of all sessions after a test."""
    yield
    while OPENED:
        OPENED.pop().journal.close(keep=True)


@pytest.fixture
def folder(tmp_path: Path) -> Path:
    """Return the folder of an aircraft."""
    (tmp_path / "tandem").mkdir()
    return write_aircraft(tmp_path / "tandem")


@pytest.fixture
def session(folder: Path) -> Session:
    """Return a session with nothing done yet."""
    return opened(folder)
