# SPDX-License-Identifier: Apache-2.0
"""The air load on an antenna."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from rfplan.physics.drag import BLADE_LBF_PER_FT2_MPH2, blade_drag_n, bluff_drag_n

areas = st.floats(0.0, 0.5)
speeds = st.floats(0.0, 200.0)


@given(areas, speeds)
def test_drag_grows_with_area_and_with_the_square_of_speed(area: float, speed: float) -> None:
    assert blade_drag_n(2 * area, speed) == pytest.approx(2 * blade_drag_n(area, speed))
    assert blade_drag_n(area, 2 * speed) == pytest.approx(4 * blade_drag_n(area, speed))


@given(areas, speeds)
def test_a_bluff_body_has_ten_times_the_drag_of_a_blade(area: float, speed: float) -> None:
    assert bluff_drag_n(area, speed) == pytest.approx(10 * blade_drag_n(area, speed))


def test_the_constant_comes_out_of_sea_level_density_and_a_flat_plate() -> None:
    derived = 0.5 * 0.0023769 * (5280 / 3600) ** 2 * 1.28 * 0.1
    assert derived == pytest.approx(BLADE_LBF_PER_FT2_MPH2, rel=1e-3)


@pytest.mark.parametrize(("area", "speed"), [(-0.1, 10.0), (0.1, -10.0)])
def test_a_negative_area_or_speed_is_refused(area: float, speed: float) -> None:
    with pytest.raises(ValueError, match="must be at least 0"):
        blade_drag_n(area, speed)
