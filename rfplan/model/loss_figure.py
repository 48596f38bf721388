# SPDX-License-Identifier: Apache-2.0
"""How a loss figure of the catalogue was come by, and how far it may be off."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal

Obtained = Literal["stated", "table", "fit", "extrapolated"]
"""One figure for all frequencies; a table; a law alone; either of them beyond its end."""


@dataclass(frozen=True, slots=True)
class Tolerance:
    """How far a figure may be off: as its source states, else as such a source is worth.

    `ends` are those of least and most that the catalogue states a figure of their own for.
    """

    value: float
    unit: Literal["dB", ""]
    stated: bool
    ends: tuple[Literal["least", "most"], ...] = ()
