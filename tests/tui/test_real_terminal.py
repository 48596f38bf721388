# SPDX-License-Identifier: Apache-2.0
"""What the workspace writes to a real terminal: few bytes a step, none while nothing happens."""

from __future__ import annotations

import os
import select
import shutil
import struct
import sys
import time
from pathlib import Path

import pytest
from demo_plans import FOLDER

pytestmark = [
    pytest.mark.thorough,
    pytest.mark.skipif(os.environ.get("RFPLAN_THOROUGH") != "1", reason="RFPLAN_THOROUGH is not 1"),
]

RIGHT, LEFT, ESCAPE = b"\x1b[C", b"\x1b[D", b"\x1b"
STEPS = 16
QUIET_S = 0.25


def written(terminal: int, quiet_s: float, limit_s: float = 10.0) -> int:
    """Return how many bytes come until nothing has come for a while."""
    count, start = 0, time.monotonic()
    while time.monotonic() - start < limit_s:
        if not select.select([terminal], [], [], quiet_s)[0]:
            break
        count += len(os.read(terminal, 65536))
    return count


@pytest.mark.parametrize(("columns", "rows", "most"), [(80, 24, 4), (120, 40, 9), (200, 60, 16)])
def test_a_step_writes_few_bytes_and_nothing_is_written_in_between(
    columns: int, rows: int, most: int, tmp_path: Path
) -> None:
    import fcntl
    import pty
    import termios

    folder = tmp_path / "amphibian"
    shutil.copytree(FOLDER / "amphibian", folder)
    pid, terminal = pty.fork()
    if pid == 0:
        state = {
            "TERM": "xterm-256color",
            "COLORTERM": "truecolor",
            "XDG_STATE_HOME": str(tmp_path),
        }
        command = [sys.executable, "-m", "rfplan", str(folder)]
        os.execve(sys.executable, command, {**os.environ, **state})
    try:
        size = struct.pack("HHHH", rows, columns, 0, 0)
        fcntl.ioctl(terminal, termios.TIOCSWINSZ, size)
        assert written(terminal, quiet_s=3.0, limit_s=20.0) > 0
        os.write(terminal, b"m")
        written(terminal, quiet_s=1.0)
        steps = []
        for key in [RIGHT] * (STEPS // 2) + [LEFT] * (STEPS // 2):
            os.write(terminal, key)
            steps.append(written(terminal, QUIET_S))
        assert min(steps) > 0
        assert sorted(steps)[int(0.9 * STEPS)] <= most * 1024
        assert written(terminal, quiet_s=8.0, limit_s=8.5) == 0
    finally:
        os.kill(pid, 9)
        os.waitpid(pid, 0)
        os.close(terminal)
