# SPDX-License-Identifier: Apache-2.0
"""How long the matrix and the mixing products of forty antennas take, against a calibration."""

from __future__ import annotations

import os
import time
from collections.abc import Callable

import numpy as np
import pytest
from crowded_aircraft import RADIOS, crowded_facts

from rfplan.analysis.interference import interference
from rfplan.analysis.mixing import mixing

pytestmark = [
    pytest.mark.thorough,
    pytest.mark.skipif(os.environ.get("RFPLAN_THOROUGH") != "1", reason="RFPLAN_THOROUGH is not 1"),
]


def best_s(run: Callable[[], object]) -> float:
    """Return the shortest of five runs."""
    laps: list[float] = []
    for _ in range(5):
        start = time.perf_counter()
        run()
        laps.append(time.perf_counter() - start)
    return min(laps)


def interpolate() -> None:
    """Interpolate 21 points five thousand times: the calibration, about 7 ms."""
    at, table = np.linspace(1.0, 2.0, 21), np.linspace(0.0, 3.0, 8)
    for _ in range(5000):
        np.exp(np.interp(np.log(at), table, table))


def test_the_matrix_of_forty_antennas_stays_in_its_budget() -> None:
    """150 ms on a machine that calibrates in 7 ms."""
    assert sum(RADIOS.values()) == 40
    facts = crowded_facts()
    calibration_s, matrix_s = best_s(interpolate), best_s(lambda: interference(facts))
    print(f"matrix {1e3 * matrix_s:.0f} ms, calibration {1e3 * calibration_s:.1f} ms")
    assert matrix_s < 21.0 * calibration_s


def test_the_mixing_products_of_forty_antennas_stay_in_their_budget() -> None:
    """100 ms on a machine that calibrates in 7 ms, all pairs of channels counted."""
    facts = crowded_facts()
    assert len(mixing(facts).channels) > 5
    calibration_s, mixing_s = best_s(interpolate), best_s(lambda: mixing(facts))
    print(f"mixing {1e3 * mixing_s:.0f} ms, calibration {1e3 * calibration_s:.1f} ms")
    assert mixing_s < 14.0 * calibration_s
