# SPDX-License-Identifier: Apache-2.0
"""Ways along the skin are worked out once, and what is kept is what would be worked out."""

from __future__ import annotations

import numpy as np
import pytest
from sample import sample_facts

from rfplan.analysis import known_ways as kept
from rfplan.analysis.known_ways import known_ways
from rfplan.physics.geodesic import skin_ways
from rfplan.physics.skin_geometry import Hull


def places(count: int) -> tuple[Hull, np.ndarray, np.ndarray]:
    """Return a hull and places on its top and its belly."""
    scene = sample_facts().scene
    ends = np.array([one.point_m for one in scene.fitted.values()])
    draw = np.random.default_rng(5)
    a_m, b_m = (
        ends[draw.integers(len(ends), size=count)],
        ends[draw.integers(len(ends), size=count)],
    )
    a_m = a_m + np.stack([draw.uniform(0.0, 0.2, count), np.zeros(count), np.zeros(count)], axis=-1)
    return scene.hull, a_m, b_m


def test_what_is_kept_is_to_the_last_bit_what_is_worked_out_alone() -> None:
    hull, a_m, b_m = places(12)
    kept._known.clear()
    together = known_ways(hull, a_m, b_m)
    for row in range(12):
        alone = np.stack([np.asarray(part) for part in skin_ways(hull, a_m[[row]], b_m[[row]])])
        np.testing.assert_array_equal(together[:, row], alone[:, 0])
    np.testing.assert_array_equal(known_ways(hull, a_m, b_m), together)


def test_only_what_is_new_is_worked_out(monkeypatch: pytest.MonkeyPatch) -> None:
    hull, a_m, b_m = places(6)
    kept._known.clear()
    asked: list[int] = []

    def counting(hull: Hull, a_m: np.ndarray, b_m: np.ndarray) -> object:
        asked.append(len(a_m))
        return skin_ways(hull, a_m, b_m)

    monkeypatch.setattr(kept, "skin_ways", counting)
    known_ways(hull, a_m[:4], b_m[:4])
    known_ways(hull, a_m, b_m)
    known_ways(hull, a_m, b_m)
    assert asked == [4, 2]


def test_another_hull_is_another_way() -> None:
    hull, a_m, b_m = places(3)
    wider = Hull(hull.fs_m, 2.0 * hull.half_width_m, hull.bottom_m, hull.top_m, hull.roundness)
    assert not np.array_equal(known_ways(hull, a_m, b_m), known_ways(wider, a_m, b_m))


def test_what_is_kept_does_not_grow_without_end(monkeypatch: pytest.MonkeyPatch) -> None:
    hull, a_m, b_m = places(6)
    monkeypatch.setattr(kept, "MOST_KEPT", 8)
    kept._known.clear()
    first = known_ways(hull, a_m, b_m)
    known_ways(hull, a_m + 0.01, b_m)
    assert len(kept._known) <= 8
    np.testing.assert_array_equal(known_ways(hull, a_m, b_m), first)
