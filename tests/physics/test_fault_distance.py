# SPDX-License-Identifier: Apache-2.0
"""Range and resolution of a sweep, and where in it a line reflects."""

from __future__ import annotations

import numpy as np
import pytest
import skrf
from hypothesis import given
from hypothesis import strategies as st

from rfplan.physics.abcd import cascade_abcd, shunt_abcd
from rfplan.physics.constants import SPEED_OF_LIGHT_M_PER_S
from rfplan.physics.fault_distance import (
    FINENESS,
    KAISER_BETA,
    WINDOW_WIDTH_RATIO,
    fault_range_m,
    fault_resolution_m,
    reflection_profile,
)
from rfplan.physics.two_port import LineSection, chain_abcd, input_reflection_ratio

SWEPT_HZ = np.linspace(0.5e9, 1.5e9, 401)
CELL_M = float(fault_resolution_m(0.7, 1.0e9))


def single(distance_m: float, size: float = 1.0) -> np.ndarray:
    delay_s = 2.0 * distance_m / (0.7 * SPEED_OF_LIGHT_M_PER_S)
    return np.asarray(size * np.exp(-2j * np.pi * SWEPT_HZ * delay_s))


@given(st.integers(1, 10_000), st.floats(0.5, 1.0), st.floats(1e6, 1e10))
def test_the_range_has_one_cell_an_interval(intervals: int, velocity: float, span: float) -> None:
    cell = fault_resolution_m(velocity, span)
    assert fault_range_m(intervals, velocity, span) == pytest.approx(intervals * cell)


def test_a_wider_sweep_sees_finer_and_less_far() -> None:
    assert fault_resolution_m(0.7, 2e9) < fault_resolution_m(0.7, 1e9)
    assert fault_range_m(256, 0.7, 2e9) < fault_range_m(256, 0.7, 1e9)


def test_a_sweep_without_steps_is_refused() -> None:
    with pytest.raises(ValueError, match="intervals"):
        fault_range_m(0, 0.7, 1e9)


@given(st.floats(0.0, 35.0), st.floats(0.001, 1.0))
def test_a_reflection_stands_at_its_distance_with_its_size(distance_m: float, size: float) -> None:
    profile = reflection_profile(SWEPT_HZ, single(distance_m, size), 0.7)
    top = int(profile.magnitude.argmax())
    assert profile.distance_m[top] == pytest.approx(distance_m, abs=CELL_M / FINENESS)
    assert profile.magnitude[top] == pytest.approx(size, rel=0.02)


def test_a_fault_3_2_m_down_a_lossy_line_is_found_within_the_resolution() -> None:
    near, far = (LineSection(0.5, 0.7, 50.0, length_m) for length_m in (3.2, 2.8))
    line = cascade_abcd(
        [chain_abcd(SWEPT_HZ, [near]), shunt_abcd(0.01), chain_abcd(SWEPT_HZ, [far])]
    )
    profile = reflection_profile(SWEPT_HZ, input_reflection_ratio(line, 50.0), 0.7)
    found_m = float(profile.distance_m[profile.magnitude.argmax()])
    assert found_m == pytest.approx(3.2, abs=CELL_M / FINENESS)
    assert profile.magnitude.max() == pytest.approx(0.2 * 10 ** (-2 * 0.5 * 3.2 / 20), rel=0.02)


def test_the_profile_is_the_windowed_impulse_response_of_scikit_rf() -> None:
    s11 = single(3.2, 0.3) + single(9.0, 0.1)
    network = skrf.Network(f=SWEPT_HZ, f_unit="Hz", s=s11, z0=50.0)
    windowed = network.windowed(("kaiser", KAISER_BETA), normalize=False).s[:, 0, 0]
    window = np.kaiser(len(SWEPT_HZ), KAISER_BETA)  # theirs is of the periodic kind: the tolerance
    echo = np.fft.ifft(windowed, FINENESS * len(SWEPT_HZ)) * FINENESS * len(SWEPT_HZ)
    profile = reflection_profile(SWEPT_HZ, s11, 0.7)
    np.testing.assert_allclose(profile.magnitude, np.abs(echo) / window.sum(), atol=1e-3)


def test_distances_run_from_zero_to_the_range() -> None:
    profile = reflection_profile(SWEPT_HZ, single(1.0), 0.7)
    step_m = profile.distance_m[1]
    assert profile.distance_m[0] == 0.0
    assert profile.distance_m[-1] + step_m == pytest.approx(float(fault_range_m(400, 0.7, 1.0e9)))


def test_what_lies_beyond_the_range_appears_nearer_by_the_range() -> None:
    range_m = float(fault_range_m(400, 0.7, 1.0e9))
    beyond = reflection_profile(SWEPT_HZ, single(range_m + 5.0), 0.7)
    np.testing.assert_allclose(
        beyond.magnitude, reflection_profile(SWEPT_HZ, single(5.0), 0.7).magnitude, atol=1e-9
    )


def test_the_width_of_a_reflection_is_the_stated_one_and_its_side_lobes_are_43_db_down() -> None:
    profile = reflection_profile(SWEPT_HZ, single(10.0), 0.7)
    cells = (profile.distance_m - 10.0) / CELL_M
    width = np.ptp(cells[profile.magnitude >= 0.5]) + 1.0 / FINENESS
    assert width == pytest.approx(WINDOW_WIDTH_RATIO, abs=0.15)
    aside = (np.abs(cells) > 2.2) & (np.abs(cells) < 150.0)
    assert -20.0 * np.log10(profile.magnitude[aside].max()) == pytest.approx(43.8, abs=0.5)


@pytest.mark.parametrize("apart", [1.0, 2.0])
def test_two_reflections_are_told_apart_at_the_stated_resolution_and_not_at_half_of_it(
    apart: float,
) -> None:
    apart_m = 0.5 * apart * WINDOW_WIDTH_RATIO * CELL_M
    sizes = []
    for turn in np.linspace(0.0, 2.0 * np.pi, 36):  # whichever way the two add up
        s11 = single(10.0) + np.exp(1j * turn) * single(10.0 + apart_m)
        profile = reflection_profile(SWEPT_HZ, s11, 0.7)
        middle, near, far = (
            np.interp(at_m, profile.distance_m, profile.magnitude)
            for at_m in (10.0 + apart_m / 2.0, 10.0, 10.0 + apart_m)
        )
        sizes.append(middle < min(near, far) + 1e-9)
    assert all(sizes) is (apart == 2.0)


def test_uneven_steps_are_refused_and_rounding_to_whole_hertz_is_not() -> None:
    rounded = np.round(np.linspace(0.5e9, 1.5e9, 322))
    assert reflection_profile(rounded, np.ones(322, dtype=complex), 0.7).magnitude[0] > 0.99
    uneven = np.geomspace(0.5e9, 1.5e9, 401)
    with pytest.raises(ValueError, match="do not rise by even steps"):
        reflection_profile(uneven, np.ones(401, dtype=complex), 0.7)


def test_too_few_frequencies_are_refused() -> None:
    with pytest.raises(ValueError, match="at least 16 frequencies"):
        reflection_profile(SWEPT_HZ[:15], single(1.0)[:15], 0.7)


@pytest.mark.parametrize("velocity_ratio", [0.0, 1.1])
def test_a_velocity_out_of_range_is_refused(velocity_ratio: float) -> None:
    with pytest.raises(ValueError, match="velocity_ratio"):
        reflection_profile(SWEPT_HZ, single(1.0), velocity_ratio)
