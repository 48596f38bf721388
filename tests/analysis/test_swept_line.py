# SPDX-License-Identifier: Apache-2.0
"""Where a line reflects, and what stands there."""

from __future__ import annotations

from dataclasses import replace

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from sample import refitted, sample_catalog, sample_facts, with_entry
from swept_lines import (
    OPEN_OHM,
    SWEPT_HZ,
    cable,
    facts_of,
    facts_of_two,
    faulty,
    one_port,
    pair,
    plan_of,
    predicted_db,
)

from rfplan.analysis.sweeps import SweepError, SweptPath
from rfplan.analysis.swept_line import places, search_line
from rfplan.model.record import ById
from rfplan.physics.two_port import chain_abcd

FACTS = facts_of(6.0)
GNSS = SweptPath(FACTS, "gnss1")
GOOD = chain_abcd(SWEPT_HZ, [pair(), cable(6.0), pair()])
SQUEEZED_S = 0.01  # a fifth of the wave comes back: return loss 14.4 dB


def test_places_are_named_by_what_meets_there() -> None:
    along = places(SweptPath(facts_of_two(2.0, 4.0), "gnss1"), 1.3e9)
    assert [place.name for place in along] == ["nav1.gnss/w11", "w11/mid/w12", "w12/gnss1"]
    assert [place.distance_m for place in along] == pytest.approx([0.0, 2.0, 6.0])
    assert along[-1].electrical_m == pytest.approx(6.0 / 0.695)


def test_the_loss_on_the_way_is_the_predicted_one() -> None:
    facts = facts_of_two(2.0, 4.0)
    unit, middle, antenna = places(SweptPath(facts, "gnss1"), 1.3e9)
    assert (unit.before_db, unit.behind_db) == pytest.approx((0.0, 0.08))
    assert middle.behind_db - middle.before_db == pytest.approx(3.0 + 2 * 0.08)
    assert antenna.behind_db == pytest.approx(predicted_db(facts, "gnss1", 1.3e9))


def test_a_good_line_into_its_own_impedance_reflects_nowhere() -> None:
    told = search_line(GNSS, one_port(GOOD, 50.0))
    assert told.reflections == ()
    assert told.loss_known


@settings(max_examples=25, deadline=None)
@given(st.floats(0.4, 5.6))
def test_a_fault_is_found_within_the_resolution_and_named_by_its_neighbours(at_m: float) -> None:
    line = faulty([pair(), cable(at_m)], SQUEEZED_S, [cable(6.0 - at_m), pair()])
    told = search_line(GNSS, one_port(line, 50.0))
    (fault,) = told.reflections
    assert abs(fault.distance_m - at_m) < told.resolution_m / 4.0
    assert fault.where == "between nav1.gnss/w11 and w11/gnss1"
    assert fault.return_loss_db == pytest.approx(14.4, abs=0.7)


def test_a_fault_at_3_2_m_is_told_at_3_2_m() -> None:
    line = faulty([pair(), cable(3.2)], SQUEEZED_S, [cable(2.8), pair()])
    (fault,) = search_line(GNSS, one_port(line, 50.0)).reflections
    assert fault.distance_m == pytest.approx(3.2, abs=0.02)


def test_resolution_and_range_are_those_of_the_cable() -> None:
    told = search_line(GNSS, one_port(GOOD, 50.0))
    assert told.resolution_m == pytest.approx(2.0 * 0.695 * 299792458.0 / 2.0e9)
    assert told.range_m == pytest.approx(800 * 0.695 * 299792458.0 / 2.0e9, rel=1e-3)
    assert not told.too_short


def test_the_open_end_is_found_at_the_antenna_with_no_return_loss_left() -> None:
    (end,) = search_line(GNSS, one_port(GOOD, OPEN_OHM)).reflections
    assert end.where == "at w11/gnss1"
    assert end.distance_m == pytest.approx(6.0, abs=0.02)
    assert end.return_loss_db < 0.3


def test_a_bad_plug_at_the_unit_stands_at_the_unit_and_is_not_seen_twice() -> None:
    line = chain_abcd(SWEPT_HZ, [pair(1.5), cable(6.0)])
    (plug,) = search_line(GNSS, one_port(line, 50.0)).reflections
    assert plug.where == "at nav1.gnss/w11"
    assert plug.distance_m == pytest.approx(0.0, abs=0.02)


def test_a_plug_a_little_ahead_of_the_calibrated_plane_still_stands_at_the_unit() -> None:
    line = chain_abcd(SWEPT_HZ, [pair(1.5), cable(6.0)])
    sweep = one_port(line, 50.0)
    ahead = np.exp(4j * np.pi * SWEPT_HZ * 0.08 / 299792458.0)
    early = replace(sweep, s=tuple((s * turn,) for (s,), turn in zip(sweep.s, ahead, strict=True)))
    (plug,) = search_line(GNSS, early).reflections
    assert (plug.where, plug.distance_m) == ("at nav1.gnss/w11", 0.0)
    assert plug.return_loss_db == pytest.approx(14.0, abs=0.3)


def test_two_faults_and_the_end_are_told_in_their_order() -> None:
    line = faulty([pair(), cable(1.0)], SQUEEZED_S, [cable(3.0), pair(1.6), cable(2.0)])
    told = search_line(GNSS, one_port(line, OPEN_OHM))
    first, second, *_ = told.reflections
    assert (first.distance_m, second.distance_m) == pytest.approx((1.0, 4.0), abs=0.03)
    assert "at w11/gnss1" in [one.where for one in told.reflections]


def test_a_bad_part_between_two_cables_is_named() -> None:
    line = chain_abcd(SWEPT_HZ, [cable(2.0), pair(1.0, 3.16), pair(1.5, 0.18), cable(4.0)])
    told = search_line(SweptPath(facts_of_two(2.0, 4.0), "gnss1"), one_port(line, 50.0))
    assert told.reflections[0].where == "at w11/mid/w12"
    assert told.reflections[0].distance_m == pytest.approx(2.0, abs=0.03)


def test_a_longer_cable_than_planned_is_told_beyond_the_antenna() -> None:
    line = chain_abcd(SWEPT_HZ, [pair(), cable(7.0), pair()])
    (end,) = search_line(GNSS, one_port(line, OPEN_OHM)).reflections
    assert end.distance_m == pytest.approx(7.0, abs=0.02)
    assert end.where == "beyond w11/gnss1: a longer cable, or an echo of what is nearer"


def test_cables_of_two_velocities_do_not_move_a_fault() -> None:
    catalog = with_entry(sample_catalog(), "cables", "coax_3mm", velocity_ratio=0.85)
    plan = facts_of_two(2.0, 4.0).plan
    facts = sample_facts(refitted(plan, "cables", "w12", type="coax_3mm"), catalog)
    fast = cable(2.5, velocity_ratio=0.85)
    line = faulty([cable(2.0), fast], SQUEEZED_S, [cable(1.5, velocity_ratio=0.85)])
    (fault,) = search_line(SweptPath(facts, "gnss1"), one_port(line, 50.0)).reflections
    assert fault.distance_m == pytest.approx(4.5, abs=0.02)
    assert fault.where == "between w11/mid/w12 and w12/gnss1"


def test_a_threshold_tells_how_small_a_reflection_counts() -> None:
    line = faulty([cable(3.2)], 0.002, [cable(2.8)])  # return loss 26.2 dB
    sweep = one_port(line, 50.0)
    assert search_line(GNSS, sweep).reflections == ()
    assert len(search_line(GNSS, sweep, 27.0).reflections) == 1


def test_a_path_longer_than_the_sweep_shows_is_said() -> None:
    few_hz = np.linspace(0.8e9, 1.8e9, 41)
    sweep = one_port(chain_abcd(few_hz, [cable(6.0, few_hz)]), 50.0, frequency_hz=few_hz)
    assert search_line(GNSS, sweep).too_short


def test_without_a_known_loss_reflections_are_told_as_seen() -> None:
    catalog = with_entry(sample_catalog(), "connectors", "tnc", loss=ById())
    facts = sample_facts(plan_of(6.0), catalog)
    told = search_line(SweptPath(facts, "gnss1"), one_port(GOOD, OPEN_OHM))
    assert not told.loss_known
    assert told.reflections[0].return_loss_db == pytest.approx(7.2, abs=0.3)


@pytest.mark.parametrize(
    ("changes", "said"),
    [
        ({"type": "?"}, "w11: the type is not known"),
        ({"length_m": None, "via": (), "loops_m": None, "drops_m": None, "type": "?"}, "w11: the"),
    ],
)
def test_without_length_or_velocity_no_distance_is_told(
    changes: dict[str, object], said: str
) -> None:
    facts = sample_facts(refitted(plan_of(6.0), "cables", "w11", **changes))
    with pytest.raises(SweepError, match=said):
        search_line(SweptPath(facts, "gnss1"), one_port(GOOD, 50.0))


def test_a_sweep_by_uneven_steps_gives_no_distance() -> None:
    sweep = one_port(GOOD, 50.0)
    uneven = replace(sweep, frequency_hz=tuple(np.geomspace(0.8e9, 1.8e9, 801).tolist()))
    with pytest.raises(SweepError, match="no distance can be told: the frequencies of the sweep"):
        search_line(GNSS, uneven)
