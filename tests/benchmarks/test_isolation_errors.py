# SPDX-License-Identifier: Apache-2.0
"""How far every rung of the isolation ladder is off the exact cylinder; prints the table.

Run alone: RFPLAN_THOROUGH=1 pytest -s tests/benchmarks/test_isolation_errors.py
"""

from __future__ import annotations

import os
import time
from collections.abc import Callable

import numpy as np
import pytest

from rfplan.analysis.antenna_pairs import AntennaPairs, Link
from rfplan.analysis.isolation import isolation
from rfplan.analysis.isolation_models import COMPARED_FROM_KA, Model, accuracy_db
from rfplan.physics.cylinder_monopoles import cylinder_isolation_db
from rfplan.physics.geodesic import skin_ways
from rfplan.physics.skin_coupling import (
    FITTED_FROM_KA,
    SkinIsolation,
    fitted_isolation_db,
    shaded_isolation_db,
    skin_isolation,
)
from rfplan.physics.skin_geometry import Hull, point_at_angle_m
from rfplan.physics.surface_ray import Way, cylinder_way

pytestmark = [
    pytest.mark.thorough,
    pytest.mark.skipif(os.environ.get("RFPLAN_THOROUGH") != "1", reason="RFPLAN_THOROUGH is not 1"),
]

UNIT_HZ = np.array([299_792_458.0 / (2.0 * np.pi)])
"""Frequency at which lengths are in units of 1/k."""

THICKNESSES = (0.8, 1.0, 1.4, 2.0, 3.0, 5.0, 8.0, 12.0, 20.0)
PHI_RAD = np.radians([0, 2, 5, 10, 20, 30, 45, 60, 75, 90, 105, 120, 135, 150, 165, 180])
KZ = np.array([0.0, 0.6, 1.2, 2.0, 3.0, 4.5, 7.0, 10.0, 15.0, 25.0, 50.0])
NEAREST = 1.2

RUNGS: dict[Model, Callable[[Way, float], object]] = {
    Model.SHADING: lambda ways, ka: shaded_isolation_db(UNIT_HZ, ways),
    Model.SURFACE_RAY: lambda ways, ka: skin_isolation(UNIT_HZ, ways),
    Model.FITTED: lambda ways, ka: fitted_isolation_db(UNIT_HZ, ways, ka),
}


def places(ka: float) -> tuple[np.ndarray, np.ndarray]:
    """Return angles and distances along a cylinder of the grid, none nearer than compared."""
    phi, kz = (grid.ravel() for grid in np.meshgrid(PHI_RAD, KZ))
    far = np.hypot(ka * phi, kz) >= NEAREST
    return phi[far], kz[far]


def exact_db(ka: float, phi: np.ndarray, kz: np.ndarray) -> np.ndarray:
    """Return the exact isolation, near and far places apart since near ones need a finer sum."""
    distance, result = np.hypot(ka * phi, kz), np.zeros(len(phi))
    for least, most in ((NEAREST, 2.0), (2.0, 3.5), (3.5, np.inf)):
        some = (distance >= least) & (distance < most)
        if some.any():
            result[some] = cylinder_isolation_db(ka, phi[some], kz[some])
    return result


def both_ways(ka: float, phi: np.ndarray, kz: np.ndarray) -> Way:
    """Return the ways in both directions round a cylinder."""
    turns = ka * np.stack([phi, 2.0 * np.pi - phi], axis=-1)
    return cylinder_way(np.hypot(turns, kz[:, None]), ka, np.arctan2(kz[:, None], turns))


@pytest.mark.parametrize("ka", THICKNESSES)
def test_every_rung_keeps_its_band(ka: float) -> None:
    phi, kz = places(ka)
    exact = exact_db(ka, phi, kz)
    for model, compute in RUNGS.items():
        said = compute(both_ways(ka, phi, kz), ka)
        least_db, phases_db = said if isinstance(said, SkinIsolation) else (said, 0.0)
        better = exact - np.asarray(least_db)
        low_db, high_db = accuracy_db(model, np.full(len(phi), ka), np.zeros(len(phi)))
        print(
            f"ka {ka:5.1f}  {model.name:<12} exact less model {better.min():7.2f} .. "
            f"{better.max():6.2f} dB, rms {np.sqrt(np.mean(better**2)):5.2f}, "
            f"beside phases to {np.max(better - phases_db):6.2f}, "
            f"band {low_db[0]:6.2f} .. {high_db[0]:6.2f}"
        )
        if ka >= (FITTED_FROM_KA if model is Model.FITTED else COMPARED_FROM_KA):
            assert better.min() >= low_db[0]
            assert np.max(better - phases_db) <= high_db[0]


def many_pairs() -> tuple[AntennaPairs, Hull, np.ndarray, np.ndarray]:
    """Return the 435 pairs of thirty antennas on a tapered hull."""
    hull = Hull(
        np.array([0.0, 1.5, 3.5, 7.0]),
        np.array([0.25, 0.55, 0.6, 0.15]),
        np.array([-0.2, -0.5, -0.6, 0.0]),
        np.array([0.2, 0.5, 0.7, 0.3]),
        np.array([2.2, 2.6, 2.7, 2.2]),
    )
    draw = np.random.default_rng(7)
    points = point_at_angle_m(hull, draw.uniform(0.1, 6.9, 30), draw.uniform(-3.1, 3.1, 30))
    first, second = np.triu_indices(30, 1)
    a_m, b_m = points[first], points[second]
    count = len(first)
    pairs = AntennaPairs(
        tuple((f"a{i}", f"a{j}") for i, j in zip(first, second, strict=True)),
        np.full(count, Link.SKIN, dtype=np.int8),
        np.linalg.norm(b_m - a_m, axis=-1),
        np.zeros(count),
        np.zeros(count),
        skin_ways(hull, a_m, b_m),
        np.full(count, 0.5),
        np.ones(count, dtype=bool),
        np.ones(count, dtype=bool),
    )
    return pairs, hull, a_m, b_m


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


def test_all_pairs_at_ten_frequencies_and_all_ways_stay_in_their_budgets() -> None:
    """15 ms and 400 ms on a machine that calibrates in 7 ms."""
    pairs, hull, a_m, b_m = many_pairs()
    frequency_hz = np.linspace(118e6, 1600e6, 10)
    calibration_s = best_s(interpolate)
    numbers_s = best_s(lambda: isolation(pairs, frequency_hz))
    ways_s = best_s(lambda: skin_ways(hull, a_m, b_m))
    print(f"435 pairs x 10 frequencies {1e3 * numbers_s:.1f} ms, 870 ways {1e3 * ways_s:.0f} ms")
    assert numbers_s < 2.1 * calibration_s
    assert ways_s < 57.0 * calibration_s
