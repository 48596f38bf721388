# SPDX-License-Identifier: Apache-2.0
"""The same network told against another resistance."""

from __future__ import annotations

import numpy as np
import pytest
import skrf
from hypothesis import given
from hypothesis import strategies as st

from rfplan.physics.abcd import s_parameters
from rfplan.physics.reference_resistance import renormalised_s
from rfplan.physics.two_port import LineSection, LumpedLoss, chain_abcd

RESISTANCE = st.floats(1.0, 1000.0)
BAND_HZ = np.linspace(1.0e8, 2.0e9, 21)
CHAIN = chain_abcd(BAND_HZ, [LumpedLoss(0.2, 1.3), LineSection(0.3, 0.66, 75.0, 1.7)])


def random_s(ports: int) -> np.ndarray:
    draw = np.random.default_rng(7)
    shape = (5, ports, ports)
    return 0.4 * (draw.uniform(-1, 1, shape) + 1j * draw.uniform(-1, 1, shape))


@pytest.mark.parametrize("ports", [1, 2])
@given(RESISTANCE, RESISTANCE)
def test_scikit_rf_says_the_same(ports: int, from_ohm: float, to_ohm: float) -> None:
    s = random_s(ports)
    network = skrf.Network(f=np.arange(1.0, 6.0), f_unit="GHz", s=s, z0=from_ohm)
    network.renormalize(to_ohm)
    np.testing.assert_allclose(renormalised_s(s, from_ohm, to_ohm), network.s, atol=1e-12)


@given(RESISTANCE, RESISTANCE)
def test_there_and_back_is_where_it_was(one_ohm: float, other_ohm: float) -> None:
    s = random_s(2)
    there = renormalised_s(s, one_ohm, other_ohm)
    np.testing.assert_allclose(renormalised_s(there, other_ohm, one_ohm), s, atol=1e-9)


@given(RESISTANCE)
def test_a_chain_has_one_matrix_whichever_way_it_is_come_by(to_ohm: float) -> None:
    directly = s_parameters(CHAIN, to_ohm)
    np.testing.assert_allclose(
        renormalised_s(s_parameters(CHAIN), 50.0, to_ohm), directly, atol=1e-9
    )


def test_resistances_must_be_positive() -> None:
    with pytest.raises(ValueError, match="from_ohm"):
        renormalised_s(random_s(1), 0.0, 50.0)
