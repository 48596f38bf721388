# SPDX-License-Identifier: Apache-2.0
"""The quick shading loss against the Fock function it stands for."""

from __future__ import annotations

import numpy as np
import pytest

from rfplan.physics.fock import hard_fock
from rfplan.physics.shading import shading_argument, shading_loss_db


def hard_loss_db(xi: np.ndarray) -> np.ndarray:
    """Return the loss of the hard surface wave."""
    return -20.0 * np.log10(np.abs(hard_fock(xi)))


def test_the_remembered_constants_are_a_fit_of_the_hard_wave() -> None:
    xi = np.linspace(0.3, (20.0 / np.sqrt(2.0)) ** (2.0 / 3.0), 200)
    off = shading_loss_db(shading_argument(xi)) - hard_loss_db(xi)
    assert np.abs(off).max() < 0.07


def test_beyond_its_use_the_fit_gives_too_little_loss() -> None:
    xi = (np.array([100.0, 150.0]) / np.sqrt(2.0)) ** (2.0 / 3.0)
    off = hard_loss_db(xi) - shading_loss_db(shading_argument(xi))
    assert off[0] > 2.0 and off[1] > 10.0


def test_the_argument_is_that_of_the_cylinder() -> None:
    """radius theta^2 sqrt(2 pi / (wavelength D)) with D = radius theta."""
    radius, theta, wavelength = 0.6, 1.1, 0.275
    xi = (np.pi / wavelength) ** (1 / 3) * radius ** (1 / 3) * theta
    direct = radius * theta**2 * np.sqrt(2.0 * np.pi / (wavelength * radius * theta))
    assert shading_argument(xi) == pytest.approx(direct)


def test_no_shade_is_no_loss_and_a_negative_one_is_refused() -> None:
    assert shading_loss_db(0.0) == 0.0
    with pytest.raises(ValueError, match="argument"):
        shading_loss_db(-1.0)
