# SPDX-License-Identifier: Apache-2.0
"""How does the wave get along the skin between two places? Worked out once for each two of them.

What is kept depends on nothing but its key, so that remembering changes the time and no number.
"""

from __future__ import annotations

import numpy as np
from numpy.typing import NDArray

from rfplan.physics.geodesic import skin_ways
from rfplan.physics.skin_geometry import Hull

Floats = NDArray[np.float64]
_Key = tuple[bytes, bytes, bytes]

MOST_KEPT = 20_000

_known: dict[_Key, Floats] = {}


def known_ways(hull: Hull, a_m: Floats, b_m: Floats) -> Floats:
    """Return length, bend and twist of both ways between pairs of places, shape (3, pairs, 2)."""
    parts = hull.fs_m, hull.half_width_m, hull.bottom_m, hull.top_m, hull.roundness
    skin = b"".join(part.tobytes() for part in parts)
    ends = zip(a_m, b_m, strict=True)
    keys: list[_Key] = [(skin, a.tobytes(), b.tobytes()) for a, b in ends]
    if len(_known) + len(keys) > MOST_KEPT:
        _known.clear()
    missing = [row for row, key in enumerate(keys) if key not in _known]
    if missing:
        found = np.stack([np.asarray(part) for part in skin_ways(hull, a_m[missing], b_m[missing])])
        _known.update((keys[row], found[:, place]) for place, row in enumerate(missing))
    return np.stack([_known[key] for key in keys], axis=1)
