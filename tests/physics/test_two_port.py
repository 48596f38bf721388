# SPDX-License-Identifier: Apache-2.0
"""The chain over frequency, against plain sums, bounds and scikit-rf."""

from __future__ import annotations

import subprocess
import sys

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from rfplan.physics.abcd import attenuator_abcd
from rfplan.physics.mismatch import mismatch_bounds_db
from rfplan.physics.two_port import (
    LineSection,
    LumpedLoss,
    Part,
    chain_abcd,
    cross_check_chain_db,
    input_impedance_ohm,
    input_reflection_ratio,
    insertion_loss_db,
    line_input_impedance_ohm,
    propagation_per_m,
)

BAND_HZ = np.linspace(960.0e6, 1220.0e6, 21)

sections = st.builds(
    LineSection,
    attenuation_db_per_m=st.floats(0.02, 1.5),
    velocity_ratio=st.floats(0.6, 0.9),
    line_ohm=st.sampled_from([48.0, 50.0, 75.0, 93.0]),
    length_m=st.floats(0.05, 6.0),
)
lumps = st.builds(LumpedLoss, insertion_loss_db=st.floats(0.0, 3.0), vswr=st.floats(1.0, 2.0))
chains = st.lists(sections | lumps, min_size=1, max_size=6)


@settings(max_examples=25, deadline=None)
@given(chains)
def test_every_chain_agrees_with_scikit_rf(parts: list[Part]) -> None:
    pytest.importorskip("skrf")
    assert cross_check_chain_db(BAND_HZ, parts) < 1e-9


def test_the_cross_check_sees_a_difference(monkeypatch: pytest.MonkeyPatch) -> None:
    pytest.importorskip("skrf")
    monkeypatch.setattr(
        "rfplan.physics.two_port.chain_abcd",
        lambda f, parts: attenuator_abcd(np.full(f.shape, 1.0)),
    )
    assert cross_check_chain_db(BAND_HZ, [LumpedLoss(1.5)]) == pytest.approx(0.5)


def test_a_cross_check_of_nothing_is_refused() -> None:
    pytest.importorskip("skrf")
    with pytest.raises(ValueError, match="at least one part"):
        cross_check_chain_db(1e9, [])


def test_scikit_rf_is_not_loaded_by_the_chain_itself() -> None:
    code = (
        "import sys; from rfplan.physics.two_port import *;"
        "chain_abcd(1e9, [LumpedLoss(0.1), LineSection(0.5, 0.695, 50.0, 2.0)]);"
        "sys.exit('skrf' in sys.modules)"
    )
    assert subprocess.run([sys.executable, "-c", code], check=False).returncode == 0


@given(st.lists(st.floats(0.0, 3.0), min_size=1, max_size=5))
def test_matched_parts_add_in_decibels(losses: list[float]) -> None:
    parts = [LumpedLoss(loss) for loss in losses]
    assert insertion_loss_db(chain_abcd(1e9, parts)) == pytest.approx(sum(losses), abs=1e-9)


@given(st.floats(1.0, 3.0), st.floats(0.5, 3.0))
def test_a_connector_has_the_insertion_loss_it_states(vswr: float, extra: float) -> None:
    stated = 1.25 + extra
    loss = insertion_loss_db(chain_abcd(1e9, [LumpedLoss(stated, vswr)]))
    assert loss == pytest.approx(stated)


def test_a_matched_cable_loses_attenuation_times_length_at_every_frequency() -> None:
    attenuation = np.linspace(0.4, 0.6, 21)
    loss = insertion_loss_db(chain_abcd(BAND_HZ, [LineSection(attenuation, 0.695, 50.0, 4.0)]))
    np.testing.assert_allclose(loss, 4.0 * attenuation, atol=1e-9)


@given(st.floats(1.0, 3.0), st.floats(1.0, 3.0), st.floats(0.0, 6.0))
def test_two_mismatches_stay_inside_their_bounds(s1: float, s2: float, length: float) -> None:
    ends = LumpedLoss(0.0, s1), LumpedLoss(0.0, s2)
    cable = LineSection(0.3, 0.695, 50.0, length)
    low, high = mismatch_bounds_db(s1, s2, 0.3 * length)
    loss = insertion_loss_db(chain_abcd(BAND_HZ, [ends[0], cable, ends[1]]))
    assert np.all((low - 1e-9 <= loss) & (loss <= high + 1e-9))


def test_a_75_ohm_piece_ripples_between_50_ohm_ends() -> None:
    loss = insertion_loss_db(chain_abcd(BAND_HZ, [LineSection(0.0, 0.66, 75.0, 2.0)]))
    assert np.ptp(loss) > 0.5


@given(st.floats(1.0, 300.0), st.floats(-300.0, 300.0))
def test_half_a_wavelength_of_line_hides_itself(r: float, x: float) -> None:
    seen = line_input_impedance_ohm(complex(r, x), 75.0, 1j * np.pi, 1.0)
    assert seen == pytest.approx(complex(r, x))


def test_a_quarter_wave_turns_an_impedance_over() -> None:
    assert line_input_impedance_ohm(25.0, 50.0, 0.5j * np.pi, 1.0) == pytest.approx(100.0)


@given(st.floats(0.0, 20.0))
def test_a_short_behind_a_pad_returns_twice_its_loss(loss: float) -> None:
    returned = complex(input_reflection_ratio(attenuator_abcd(loss), 0.0))
    assert returned == pytest.approx(-(10.0 ** (-2.0 * loss / 20.0)))


def test_the_input_of_an_empty_chain_is_its_load() -> None:
    assert input_impedance_ohm(chain_abcd(1e9, []), 33.0 + 4j) == pytest.approx(33.0 + 4j)


def test_a_chain_has_one_matrix_a_frequency() -> None:
    assert chain_abcd(BAND_HZ, [LumpedLoss(0.1)]).shape == (21, 2, 2)
    assert chain_abcd(1e9, [LumpedLoss(0.1)]).shape == (2, 2)


def test_propagation_is_refused_above_the_velocity_of_light() -> None:
    with pytest.raises(ValueError, match=r"velocity_ratio must lie in 0 .. 1"):
        propagation_per_m(1e9, 0.5, 1.01)
