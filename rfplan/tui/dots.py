# SPDX-License-Identifier: Apache-2.0
"""The eight dots of a cell, two wide and four high, and the character each tier draws for them."""

from __future__ import annotations

from collections.abc import Callable
from functools import lru_cache

from rfplan.tui.glyphs import Tier

DOTS_ACROSS = 2
DOTS_DOWN = 4

BIT = ((0x01, 0x08), (0x02, 0x10), (0x04, 0x20), (0x40, 0x80))
"""Weight of a dot by row and column, in the order of the braille block."""

_BRAILLE = 0x2800


@lru_cache
def characters(tier: Tier) -> str:
    """Return the 256 characters of a tier, one for every pattern of dots."""
    draw: dict[Tier, Callable[[int], str]] = {
        Tier.FULL: _braille,
        Tier.BLOCKS: _half_block,
        Tier.ASCII: _stroke,
    }
    return "".join(draw[tier](pattern) for pattern in range(256))


def _braille(pattern: int) -> str:
    return chr(_BRAILLE + pattern) if pattern else " "


def _half_block(pattern: int) -> str:
    upper = any(pattern & bit for row in BIT[:2] for bit in row)
    lower = any(pattern & bit for row in BIT[2:] for bit in row)
    return " ▄▀█"[2 * upper + lower]


def _stroke(pattern: int) -> str:
    """The character that runs the way the dots run, at about their height in the cell."""
    left, right = (
        [row for row in range(DOTS_DOWN) if pattern & BIT[row][column]]
        for column in range(DOTS_ACROSS)
    )
    rows = left + right
    if not rows:
        return " "
    if max(rows) - min(rows) <= 1:
        return _flat(sum(rows) / len(rows), bool(left and right))
    if left and right:
        return _steep(sum(left) / len(left) - sum(right) / len(right), len(rows))
    return "|"


def _flat(height: float, across: bool) -> str:
    if across:
        return "_" if height >= 2.5 else "-"
    return "'" if height < 1.5 else "."


def _steep(rise: float, count: int) -> str:
    if abs(rise) >= 0.75:
        return "/" if rise > 0 else "\\"
    return "+" if count > 5 else "|"
