# SPDX-License-Identifier: Apache-2.0
"""A package in place of a plan, judged as it was packed."""

from __future__ import annotations

from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path

from rfplan.files.opening import read_bytes
from rfplan.files.problems import Problem, ProblemsError
from rfplan.records.container import MOST_BYTES, DamagedError
from rfplan.records.judging import Filed
from rfplan.records.verify import judged_again


@contextmanager
def judged_package(path: Path) -> Iterator[Filed]:
    """Judge a package as it was packed; raises ProblemsError where it is not whole."""
    content = read_bytes(path, str(path), MOST_BYTES)
    try:
        with judged_again(content) as filed:
            yield filed
    except DamagedError as error:
        problem = Problem(str(path), 1, 1, f"this is damaged or changed: {error}", "a package")
        raise ProblemsError([problem]) from None
