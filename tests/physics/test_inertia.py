# SPDX-License-Identifier: Apache-2.0
"""The load of an antenna's own mass."""

from __future__ import annotations

import pytest

from rfplan.physics.inertia import inertia_load_n


def test_one_kilogram_at_one_g_weighs_what_it_weighs() -> None:
    assert inertia_load_n(1.0, 1.0) == 9.80665


def test_the_load_grows_with_mass_and_load_factor() -> None:
    assert inertia_load_n(0.13, 100.0) == pytest.approx(127.486, abs=0.001)
    assert inertia_load_n(0.26, 50.0) == pytest.approx(127.486, abs=0.001)


def test_a_negative_mass_is_refused() -> None:
    with pytest.raises(ValueError, match="mass_kg"):
        inertia_load_n(-0.1, 1.0)
