# SPDX-License-Identifier: Apache-2.0
"""From how many spools are pieces of cable cut, when no piece may be joined?"""

from __future__ import annotations

import math
from collections.abc import Mapping

TIE_M = 1.0e-9
"""A piece as long as what is left on a spool is cut from it."""


def cut_from_spools(pieces_m: Mapping[str, float], spool_m: float) -> tuple[tuple[str, ...], ...]:
    """Return, spool by spool, which pieces are cut from it; ValueError for one that is longer.

    The longest piece goes first, each to the spool that it leaves least of (best fit,
    decreasing): that may take a spool more than the best of all ways to cut.
    """
    spools: list[list[str]] = []
    left_m: list[float] = []
    for id, piece_m in sorted(pieces_m.items(), key=lambda piece: (-piece[1], piece[0])):
        if piece_m > spool_m + TIE_M:
            raise ValueError(f"{id} is longer than a spool")
        fitting = [number for number, left in enumerate(left_m) if piece_m <= left + TIE_M]
        if not fitting:
            spools.append([])
            left_m.append(spool_m)
        best = min(fitting, key=left_m.__getitem__, default=len(spools) - 1)
        spools[best].append(id)
        left_m[best] -= piece_m
    return tuple(map(tuple, spools))


def spools_to_hold(length_m: float, spool_m: float) -> int:
    """Return the fewest spools that hold a length, however it is cut."""
    return math.ceil((length_m - TIE_M) / spool_m)
