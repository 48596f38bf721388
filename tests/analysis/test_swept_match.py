# SPDX-License-Identifier: Apache-2.0
"""Match at the unit and at the antenna end, and the line that hides the antenna."""

from __future__ import annotations

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from sample import refitted, sample_facts
from swept_lines import (
    OPEN_OHM,
    SHORT_OHM,
    SWEPT_HZ,
    cable,
    facts_of,
    one_port,
    pair,
    plan_of,
)

from rfplan.analysis.sweeps import SweptPath
from rfplan.analysis.swept_loss import one_port_loss
from rfplan.analysis.swept_match import swept_matches
from rfplan.physics.mismatch import return_loss_db
from rfplan.physics.two_port import chain_abcd

FACTS = facts_of(6.0)
GNSS, COM = SweptPath(FACTS, "gnss1"), SweptPath(FACTS, "com1")
GOOD = chain_abcd(SWEPT_HZ, [pair(), cable(6.0), pair()])


@settings(max_examples=20)
@given(st.floats(1.05, 4.0))
def test_the_vswr_of_the_antenna_comes_out_behind_a_matched_line(vswr: float) -> None:
    (told,) = swept_matches(GNSS, one_port(GOOD, 50.0 * vswr))
    assert told.antenna_vswr == pytest.approx(vswr, rel=1e-3)
    assert told.antenna_return_loss_db == pytest.approx(float(return_loss_db(vswr)), abs=0.01)
    assert told.unit_vswr is not None
    assert told.unit_vswr < vswr
    assert not told.hidden


def test_the_worst_frequency_of_the_band_is_told() -> None:
    load_ohm = np.where(np.abs(SWEPT_HZ - 1570e6) < 3e6, 150.0, 60.0)
    sweep = one_port(GOOD, load_ohm)  # type: ignore[arg-type]
    (told,) = swept_matches(GNSS, sweep)
    assert told.at_hz == pytest.approx(1570e6, abs=3e6)
    assert told.antenna_vswr == pytest.approx(3.0, rel=0.02)


@pytest.mark.parametrize(("load_ohm", "hidden"), [(50.0 * 17.0, False), (50.0 * 18.0, True)])
def test_the_line_hides_the_antenna_where_it_leaves_one_decibel_or_less(
    load_ohm: float, hidden: bool
) -> None:
    (told,) = swept_matches(GNSS, one_port(GOOD, load_ohm))
    assert told.hidden is hidden
    assert (told.antenna_vswr is None) is hidden
    assert (told.antenna_return_loss_db is None) is hidden
    assert told.unit_vswr is not None


def test_a_measured_loss_of_the_line_counts_before_the_predicted_one() -> None:
    lossy = chain_abcd(SWEPT_HZ, [pair(1.0, 1.5), cable(6.0), pair()])
    sweep = one_port(lossy, 100.0)
    curve = one_port_loss(one_port(lossy, OPEN_OHM), one_port(lossy, SHORT_OHM))
    (predicted,) = swept_matches(GNSS, sweep)
    (measured,) = swept_matches(GNSS, sweep, curve)
    assert (predicted.loss_measured, measured.loss_measured) == (False, True)
    assert measured.antenna_vswr == pytest.approx(2.0, rel=1e-3)
    assert predicted.antenna_vswr is not None
    assert predicted.antenna_vswr < 1.7


def test_a_measured_loss_counts_only_in_a_band_that_its_sweep_covers() -> None:
    few_hz = np.linspace(1060e6, 1120e6, 21)
    line = chain_abcd(few_hz, [cable(6.0, few_hz)])
    curve = one_port_loss(
        *(one_port(line, end_ohm, frequency_hz=few_hz) for end_ohm in (OPEN_OHM, SHORT_OHM))
    )
    rx, tx = swept_matches(SweptPath(FACTS, "xpdr1"), one_port(GOOD, 100.0), curve)
    assert (rx.loss_measured, tx.loss_measured) == (False, True)


def test_a_band_that_was_not_swept_is_refused() -> None:
    (told, _) = swept_matches(COM, one_port(GOOD, 100.0))
    assert told.refused == "the sweep lists 800 to 1800 MHz; the band needs 117.975 to 137 MHz"
    assert (told.unit_vswr, told.antenna_vswr, told.at_hz) == (None, None, None)


def test_without_the_loss_of_the_line_only_the_unit_end_is_told() -> None:
    facts = sample_facts(refitted(plan_of(6.0), "cables", "w11", type="?"))
    (told,) = swept_matches(SweptPath(facts, "gnss1"), one_port(GOOD, 100.0))
    assert told.unit_vswr is not None
    assert (told.antenna_vswr, told.line_loss_db, told.hidden) == (None, None, False)


def test_an_antenna_that_matches_perfectly_has_a_finite_return_loss() -> None:
    (told,) = swept_matches(GNSS, one_port(chain_abcd(SWEPT_HZ, [cable(6.0)]), 50.0))
    assert told.unit_return_loss_db == pytest.approx(120.0)
    assert told.antenna_vswr == pytest.approx(1.0, abs=1e-4)
