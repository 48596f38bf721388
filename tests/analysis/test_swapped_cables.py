# SPDX-License-Identifier: Apache-2.0
"""Swapped labels show in the lengths of two cables, or are said not to show."""

from __future__ import annotations

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st
from sample import refitted, sample_facts
from swept_lines import (
    OPEN_OHM,
    SWEPT_HZ,
    cable,
    facts_of,
    one_port,
    pair,
    plan_of,
    two_port,
)

from rfplan.analysis.swapped_cables import Labels, SweptLength, labels_of, swept_length
from rfplan.analysis.sweeps import SweepError, SweptPath
from rfplan.model.sweep import Sweep
from rfplan.physics.two_port import chain_abcd

FACTS = sample_facts(refitted(plan_of(2.0), "cables", "w21", length_m=5.0, via=()))
GNSS, COM = SweptPath(FACTS, "gnss1"), SweptPath(FACTS, "com1")


def swept(length_m: float, ports: int) -> Sweep:
    line = chain_abcd(SWEPT_HZ, [pair(1.1), cable(length_m), pair(1.1)])
    return two_port(line) if ports == 2 else one_port(line, OPEN_OHM)


@pytest.mark.parametrize("ports", [1, 2])
def test_the_length_is_measured_from_one_end_and_from_both(ports: int) -> None:
    told = swept_length(COM, swept(5.0, ports))
    assert told.planned_m == pytest.approx(5.0 / 0.695)
    assert told.measured_m == pytest.approx(told.planned_m, abs=told.resolution_m / 4.0)


@pytest.mark.parametrize("ports", [1, 2])
def test_swapped_labels_are_found_and_right_ones_are_not_doubted(ports: int) -> None:
    short, long = swept(2.0, ports), swept(5.0, ports)
    right = (
        swept_length(GNSS, short),
        swept_length(COM, long),
    )
    wrong = (
        swept_length(GNSS, long),
        swept_length(COM, short),
    )
    assert labels_of(*right) is Labels.RIGHT
    assert labels_of(*wrong) is Labels.SWAPPED


def lengths(planned: tuple[float, float], measured: tuple[float, float]) -> list[SweptLength]:
    return [
        SweptLength("p", "a.s1p", plan_m, read_m, 0.3)
        for plan_m, read_m in zip(planned, measured, strict=True)
    ]


METRES = st.floats(0.1, 20.0)


@given(METRES, METRES, METRES, METRES)
def test_swapping_the_sweeps_swaps_the_word(a: float, b: float, c: float, d: float) -> None:
    one, other = labels_of(*lengths((a, b), (c, d))), labels_of(*lengths((a, b), (d, c)))
    opposite = {Labels.RIGHT: Labels.SWAPPED, Labels.SWAPPED: Labels.RIGHT}
    assert other is opposite.get(one, Labels.UNTOLD)


@given(METRES, st.floats(0.0, 0.14))
def test_lengths_that_differ_by_less_than_the_resolution_tell_nothing(
    metres: float, more: float
) -> None:
    assert labels_of(*lengths((metres, metres + more), (metres + more, metres))) is Labels.UNTOLD


def test_a_path_without_a_known_length_tells_nothing() -> None:
    facts = sample_facts(refitted(plan_of(2.0), "cables", "w11", type="?"))
    with pytest.raises(SweepError, match="gnss1: the length of its cables is not known"):
        swept_length(SweptPath(facts, "gnss1"), swept(2.0, 1))


def test_a_path_longer_than_the_sweep_shows_is_refused() -> None:
    few_hz = np.linspace(0.8e9, 1.8e9, 41)
    line = chain_abcd(few_hz, [cable(6.0, few_hz)])
    sweep = one_port(line, OPEN_OHM, frequency_hz=few_hz)
    with pytest.raises(SweepError, match=r"gnss1 is longer than a\.s1p shows"):
        swept_length(SweptPath(facts_of(6.0), "gnss1"), sweep)
    through = two_port(line, frequency_hz=few_hz)
    assert swept_length(SweptPath(facts_of(6.0), "gnss1"), through).measured_m > 8.0
