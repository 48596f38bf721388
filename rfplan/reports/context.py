# SPDX-License-Identifier: Apache-2.0
"""What a sheet tells beside the assessment: units, version, hashes, date, the files read."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass

from rfplan import __version__
from rfplan.analysis.isolation_models import Rung
from rfplan.reports.cells import LengthUnit

Where = Callable[[tuple[str, ...]], tuple[str, int, int]]
"""From the keys that lead to a field to the file, line and column in which it stands."""


@dataclass(frozen=True, slots=True)
class Hashes:
    """The content that was judged, as SHA-256 in hex digits."""

    plan: str
    catalog: str
    rules: str


@dataclass(frozen=True, slots=True)
class Context:
    """How and when an assessment is shown; `date` is text that the user gives.

    `rung` is the model by which the sheets of isolation and interference are made for comparison;
    the exact one takes up to seconds a pair.
    """

    hashes: Hashes
    units: LengthUnit = "in"
    version: str = __version__
    date: str | None = None
    plan_file: str = ""
    airframe_file: str = ""
    where: Where | None = None
    rung: Rung = Rung.DEFAULT
