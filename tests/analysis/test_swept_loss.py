# SPDX-License-Identifier: Apache-2.0
"""Measured loss beside its prediction, from both ends of a line or from one."""

from __future__ import annotations

from dataclasses import replace

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
    predicted_db,
    two_port,
)

from rfplan.analysis.sweeps import SweepError, SweptPath, down_db, reflection
from rfplan.analysis.swept_loss import loss_at_db, one_port_loss, swept_losses, through_loss
from rfplan.model.sweep import Sweep
from rfplan.physics.two_port import chain_abcd, insertion_loss_db

FACTS = facts_of(6.0)
GNSS = SweptPath(FACTS, "gnss1")
GOOD = chain_abcd(SWEPT_HZ, [pair(), cable(6.0), pair()])
BAD_PLUGS = chain_abcd(SWEPT_HZ, [pair(1.15), cable(6.0), pair(1.15)])


def test_a_line_as_planned_loses_what_was_predicted() -> None:
    (told,) = swept_losses(GNSS, through_loss(two_port(GOOD)))
    assert (told.band, told.refused, told.agreement) == ("rx", "", "AGREES")
    assert (told.low_hz, told.high_hz) == (1563.42e6, 1587.42e6)
    assert told.measured_db == pytest.approx(told.predicted_db, abs=1e-5)
    assert told.ripple_db is None


def test_the_prediction_is_that_of_the_frequency_told() -> None:
    (told,) = swept_losses(GNSS, through_loss(two_port(GOOD)))
    assert told.at_hz is not None
    assert told.predicted_db == pytest.approx(predicted_db(FACTS, "gnss1", told.at_hz), abs=1e-9)


def test_a_plug_that_loses_one_decibel_differs_and_its_size_is_told() -> None:
    line = chain_abcd(SWEPT_HZ, [pair(), cable(6.0), pair(1.0, 1.08)])
    (told,) = swept_losses(GNSS, through_loss(two_port(line)))
    assert told.agreement == "DIFFERS"
    assert told.difference_db == pytest.approx(1.0, abs=1e-5)


def test_the_frequency_told_is_where_the_two_differ_most() -> None:
    curve = through_loss(two_port(GOOD))
    dip_db = 2.0 * np.exp(-(((SWEPT_HZ - 1580e6) / 3e6) ** 2))
    (told,) = swept_losses(GNSS, replace(curve, loss_db=curve.loss_db + dip_db))
    assert told.at_hz == pytest.approx(1580e6, abs=1.3e6)
    assert told.agreement == "DIFFERS"


def test_the_loss_at_one_frequency_lies_between_its_neighbours_and_is_never_extrapolated() -> None:
    curve = through_loss(two_port(GOOD))
    assert loss_at_db(curve, float(SWEPT_HZ[7])) == curve.loss_db[7]
    between_hz = float(SWEPT_HZ[7:9].mean())
    assert loss_at_db(curve, between_hz) == pytest.approx(curve.loss_db[7:9].mean())
    with pytest.raises(SweepError, match="lists 800 to 1800 MHz; the band needs 2400 MHz"):
        loss_at_db(curve, 2.4e9)


def test_a_difference_of_just_what_is_allowed_agrees() -> None:
    off = through_loss(two_port(GOOD))
    off = replace(off, loss_db=off.loss_db + 0.5)
    (told,) = swept_losses(GNSS, off)
    assert told.difference_db is not None
    facts = facts_of(6.0, agree_db=told.difference_db)
    assert swept_losses(SweptPath(facts, "gnss1"), off)[0].agreement == "AGREES"
    facts = facts_of(6.0, agree_db=told.difference_db - 1e-6)
    assert swept_losses(SweptPath(facts, "gnss1"), off)[0].agreement == "DIFFERS"


def test_a_band_that_the_sweep_does_not_cover_is_refused_and_never_extrapolated() -> None:
    swept_hz = np.linspace(100e6, 1570e6, 400)
    line = chain_abcd(swept_hz, [pair(), cable(6.0, swept_hz), pair()])
    (told,) = swept_losses(GNSS, through_loss(two_port(line, frequency_hz=swept_hz)))
    said = "the sweep lists 100 to 1570 MHz; the band needs 1563.42 to 1587.42 MHz"
    assert told.refused == said
    assert (told.measured_db, told.predicted_db, told.agreement) == (None, None, None)


def test_each_band_of_a_path_is_told_of_by_itself() -> None:
    swept_hz = np.linspace(1050e6, 1150e6, 51)
    line = chain_abcd(swept_hz, [cable(2.0, swept_hz)])
    curve = through_loss(two_port(line, frequency_hz=swept_hz))
    rx, tx = swept_losses(SweptPath(FACTS, "xpdr1"), curve)
    assert (rx.band, tx.band) == ("rx", "tx")
    assert "the band needs 1030 MHz" in rx.refused
    assert tx.measured_db is not None


def test_a_warm_line_is_compared_with_the_prediction_of_its_temperature() -> None:
    curve = through_loss(two_port(GOOD))
    (cool,) = swept_losses(SweptPath(FACTS, "gnss1", 20.0), curve)
    (warm,) = swept_losses(SweptPath(FACTS, "gnss1", 60.0), curve)
    assert cool.predicted_db is not None and warm.predicted_db is not None
    assert warm.predicted_db > cool.predicted_db + 0.1


def test_a_measured_loss_stands_alone_where_the_plan_does_not_know_the_cable() -> None:
    facts = sample_facts(refitted(plan_of(6.0), "cables", "w11", type="?"))
    (told,) = swept_losses(SweptPath(facts, "gnss1"), through_loss(two_port(GOOD)))
    assert told.measured_db is not None
    assert (told.predicted_db, told.difference_db, told.agreement) == (None, None, None)


# --- from one end -------------------------------------------------------------------------------


def ends(line: np.ndarray) -> tuple[Sweep, Sweep]:
    return one_port(line, OPEN_OHM, "open.s1p"), one_port(line, SHORT_OHM, "short.s1p")


@settings(max_examples=30)
@given(st.floats(0.5, 12.0))
def test_open_and_short_from_one_end_give_the_loss_of_a_matched_line(length_m: float) -> None:
    line = chain_abcd(SWEPT_HZ, [cable(length_m)])
    curve = one_port_loss(*ends(line))
    np.testing.assert_allclose(curve.loss_db, insertion_loss_db(line), atol=1e-6)


def test_the_mean_takes_most_of_the_ripple_of_bad_plugs_out_and_the_ripple_is_shown() -> None:
    curve = one_port_loss(*ends(BAD_PLUGS))
    truth_db = insertion_loss_db(BAD_PLUGS)
    assert curve.swing_db is not None
    assert curve.swing_db.max() > 0.5
    assert np.abs(curve.loss_db - truth_db).max() < 0.25
    (told,) = swept_losses(GNSS, curve)
    assert told.ripple_db is not None
    assert told.ripple_db > 0.5


def test_the_ripple_is_how_far_each_single_reading_lies_off_the_mean() -> None:
    opened, shorted = ends(BAD_PLUGS)
    curve = one_port_loss(opened, shorted)
    for one in (opened, shorted):
        off_db = down_db(reflection(one)) / 2.0 - curve.loss_db
        np.testing.assert_allclose(np.abs(off_db), curve.swing_db, atol=1e-9)


def test_the_ripple_of_a_single_frequency_is_that_of_a_whole_period_around_it() -> None:
    curve = one_port_loss(*ends(BAD_PLUGS))
    (rx, _) = swept_losses(SweptPath(facts_of(6.0), "xpdr1"), curve)
    assert curve.swing_db is not None and rx.ripple_db is not None
    near = np.abs(SWEPT_HZ - 1030e6) < 20e6
    assert rx.ripple_db > 0.8 * curve.swing_db[near].max()
    assert rx.ripple_db > np.interp(1030e6, SWEPT_HZ, curve.swing_db)


def test_two_sweeps_of_the_same_far_end_are_refused() -> None:
    one = one_port(GOOD, OPEN_OHM, "open.s1p")
    with pytest.raises(SweepError, match=r"open\.s1p and b\.s1p look alike"):
        one_port_loss(one, replace(one, file="b.s1p"))


def test_two_sweeps_over_other_frequencies_are_refused() -> None:
    opened, shorted = ends(GOOD)
    moved = replace(shorted, frequency_hz=tuple(f + 1e6 for f in shorted.frequency_hz))
    fewer = replace(shorted, frequency_hz=shorted.frequency_hz[:-1], s=shorted.s[:-1])
    for other in (moved, fewer):
        with pytest.raises(SweepError, match="not swept over the same frequencies"):
            one_port_loss(opened, other)


def test_a_line_that_returns_more_than_it_gets_is_refused_and_noise_counts_as_full() -> None:
    opened, shorted = ends(chain_abcd(SWEPT_HZ, [cable(1e-4)]))
    noisy = replace(opened, s=tuple((s * 1.02,) for (s,) in opened.s))
    assert one_port_loss(noisy, shorted).loss_db.min() >= 0.0
    wrong = replace(opened, s=tuple((s * 1.2,) for (s,) in opened.s))
    with pytest.raises(SweepError, match=r"open\.s1p returns more than it gets"):
        one_port_loss(wrong, shorted)
