# SPDX-License-Identifier: Apache-2.0
"""Fixtures of all tests."""

from __future__ import annotations

import pytest
from command_line import Answer, Run

from rfplan.cli import main


@pytest.fixture
def rfplan(capsys: pytest.CaptureFixture[str]) -> Run:
    """Run a command in this process and return its exit code and what it printed."""

    def run(*arguments: str) -> Answer:
        try:
            code = main(arguments)
        except SystemExit as stop:
            code = int(stop.code or 0)
        return Answer(code, *capsys.readouterr())

    return run
