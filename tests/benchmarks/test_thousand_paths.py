# SPDX-License-Identifier: Apache-2.0
"""A plan far larger than any aircraft: a thousand paths judged, all sheets and a package written.

Forty antennas send, sixty serve sixteen receivers each through splitters. Rows of interference
are senders times receivers, and rows of spacing pairs of antennas, by nature: nothing else may
grow with more than the number of paths.
"""

from __future__ import annotations

import json
import os
import subprocess
import sys
from pathlib import Path
from typing import Any

import pytest
import thousand_paths

from rfplan.reports.sheets import FILED

pytestmark = [
    pytest.mark.thorough,
    pytest.mark.skipif(os.environ.get("RFPLAN_THOROUGH") != "1", reason="RFPLAN_THOROUGH is not 1"),
]

MOST_CPU_S = 60.0
MOST_MB = 1024.0


def measured(folder: Path) -> dict[str, Any]:
    """Judge the plan in a process of its own, so that its memory is its own too."""
    script = Path(thousand_paths.__file__)
    environment = {**os.environ, "PYTHONPATH": os.pathsep.join(filter(None, sys.path))}
    done = subprocess.run(
        [sys.executable, str(script), str(folder)],
        capture_output=True,
        text=True,
        check=False,
        timeout=600,
        env=environment,
    )
    assert done.returncode == 0, done.stderr
    told: dict[str, Any] = json.loads(done.stdout)
    return told


def test_a_thousand_paths_all_sheets_and_a_package_take_a_minute_and_a_gigabyte(
    tmp_path: Path,
) -> None:
    told = measured(tmp_path)
    print(json.dumps(told))
    assert told["paths"] == 1000
    assert told["cpu_s"] < MOST_CPU_S
    assert told["peak_mb"] < MOST_MB
    assert (tmp_path / "package.zip").stat().st_size > 1e6
    for key in FILED:
        assert (tmp_path / f"{key}.txt").stat().st_size > 1000
    budget = (tmp_path / "loss_budget.txt").read_text("utf-8")
    assert all(f"p{line.name}_0" in budget for line in thousand_paths.plan_lines())
