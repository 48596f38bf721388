# SPDX-License-Identifier: Apache-2.0
"""A lossy line with a mismatched load, from either end."""

from __future__ import annotations

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from rfplan.physics import mismatched_line as line
from rfplan.physics.constants import DB_PER_NEPER
from rfplan.physics.mismatch import vswr_from_reflection

VSWR = st.floats(1.0, 20.0)
LOSS = st.floats(0.0, 30.0)


@given(LOSS)
def test_a_matched_load_leaves_the_matched_loss(loss: float) -> None:
    assert line.line_loss_mismatched_db(loss, 1.0) == pytest.approx(loss, abs=1e-9)


@given(VSWR)
def test_a_standing_wave_burns_nothing_in_a_line_without_loss(vswr: float) -> None:
    assert line.additional_loss_db(0.0, vswr) == pytest.approx(0.0, abs=1e-9)


@given(LOSS, VSWR)
def test_a_standing_wave_never_saves_loss(loss: float, vswr: float) -> None:
    assert line.additional_loss_db(loss, vswr) >= -1e-9


@given(st.floats(0.01, 10.0), st.floats(1.0, 200.0), st.floats(-200.0, 200.0))
def test_with_a_real_impedance_both_formulas_agree(loss: float, r: float, x: float) -> None:
    load = complex(r, x)
    exact = line.line_loss_exact_db(load, 50.0, loss / DB_PER_NEPER + 4.2j, 1.0)
    handbook = line.line_loss_mismatched_db(loss, line.load_vswr(load, 50.0))
    assert exact == pytest.approx(handbook, rel=1e-9)


def test_the_exact_loss_is_that_of_scikit_rf() -> None:
    theirs = pytest.importorskip("skrf.tlineFunctions")
    gamma, z0, load = 0.02 + 20.0j, 49.0 - 0.4j, 12.0 - 80.0j
    ratio = theirs.zl_2_total_loss(z0, load, gamma * 3.0)
    expected = 10.0 * np.log10(np.real(ratio)).item()
    assert line.line_loss_exact_db(load, z0, gamma, 3.0) == pytest.approx(expected, abs=1e-9)


@given(LOSS, LOSS)
def test_a_reading_at_the_unit_is_carried_back_to_the_load(load_db: float, loss: float) -> None:
    seen = line.return_loss_at_unit_db(load_db, loss)
    assert line.return_loss_at_load_db(seen, loss) == pytest.approx(load_db, abs=1e-9)


def test_a_reading_that_the_line_alone_explains_says_nothing() -> None:
    assert line.return_loss_at_load_db(5.0, 3.0) == 0.0


def test_plugs_that_reflect_make_an_antenna_look_better_or_worse_than_it_is() -> None:
    """A plug of VSWR 1.1 at each end of 2 dB of line, in phase or against an antenna of 2.30."""
    plug, antenna, through = 0.1 / 2.1, 1.3 / 3.3, 10 ** (-2 * 2.0 / 20)
    for seen, looks in (
        (plug + through * (antenna + plug), 3.14),
        (through * (antenna - plug) - plug, 1.74),
    ):
        carried_db = line.return_loss_at_load_db(-20 * np.log10(seen), 2.0)
        assert vswr_from_reflection(10 ** (-carried_db / 20)) == pytest.approx(looks, abs=0.005)


@given(LOSS)
def test_open_and_short_together_give_the_loss_once(loss: float) -> None:
    seen = line.return_loss_at_unit_db(0.0, loss)
    assert line.one_port_loss_db(seen + 0.3, max(0.0, seen - 0.3)) == pytest.approx(loss, abs=0.2)
    assert line.one_port_loss_db(seen, seen) == pytest.approx(loss)


@given(st.floats(0.1, 500.0))
def test_a_resistance_has_the_vswr_of_its_ratio(resistance: float) -> None:
    expected = max(resistance, 50.0) / min(resistance, 50.0)
    assert line.load_vswr(resistance, 50.0) == pytest.approx(expected)


def test_a_load_and_its_conjugate_reflect_alike() -> None:
    up, down = (line.load_reflection_ratio(40.0 + x, 100.0) for x in (70j, -70j))
    assert up == pytest.approx(down)
    assert vswr_from_reflection(up) == pytest.approx(line.load_vswr(40.0 + 70j, 100.0))


def test_a_load_without_resistance_takes_no_power() -> None:
    with pytest.raises(ValueError, match="load_resistance_ohm"):
        line.line_loss_exact_db(50j, 50.0, 1j, 1.0)


@given(st.sampled_from([0.0, 0.1, 0.5]), st.sampled_from([0.0, 0.2, 0.9]))
def test_a_line_is_capacitive_where_its_conductors_lose_more(conductor: float, own: float) -> None:
    reactance = complex(line.lossy_impedance_ohm(50.0, conductor, own, 25.0)).imag
    assert np.sign(reactance) == np.sign(own - conductor)
    assert line.lossy_impedance_ohm(50.0, own, own, 25.0) == 50.0


def test_to_first_order_it_is_the_impedance_of_resistance_and_leakage() -> None:
    ohm, farad, henry, siemens, omega = 0.02, 96e-12, 240e-9, 1.0e-6, 2 * np.pi * 50e6
    exact = np.sqrt((ohm + 1j * omega * henry) / (siemens + 1j * omega * farad))
    ideal = np.sqrt(henry / farad)
    parts = [half * DB_PER_NEPER / 2.0 for half in (ohm / ideal, siemens * ideal)]
    given_ = line.lossy_impedance_ohm(ideal, *parts, omega * np.sqrt(henry * farad))
    assert given_ == pytest.approx(exact, rel=1e-6)
