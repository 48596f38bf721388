# SPDX-License-Identifier: Apache-2.0
"""Two monopoles on a plane, run again by the method of moments."""

from __future__ import annotations

import os
from importlib import import_module
from typing import Any

import numpy as np
import pytest

from rfplan.physics.coupling import matched_isolation_db, plane_isolation_db
from rfplan.physics.free_space import wavelength_m
from rfplan.physics.mutual_impedance import HALF_WAVE_OHM, side_by_side_ohm

pytestmark = [
    pytest.mark.thorough,
    pytest.mark.skipif(os.environ.get("RFPLAN_THOROUGH") != "1", reason="RFPLAN_THOROUGH is not 1"),
]

SEGMENTS = 21
PLACES = [(125e6, 0.3), (125e6, 1.0), (330e6, 2.0), (1090e6, 0.3), (1090e6, 1.0), (1575.42e6, 2.0)]


@pytest.fixture(scope="module")
def nec() -> Any:
    """Return the library of the extra [oracles]."""
    return import_module("PyNEC")


def admittances(nec: Any, frequency_hz: float, feet_m: tuple[float, ...]) -> np.ndarray:
    """Return the admittance matrix of quarter-wave wires on perfect ground."""
    wave_m = float(wavelength_m(frequency_hz))
    columns: list[list[complex]] = []
    for driven in range(len(feet_m)):
        context = nec.nec_context()
        geometry = context.get_geometry()
        for tag, foot_m in enumerate(feet_m, start=1):
            ends = (foot_m, 0.0, 0.0, foot_m, 0.0, wave_m / 4.0)
            geometry.wire(tag, SEGMENTS, *ends, wave_m / 1000.0, 1.0, 1.0)
        context.geometry_complete(1)
        context.gn_card(1, 0, 0, 0, 0, 0, 0, 0)
        context.fr_card(0, 1, frequency_hz / 1e6, 0)
        context.ex_card(0, driven + 1, 1, 0, 1.0, 0, 0, 0, 0, 0)
        context.xq_card(0)
        currents = context.get_structure_currents(0).get_current()
        columns.append([complex(currents[tag * SEGMENTS]) for tag in range(len(feet_m))])
    return np.array(columns).T


@pytest.mark.parametrize(("frequency_hz", "distance_m"), PLACES)
def test_induced_emf_agrees_within_a_tenth_of_a_decibel(
    nec: Any, frequency_hz: float, distance_m: float
) -> None:
    own_ohm = 1.0 / complex(admittances(nec, frequency_hz, (0.0,))[0, 0])
    z = np.linalg.inv(admittances(nec, frequency_hz, (0.0, distance_m)))
    s = (z - 50.0 * np.eye(2)) @ np.linalg.inv(z + 50.0 * np.eye(2))
    expected_db = -20.0 * np.log10(abs(s[1, 0]))
    assert plane_isolation_db(frequency_hz, distance_m, own_ohm) == pytest.approx(
        expected_db, abs=0.1
    )
    mutual_ohm = 0.5 * side_by_side_ohm(distance_m / wavelength_m(frequency_hz))
    scaled_ohm = mutual_ohm * own_ohm.real / (0.5 * HALF_WAVE_OHM.real)
    assert matched_isolation_db(own_ohm, scaled_ohm) == pytest.approx(
        float(matched_isolation_db(z[0, 0], z[1, 0])), abs=0.15
    )
