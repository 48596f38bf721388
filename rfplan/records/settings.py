# SPDX-License-Identifier: Apache-2.0
"""How a plan is judged and shown, as a command, a package or a release asks for it."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal

from rfplan.model.plan import State
from rfplan.reports.cells import LengthUnit

Status = Literal["released", "as built"]


@dataclass(frozen=True, slots=True)
class Settings:
    """How a plan is judged and shown; with the files, all that a package is made from.

    `status` stands for the revision's own, where a release gives it another; `date` is text that
    the user gives.
    """

    plan: str = ""
    state: State = State.DESIGN
    serial: str | None = None
    units: LengthUnit = "in"
    date: str | None = None
    status: Status | None = None
