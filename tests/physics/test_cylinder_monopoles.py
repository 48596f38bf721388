# SPDX-License-Identifier: Apache-2.0
"""Monopoles on a cylinder against sums kept apart, other blurs, and the plane."""

from __future__ import annotations

import os
from pathlib import Path
from typing import Any

import numpy as np
import pytest
import yaml

from rfplan.physics.cylinder_modes import Blur
from rfplan.physics.cylinder_monopoles import (
    cylinder_isolation_db,
    cylinder_mutual_ohm,
    cylinder_resistance_ohm,
)
from rfplan.physics.mutual_impedance import HALF_WAVE_OHM, side_by_side_ohm

KEPT: dict[str, list[dict[str, float]]] = yaml.safe_load(
    (Path(__file__).parents[1] / "authorities" / "cylinder.yaml").read_text(encoding="utf-8")
)
THOROUGH = os.environ.get("RFPLAN_THOROUGH") == "1"
SPECTRAL = [
    row
    for row in KEPT["spectral"]
    if THOROUGH or row["frequency_mhz"] * (1 + row["along_m"]) < 1500
]


@pytest.mark.parametrize("row", KEPT["monopoles"], ids=str)
def test_the_mutual_impedance_is_that_of_another_sum(row: dict[str, Any]) -> None:
    found = cylinder_mutual_ohm(row["ka"], np.radians(row["phi_deg"]), row["kz"])
    assert found == pytest.approx(complex(row["re"], row["im"]), rel=1e-3)


@pytest.mark.parametrize("row", SPECTRAL, ids=str)
def test_the_isolation_is_that_of_another_regularisation(row: dict[str, Any]) -> None:
    k = 2.0 * np.pi * row["frequency_mhz"] * 1e6 / 299_792_458.0
    ka = k * row["radius_m"]
    mutual_ohm = cylinder_mutual_ohm(ka, np.radians(row["phi_deg"]), k * row["along_m"])
    found_db = 20.0 * np.log10(2.0 * row["resistance_ohm"] / abs(mutual_ohm))
    assert found_db == pytest.approx(row["isolation_db"], abs=row["tolerance_db"])


@pytest.mark.parametrize("row", SPECTRAL[:4], ids=str)
def test_the_resistance_is_near_that_of_another_regularisation(row: dict[str, Any]) -> None:
    ka = 2.0 * np.pi * row["frequency_mhz"] * 1e6 / 299_792_458.0 * row["radius_m"]
    assert cylinder_resistance_ohm(ka) == pytest.approx(row["resistance_ohm"], rel=2.5e-3)


def test_another_blur_gives_the_same_impedance() -> None:
    other = cylinder_mutual_ohm(4.0, 1.0, 2.0, Blur(width=0.04, widest=0.12, order=3))
    assert cylinder_mutual_ohm(4.0, 1.0, 2.0) == pytest.approx(complex(other), rel=2e-4)


def test_on_a_large_cylinder_two_monopoles_couple_as_on_a_plane() -> None:
    plane = 0.5 * complex(side_by_side_ohm(3.0 / (2.0 * np.pi)))
    assert cylinder_mutual_ohm(60.0, 3.0 / 60.0, 0.0) == pytest.approx(plane, rel=0.04)
    assert cylinder_resistance_ohm(60.0) == pytest.approx(HALF_WAVE_OHM.real / 2.0, rel=6e-3)


def test_isolation_grows_round_the_hull_until_both_rays_are_equal() -> None:
    isolation_db = cylinder_isolation_db(6.0, np.radians([30.0, 60.0, 90.0, 120.0]), 0.0)
    assert (np.diff(isolation_db) > 5.0).all()
    assert cylinder_isolation_db(6.0, np.pi, 0.0) < cylinder_isolation_db(6.0, 2.9, 0.0)


def test_a_hull_without_thickness_is_refused() -> None:
    with pytest.raises(ValueError, match="ka"):
        cylinder_resistance_ohm(0.0)
