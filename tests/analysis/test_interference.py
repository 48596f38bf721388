# SPDX-License-Identifier: Apache-2.0
"""The matrix: nothing passes or fails that is not certain, and levels are those entered."""

from __future__ import annotations

from dataclasses import replace

import numpy as np
import pytest
from crowded_aircraft import crowded_facts
from hypothesis import given
from hypothesis import strategies as st
from interfering import (
    HARMONICS,
    exposure,
    exposures,
    facts_with,
    gained_catalog,
    reading_of,
    two_transponders,
)
from sample import inch, refitted, sample_plan, with_port

from rfplan.analysis.interference import failing, interference, verdict
from rfplan.analysis.isolation_models import Model, Rung
from rfplan.analysis.ladder import ladder
from rfplan.model.findings import Verdict
from rfplan.model.interference import NOISE, CellWord, Coupling, Harm, Matrix, Together
from rfplan.model.record import ById
from rfplan.physics.coupling import friis_isolation_db
from rfplan.units import UNKNOWN, Range

L1_HZ = 1575.42e6


def test_no_antenna_stands_against_itself() -> None:
    cells = interference(crowded_facts()).cells
    assert cells
    assert not [cell for cell in cells if cell.source == cell.victim]


def test_a_harmonic_whose_level_nobody_entered_is_a_test() -> None:
    one = exposure(interference(facts_with()), "com1", "gnss1", 13)
    assert (one.level_dbm, one.given, one.need_db, one.margin_db) == (None, False, None, None)
    assert (one.word, one.verdict) == (CellWord.TEST, None)
    assert one.carrier_dbm == pytest.approx(42.04, abs=0.01)


def test_a_bound_that_meets_the_need_passes_and_says_that_it_is_one() -> None:
    plan = with_port(sample_plan(), "nav1", "com", harmonics_db=ById({"13": 150.0}))
    one = exposure(interference(facts_with(plan, gained_catalog())), "com1", "gnss1", 13)
    assert (one.verdict, one.word) == (Verdict.PASS, CellWord.BOUND)
    away_m = inch(50.0)
    line_db = float(friis_isolation_db(one.frequency_hz, away_m, 2.15 + 5.0))
    assert one.coupling.have_db is not None
    assert 1.0 < line_db - one.coupling.have_db < 2.0  # what the metal hull guides at ka 25, kt 42
    assert one.need_db == pytest.approx(42.04 - 150.0 + 126.5, abs=0.01)
    assert one.margin_db == pytest.approx(one.coupling.have_db - one.need_db)


def test_a_bound_that_misses_the_need_never_fails() -> None:
    plan = with_port(sample_plan(), "nav1", "com", harmonics_db=HARMONICS)
    one = exposure(interference(facts_with(plan, gained_catalog())), "com1", "gnss1", 12)
    assert one.margin_db is not None and one.margin_db < 0.0
    assert one.coupling.word is CellWord.BOUND
    assert (one.verdict, one.word) == (None, CellWord.TEST)


def test_a_gain_that_nobody_stated_out_of_band_bounds_nothing() -> None:
    plan = with_port(sample_plan(), "nav1", "com", harmonics_db=ById({"13": 150.0}))
    one = exposure(interference(facts_with(plan)), "com1", "gnss1", 13)
    assert one.margin_db is not None and one.margin_db > 0.0
    assert not one.coupling.valid
    assert one.word is CellWord.TEST


def test_the_length_of_the_gnss_feeder_does_not_change_the_gnss_margin() -> None:
    plan = with_port(sample_plan(), "nav1", "com", harmonics_db=HARMONICS)
    longer = refitted(plan, "cables", "w11", length_m=inch(400.0))
    short, long = (interference(facts_with(one)) for one in (plan, longer))
    assert exposures(short, "com1", "gnss1") == exposures(long, "com1", "gnss1")


def test_the_feeder_of_the_sender_takes_from_the_carrier() -> None:
    plan = refitted(sample_plan(), "cables", "w21", length_m=inch(400.0))
    short, long = (exposure(interference(facts_with(p)), "com1", "gnss1") for p in (None, plan))
    assert short.level_dbm is not None and long.level_dbm is not None
    assert long.level_dbm < short.level_dbm - 0.5


def test_power_that_is_not_known_leaves_a_test() -> None:
    plan = with_port(sample_plan(), "nav1", "com", power_w=Range(UNKNOWN, UNKNOWN))
    told = exposures(interference(facts_with(plan)), "com1", "gnss1")
    assert {one.word for one in told} == {CellWord.TEST}
    assert {one.margin_db for one in told} == {None}


def test_two_transponders_are_checked_for_damage_only_and_a_computed_level_may_fail() -> None:
    told = {
        damage: exposures(interference(facts_with(two_transponders(damage))), "xpdr1", "xpdr2")
        for damage in (None, -20.0, 60.0)
    }
    assert {one.harm for found in told.values() for one in found} == {Harm.DAMAGE}
    assert [found[0].verdict for found in told.values()] == [None, Verdict.FAIL, Verdict.PASS]
    assert {found[0].coupling.word for found in told.values()} == {CellWord.COMPUTED}


def test_an_overload_that_the_port_does_not_state_is_a_test() -> None:
    matrix = interference(facts_with())
    one = exposure(matrix, "xpdr1", "com1")
    assert (one.harm, one.limit_dbm, one.word) == (Harm.OVERLOAD, None, CellWord.TEST)
    plan = with_port(sample_plan(), "nav1", "com", overload_dbm=-10.0)
    stated = exposure(interference(facts_with(plan)), "xpdr1", "com1")
    assert stated.limit_dbm == -10.0


def test_pulses_are_held_against_the_pulse_limit() -> None:
    told = exposures(interference(facts_with()), "xpdr1", "gnss1")
    assert [(one.harm, one.limit_dbm) for one in told] == [(Harm.PULSES, 30.0)]


def test_a_measured_isolation_passes_and_fails_by_its_uncertainty() -> None:
    plan = with_port(sample_plan(), "nav1", "com", harmonics_db=ById({"13": 95.0}))
    need_db = 42.04 - 95.0 + 120.5
    read = [reading_of(plan, "com1", "gnss1", L1_HZ, need_db + over) for over in (-1.0, -9.0)]
    unsure, sure = (exposure(interference(facts_with(one)), "com1", "gnss1", 13) for one in read)
    assert unsure.verdict is None
    assert (sure.verdict, sure.word) == (Verdict.FAIL, CellWord.MEASURED)
    assert sure.frequency_hz == L1_HZ


def test_what_lies_below_its_limit_at_the_sender_passes_whatever_lies_between() -> None:
    plan = with_port(sample_plan(), "nav1", "com", power_w=Range(0.01, 0.01))
    told = exposures(interference(facts_with(plan)), "com1", "gnss1")
    carrier = next(one for one in told if one.order == 1)
    assert (carrier.verdict, carrier.word) == (Verdict.PASS, CellWord.BOUND)
    assert carrier.coupling.have_db == 0.0


def test_cells_are_worst_first() -> None:
    cells = interference(crowded_facts()).cells
    ranks = [{Verdict.FAIL: 0, None: 1, Verdict.PASS: 2}[cell.worst.verdict] for cell in cells]
    assert ranks == sorted(ranks)
    known = [c.worst.margin_db for c in cells if c.worst.verdict is Verdict.PASS]
    assert known == sorted(known)


def test_only_computed_or_measured_cells_may_fail_and_only_on_data() -> None:
    told = [one for cell in interference(crowded_facts()).cells for one in cell.exposures]
    for one in told:
        assert one.verdict is not Verdict.FAIL or (
            one.given and one.coupling.word in (CellWord.COMPUTED, CellWord.MEASURED)
        )
        assert one.verdict is None or one.coupling.valid
        assert one.coupling.word is not CellWord.BOUND or one.verdict in (None, Verdict.PASS)


@given(
    margin_db=st.floats(-50.0, 50.0),
    low_db=st.floats(-6.0, 6.0),
    wider_db=st.floats(0.0, 12.0),
    word=st.sampled_from(list(CellWord)),
    valid=st.booleans(),
)
def test_no_verdict_where_zero_lies_inside_the_band(
    margin_db: float, low_db: float, wider_db: float, word: CellWord, valid: bool
) -> None:
    band_db = (low_db, low_db + wider_db)
    found = verdict(Coupling(0.0, "", band_db, valid, word), margin_db, margin_db)
    if found is Verdict.PASS:
        assert valid and margin_db >= -1e-9
    if found is Verdict.FAIL:
        assert valid and margin_db + band_db[1] < 0.0
        assert word in (CellWord.COMPUTED, CellWord.MEASURED)


def test_a_limit_that_was_not_read_never_fails() -> None:
    coupling = Coupling(20.0, "", (0.0, 1.0), True, CellWord.MEASURED)
    assert verdict(coupling, -30.0, None) is None
    assert verdict(coupling, -30.0, -24.0) is Verdict.FAIL


def test_the_class_of_a_cell_is_the_strictest_of_its_paths() -> None:
    classes = {(c.source, c.victim): c.together for c in interference(crowded_facts()).cells}
    assert classes["vhf_com_0", "vhf_com_1"] is Together.NOT_REQUIRED
    assert classes["transponder_0", "dme_1"] is Together.SUPPRESSED
    assert classes["elt_0", "vhf_com_1"] is Together.NOT_REQUIRED
    assert classes["vhf_com_0", "gnss_l1_0"] is Together.YES


def test_a_moved_antenna_changes_its_own_cells_only() -> None:
    plan = sample_plan()
    at = replace(plan.design.antennas["xpdr1"].at, fs_m=inch(150.0))
    moved = refitted(plan, "antennas", "xpdr1", at=at)
    before, after = interference(facts_with(plan)), interference(facts_with(moved))
    assert exposures(before, "com1", "gnss1") == exposures(after, "com1", "gnss1")
    assert exposures(before, "xpdr1", "gnss1") != exposures(after, "xpdr1", "gnss1")


def test_the_worst_frequency_of_a_masked_harmonic_is_nowhere_beaten_between_its_points() -> None:
    plan = with_port(sample_plan(), "nav1", "com", harmonics_db=HARMONICS)
    one = exposure(interference(facts_with(plan)), "com1", "gnss1", 13)
    assert abs(one.frequency_hz - L1_HZ) <= 10.0e6 + 1.0
    assert np.isclose(one.limit_dbm or 0.0, -126.5)


def noisy(rise_db: float | None, isolation_db: float) -> Matrix:
    """A COM's noise reaches a transponder through an isolation that was read at 1030 MHz."""
    plan = with_port(sample_plan(), "nav1", "com", noise_dbm_per_hz=ById({"all": -140.0}))
    plan = with_port(plan, "xp1", "ant", noise_figure_db=9.0)
    plan = replace(plan, policy=replace(plan.policy, noise_rise_db=rise_db))
    return interference(facts_with(reading_of(plan, "com1", "xpdr1", 1030e6, isolation_db)))


def test_noise_above_the_rise_that_the_plan_allows_fails_by_a_measured_isolation() -> None:
    """The noise may be -169.8 dBm in 1 Hz, with the line of the transponder: 29.8 dB are needed."""
    one = exposure(noisy(1.0, 20.0), "com1", "xpdr1", NOISE)
    assert (one.harm, one.word, one.verdict) == (Harm.NOISE, CellWord.MEASURED, Verdict.FAIL)
    assert one.margin_db == pytest.approx(20.0 - (one.level_dbm or 0.0) + (one.limit_dbm or 0.0))
    assert exposure(noisy(1.0, 40.0), "com1", "xpdr1", NOISE).verdict is Verdict.PASS


def test_noise_above_a_rise_that_nobody_entered_is_a_test() -> None:
    assert exposure(noisy(None, 20.0), "com1", "xpdr1", NOISE).verdict is None


def test_failing_cells_are_those_of_the_matrix_for_noise_too() -> None:
    plan = with_port(sample_plan(), "nav1", "com", noise_dbm_per_hz=ById({"all": -140.0}))
    plan = with_port(plan, "xp1", "ant", noise_figure_db=9.0)
    plan = replace(plan, policy=replace(plan.policy, noise_rise_db=1.0))
    facts = facts_with(reading_of(plan, "com1", "xpdr1", 1030e6, 20.0))
    told = [(cell.source, cell.victim, cell.worst.order) for cell in failing(facts)]
    assert told == [("com1", "xpdr1", NOISE)]


def test_a_cell_is_no_pass_while_the_noise_of_its_sender_is_not_known() -> None:
    one = exposure(interference(facts_with()), "com1", "xpdr1", NOISE)
    assert (one.level_dbm, one.verdict, one.word) == (None, None, CellWord.TEST)


@pytest.mark.parametrize("rung", [Rung.QUICK, Rung.BEST, Rung.TRANSPARENT])
def test_a_rung_that_is_not_the_default_shows_its_number_and_decides_nothing(rung: Rung) -> None:
    facts = facts_with(two_transponders(40.0))
    usual = exposure(interference(facts), "xpdr1", "xpdr2", harm=Harm.DAMAGE)
    other = exposure(interference(facts, rung), "xpdr1", "xpdr2", harm=Harm.DAMAGE)
    assert (usual.word, usual.verdict) == (CellWord.COMPUTED, Verdict.PASS)
    assert (other.word, other.verdict) == (CellWord.TEST, None)
    assert other.margin_db is not None and other.margin_db > 0.0
    step = next(one for one in ladder(facts.scene, "xpdr1", "xpdr2", 1090e6) if rung in one.rungs)
    assert other.coupling == step.coupling


def test_the_exact_rung_decides_where_it_is_asked_for() -> None:
    matrix = interference(facts_with(two_transponders(40.0)), Rung.EXACT)
    one = exposure(matrix, "xpdr1", "xpdr2", harm=Harm.DAMAGE)
    assert (one.word, one.verdict) == (CellWord.COMPUTED, Verdict.PASS)
    assert one.coupling.model == Model.CYLINDER.words


def test_a_rung_leaves_bounds_and_readings_as_they_are() -> None:
    facts = facts_with(reading_of(sample_plan(), "com1", "xpdr1", 1030e6, 20.0), gained_catalog())
    usual, quick = (interference(facts, rung) for rung in (Rung.DEFAULT, Rung.QUICK))
    assert exposures(quick, "com1", "gnss1") == exposures(usual, "com1", "gnss1")
    assert exposure(quick, "com1", "xpdr1", NOISE) == exposure(usual, "com1", "xpdr1", NOISE)
