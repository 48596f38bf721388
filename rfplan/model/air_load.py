# SPDX-License-Identifier: Apache-2.0
"""What the air does to the antennas that a change puts up outside, or takes down."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal

Shape = Literal["streamlined", "bluff"]


@dataclass(frozen=True, slots=True)
class AirLoad:
    """One antenna put up or taken down, and its drag at the never-exceed speed.

    `shape` is what its type states; one that states none is reckoned as bluff.
    """

    id: str
    type: str
    on: str
    fs_m: float
    installed: bool
    area_m2: float | None
    shape: Shape | None
    drag_n: float | None
