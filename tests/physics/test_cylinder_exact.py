# SPDX-License-Identifier: Apache-2.0
"""The exact dipole field against contour integrals kept apart, and against itself."""

from __future__ import annotations

from pathlib import Path
from typing import Any

import numpy as np
import pytest
import yaml

from rfplan.physics.cylinder_exact import dipole_field, dipole_level_db, dipole_ray_field
from rfplan.physics.cylinder_modes import Blur

KEPT: dict[str, list[dict[str, float]]] = yaml.safe_load(
    (Path(__file__).parents[1] / "authorities" / "cylinder.yaml").read_text(encoding="utf-8")
)


@pytest.mark.parametrize("row", KEPT["dipoles"], ids=str)
def test_the_field_is_that_of_a_contour_integral(row: dict[str, Any]) -> None:
    found = dipole_field(row["ka"], np.radians(row["phi_deg"]), row["kz"])
    assert found == pytest.approx(complex(row["re"], row["im"]), rel=1e-4)


@pytest.mark.parametrize("row", KEPT["rays"], ids=str)
def test_one_ray_is_that_of_a_contour_integral(row: dict[str, Any]) -> None:
    found = complex(dipole_ray_field(row["ka"], row["phi_rad"], 0.0))
    assert found == pytest.approx(complex(row["re"], row["im"]), rel=1e-4)
    over_far_field = abs(found) * row["ka"] * row["phi_rad"]
    assert 20.0 * np.log10(over_far_field) == pytest.approx(row["level_db"], abs=0.01)


@pytest.mark.parametrize("place", [(2.0, 1.0, 1.5), (6.0, np.pi, 0.0), (10.0, 0.0, 9.0)])
def test_another_blur_gives_the_same_field(place: tuple[float, float, float]) -> None:
    other = dipole_field(*place, Blur(width=0.04, widest=0.15, order=3))
    assert dipole_field(*place) == pytest.approx(complex(other), rel=2e-4)


def test_the_rays_in_both_directions_add_up_to_the_field() -> None:
    ka, phi, kz = 3.0, 2.0, 1.5
    turns = phi + 2.0 * np.pi * np.arange(-2, 2)
    rays = np.sum(dipole_ray_field(ka, np.abs(turns), kz))
    assert rays == pytest.approx(complex(dipole_field(ka, phi, kz)), rel=1e-4)


def test_a_large_cylinder_is_a_plane() -> None:
    assert dipole_level_db(120.0, 2.0 / 120.0, 0.0) == pytest.approx(0.0, abs=0.1)


def test_the_field_is_even_round_and_along_the_cylinder() -> None:
    one = dipole_field(4.0, np.array([1.0, -1.0]), np.array([2.0, -2.0]))
    assert one[0] == pytest.approx(one[1])


def test_a_point_on_the_source_is_refused() -> None:
    with pytest.raises(ValueError, match="distance"):
        dipole_field(4.0, 0.0, 0.0)
