# SPDX-License-Identifier: Apache-2.0
"""Labels beside each other: as near to what they name as may be, none over another."""

from __future__ import annotations

from collections.abc import Sequence


def spread(targets: Sequence[float], gap: float, low: float, high: float) -> list[float]:
    """Return places as near to rising targets as may be, no two nearer than the gap.

    All stand between low and high where there is room for them.
    """
    blocks: list[tuple[float, int]] = []
    for place, target in enumerate(targets):
        blocks.append((target - place * gap, 1))
        while len(blocks) > 1 and blocks[-2][0] > blocks[-1][0]:
            (one, many), (other, more) = blocks[-2:]
            blocks[-2:] = [((one * many + other * more) / (many + more), many + more)]
    level = [value for value, count in blocks for _ in range(count)]
    top = high - gap * (len(level) - 1)
    return [max(low, min(top, one)) + place * gap for place, one in enumerate(level)]
