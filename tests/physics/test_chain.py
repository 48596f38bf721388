# SPDX-License-Identifier: Apache-2.0
"""The chain in few steps, against the product of matrices, scikit-rf, bounds and the clock."""

from __future__ import annotations

import math
import time
from collections.abc import Callable
from dataclasses import replace

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from rfplan.physics.abcd import s_parameters
from rfplan.physics.chain import (
    Waves,
    chain_loss_db,
    chain_waves,
    delivered_loss_db,
    reflection_at_input_ratio,
)
from rfplan.physics.mismatch import mismatch_bounds_db, mismatch_loss_db
from rfplan.physics.two_port import (
    LineSection,
    LumpedLoss,
    Part,
    chain_abcd,
    input_reflection_ratio,
    insertion_loss_db,
)

BAND_HZ = np.linspace(960.0e6, 1220.0e6, 21)

sections = st.builds(
    LineSection,
    attenuation_db_per_m=st.floats(0.02, 1.5),
    velocity_ratio=st.floats(0.6, 0.9),
    line_ohm=st.sampled_from([48.0, 50.0, 75.0, 93.0]),
    length_m=st.floats(0.0, 6.0),
)
lumps = st.builds(
    LumpedLoss, insertion_loss_db=st.floats(0.0, 3.0), vswr=st.sampled_from([1.0, 1.2, 2.0])
)
chains = st.lists(sections | lumps, min_size=1, max_size=8)
reflections = st.builds(
    lambda size, turn: size * complex(math.cos(turn), math.sin(turn)),
    st.floats(0.0, 0.8),
    st.floats(0.0, 6.3),
)


@settings(max_examples=60, deadline=None)
@given(chains)
def test_it_is_the_product_of_the_chain_matrices(parts: list[Part]) -> None:
    abcd = chain_abcd(BAND_HZ, parts)
    by_matrix, waves = s_parameters(abcd), chain_waves(BAND_HZ, parts)
    assert np.allclose(chain_loss_db(BAND_HZ, parts), insertion_loss_db(abcd), rtol=0, atol=1e-9)
    assert np.allclose(waves.s11, by_matrix[..., 0, 0], rtol=0, atol=1e-11)
    assert np.allclose(waves.s21, by_matrix[..., 1, 0], rtol=0, atol=1e-11)
    assert np.allclose(waves.s22, by_matrix[..., 1, 1], rtol=0, atol=1e-11)


def theirs(frequency_hz: np.ndarray, parts: list[Part]) -> Callable[[], np.ndarray]:
    """Return scikit-rf's own cascade of a chain, its networks built beforehand."""
    skrf = pytest.importorskip("skrf")
    from rfplan.physics.two_port import _part_network

    points = skrf.Frequency.from_f(frequency_hz, unit="Hz")
    networks = [_part_network(points, part) for part in parts]
    return lambda: -20.0 * np.log10(np.abs(skrf.network.cascade_list(networks).s[:, 1, 0]))


def longer(parts: list[Part]) -> list[Part]:
    """Return a chain without lines of no length, which scikit-rf gives a loss of their own."""
    return [
        replace(part, length_m=part.length_m + 0.05) if isinstance(part, LineSection) else part
        for part in parts
    ]


@settings(max_examples=15, deadline=None)
@given(chains.map(longer))
def test_the_loss_is_that_of_scikit_rf(parts: list[Part]) -> None:
    expected = theirs(BAND_HZ, parts)()
    assert np.allclose(chain_loss_db(BAND_HZ, parts), expected, rtol=0, atol=1e-9)


def test_attenuation_may_differ_by_frequency() -> None:
    falling = LineSection(np.linspace(0.4, 0.5, 21), 0.695, 75.0, 1.3)
    parts: list[Part] = [LumpedLoss(np.linspace(0.1, 0.2, 21)), falling, LumpedLoss(0.1)]
    expected = insertion_loss_db(chain_abcd(BAND_HZ, parts))
    assert np.allclose(chain_loss_db(BAND_HZ, parts), expected, rtol=0, atol=1e-12)


def test_what_is_50_ohm_throughout_loses_the_sum_of_its_parts_and_reflects_nothing() -> None:
    parts: list[Part] = [LumpedLoss(0.1), LineSection(0.5, 0.7, 50.0, 4.0), LumpedLoss(2.0)]
    assert np.allclose(chain_loss_db(BAND_HZ, parts), 4.1, rtol=0, atol=1e-12)
    assert not np.any(chain_waves(BAND_HZ, parts).s11)


@given(chains, reflections)
def test_the_reflection_at_the_unit_is_that_of_the_chain_matrix(
    parts: list[Part], load: complex
) -> None:
    load_ohm = 50.0 * (1.0 + load) / (1.0 - load)
    expected = input_reflection_ratio(chain_abcd(BAND_HZ, parts), load_ohm)
    seen = reflection_at_input_ratio(chain_waves(BAND_HZ, parts), load)
    assert np.allclose(seen, expected, rtol=0, atol=1e-9)


@given(st.floats(1.0, 4.0), st.floats(1.0, 4.0), st.floats(0.0, 12.0), st.floats(0.0, 6.3))
def test_delivered_power_stays_within_the_bounds_of_both_mismatches(
    source: float, load: float, loss_db: float, turn: float
) -> None:
    waves = chain_waves(np.array([1.0e9]), [LumpedLoss(loss_db)])
    unit, antenna = (source - 1.0) / (source + 1.0), (load - 1.0) / (load + 1.0)
    turned = antenna * complex(math.cos(turn), math.sin(turn))
    delivered = float(delivered_loss_db(waves, unit, turned)[0])  # type: ignore[index]
    low, high = mismatch_bounds_db(source, load, loss_db)
    assert float(low) - 1e-9 <= delivered <= float(high) + 1e-9


def test_without_a_line_the_load_takes_what_it_does_not_reflect() -> None:
    through = Waves(0.0, 1.0, 0.0)
    assert delivered_loss_db(through, 0.0, 0.5) == pytest.approx(mismatch_loss_db(3.0))


@pytest.mark.parametrize(
    "part",
    [
        LineSection(0.5, 0.7, 50.0, -1.0),
        LineSection(-0.5, 0.7, 50.0, 1.0),
        LineSection(np.array([0.5, -0.1]), 0.7, 50.0, 1.0),
        LineSection(0.5, 1.1, 50.0, 1.0),
        LineSection(0.5, 0.7, 0.0, 1.0),
        LumpedLoss(-0.1),
        LumpedLoss(math.nan),
        LumpedLoss(0.1, 0.9),
    ],
)
def test_a_part_outside_its_range_is_refused(part: Part) -> None:
    for formula in (chain_loss_db, chain_waves):
        with pytest.raises(ValueError, match=r"must be|no such line"):
            formula(BAND_HZ, [part])


def seconds(work: Callable[[], object]) -> float:
    """Return the least time of several runs, which a busy machine disturbs least."""
    work()
    runs = []
    for _ in range(30):
        start = time.perf_counter()
        work()
        runs.append(time.perf_counter() - start)
    return min(runs)


@pytest.mark.parametrize("odd_ohm", [50.0, 75.0])
def test_a_path_over_201_points_takes_a_twentieth_of_the_time_of_scikit_rf(odd_ohm: float) -> None:
    frequency_hz = np.linspace(1563.42e6, 1587.42e6, 201)
    line = LineSection(0.5 * np.sqrt(frequency_hz / 1e9), 0.695, 50.0, 2.1)
    pair = LumpedLoss(0.1)
    parts: list[Part] = [
        *(pair, LumpedLoss(2.0), pair, line, pair, LumpedLoss(0.05), pair),
        *(replace(line, line_ohm=odd_ohm, length_m=1.1), pair),
    ]
    ours = seconds(lambda: chain_loss_db(frequency_hz, parts))
    assert ours < 0.2e-3
    assert seconds(theirs(frequency_hz, parts)) > 20.0 * ours
