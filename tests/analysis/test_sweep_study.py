# SPDX-License-Identifier: Apache-2.0
"""The sweeps of a path together: what they say, and in words what they do not."""

from __future__ import annotations

from dataclasses import replace

import numpy as np
import pytest
from swept_lines import (
    OPEN_OHM,
    SHORT_OHM,
    SWEPT_HZ,
    cable,
    facts_of,
    one_port,
    pair,
    two_port,
)

from rfplan.analysis.swapped_cables import Labels
from rfplan.analysis.sweep_study import PathSweeps, study
from rfplan.physics.two_port import chain_abcd

FACTS = facts_of(6.0)
GOOD = chain_abcd(SWEPT_HZ, [pair(), cable(6.0), pair()])
ANTENNA = one_port(GOOD, 100.0, "antenna.s1p")
OPENED = one_port(GOOD, OPEN_OHM, "open.s1p")
SHORTED = one_port(GOOD, SHORT_OHM, "short.s1p")
THROUGH = two_port(GOOD, "through.s2p")


def test_a_one_port_sweep_alone_tells_match_and_reflections_and_no_loss() -> None:
    told = study(FACTS, PathSweeps("gnss1", ANTENNA))
    assert told.losses == () and told.labels is None and told.refused == ()
    assert told.matches[0].antenna_vswr == pytest.approx(2.0, rel=1e-3)
    assert told.line is not None
    assert [one.where for one in told.line.reflections] == ["at w11/gnss1"]


def test_far_end_open_and_short_add_the_loss_and_carry_the_match() -> None:
    told = study(FACTS, PathSweeps("gnss1", ANTENNA, (OPENED, SHORTED)))
    assert told.losses[0].agreement == "AGREES"
    assert told.matches[0].loss_measured


def test_a_two_port_sweep_tells_loss_and_no_match_since_no_antenna_is_on() -> None:
    told = study(FACTS, PathSweeps("gnss1", THROUGH))
    assert told.losses[0].agreement == "AGREES"
    assert told.matches == ()
    assert told.line is not None
    assert not told.differs


def test_another_path_adds_what_the_labels_say() -> None:
    told = study(FACTS, PathSweeps("gnss1", THROUGH, other=("com1", THROUGH)))
    assert told.labels is Labels.UNTOLD
    assert [one.path for one in told.lengths] == ["gnss1", "com1"]


def test_what_a_sweep_cannot_answer_is_refused_in_words_and_the_rest_is_told() -> None:
    uneven = replace(ANTENNA, frequency_hz=tuple(np.geomspace(0.8e9, 1.8e9, 801).tolist()))
    told = study(FACTS, PathSweeps("gnss1", uneven, (OPENED, OPENED)))
    assert told.line is None and told.losses == ()
    assert [reason.split(";")[0] for reason in told.refused] == [
        "open.s1p and open.s1p look alike",
        "no distance can be told: the frequencies of the sweep do not rise by even steps",
    ]
    assert told.matches[0].unit_vswr is not None


def test_a_loss_that_differs_is_told_of_the_whole_study() -> None:
    lossy = two_port(chain_abcd(SWEPT_HZ, [pair(1.0, 2.0), cable(6.0), pair()]))
    assert study(FACTS, PathSweeps("gnss1", lossy)).differs


def test_the_temperature_of_the_sweep_moves_the_prediction() -> None:
    cool, warm = (
        study(FACTS, PathSweeps("gnss1", THROUGH, temperature_c=at_c)).losses[0].predicted_db
        for at_c in (None, 60.0)
    )
    assert cool is not None and warm is not None
    assert warm > cool
