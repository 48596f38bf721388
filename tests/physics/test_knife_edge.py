# SPDX-License-Identifier: Apache-2.0
"""Loss over an edge against the Fresnel integral it approximates."""

from __future__ import annotations

import numpy as np
import pytest

from rfplan.physics.knife_edge import fresnel_parameter, knife_edge_loss_db


def exact_db(nu: np.ndarray) -> np.ndarray:
    """Return the loss from Fresnel integrals."""
    from scipy.special import fresnel

    sine, cosine = fresnel(nu)
    field = (1.0 + 1.0j) / 2.0 * ((0.5 - cosine) - 1j * (0.5 - sine))
    return -20.0 * np.log10(np.abs(field))


def test_the_approximation_is_within_an_eighth_of_a_decibel_up_to_five() -> None:
    nu = np.linspace(0.0, 5.0, 501)
    off = knife_edge_loss_db(nu) - exact_db(nu)
    assert np.abs(off[nu <= 1.0]).max() < 0.1
    assert np.abs(off).max() < 0.13


def test_an_edge_in_the_line_costs_six_decibels() -> None:
    assert knife_edge_loss_db(0.0) == pytest.approx(6.02, abs=0.02)


def test_an_edge_well_clear_costs_nothing_and_none_ever_gains() -> None:
    nu = np.linspace(-5.0, 5.0, 401)
    loss = knife_edge_loss_db(nu)
    assert (loss >= 0.0).all() and (loss[nu < -0.8] == 0.0).all()
    assert (np.diff(loss) >= -1e-9).all()


def test_half_a_wavelength_of_detour_is_root_two() -> None:
    assert fresnel_parameter(299.792458e6, 0.5) == pytest.approx(np.sqrt(2.0))
    with pytest.raises(ValueError, match="detour_m"):
        fresnel_parameter(1e9, -0.1)
