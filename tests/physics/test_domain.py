# SPDX-License-Identifier: Apache-2.0
"""Refusals name the argument and show its value."""

from __future__ import annotations

import numpy as np
import pytest

from rfplan.physics.domain import at_least, positive, within


def test_values_inside_pass_in_silence() -> None:
    positive(length_m=1.0, lengths_m=np.array([1.0, 2.0]))
    at_least(0.0, loss_db=0.0)
    within(0.0, 1.0, velocity_ratio=np.array([0.0, 1.0]))


@pytest.mark.parametrize("value", [0.0, -1.0, np.nan, np.inf, np.array([1.0, np.nan])])
def test_what_is_not_positive_is_refused(value: float) -> None:
    with pytest.raises(ValueError, match="length_m must be positive, got"):
        positive(width_m=1.0, length_m=value)


@pytest.mark.parametrize("value", [-1e-9, np.nan, np.inf])
def test_what_is_too_small_or_unknown_is_refused(value: float) -> None:
    with pytest.raises(ValueError, match="loss_db must be at least 0, got"):
        at_least(0.0, loss_db=value)


@pytest.mark.parametrize("value", [-0.1, 1.1, np.nan])
def test_what_lies_outside_is_refused(value: float) -> None:
    with pytest.raises(ValueError, match=r"velocity_ratio must lie in 0 .. 1, got"):
        within(0.0, 1.0, velocity_ratio=value)
