# SPDX-License-Identifier: Apache-2.0
"""What isolation may be counted on: computed in tune, else a bound, else nothing."""

from __future__ import annotations

import pytest
from interfering import facts_with, two_transponders
from sample import inch, place, refitted, sample_plan

from rfplan.analysis.couplings import NEAR_FIELD, NO_GAIN, NO_PLACE, couplings, made_for_hz
from rfplan.model.interference import CellWord, IsolationReading
from rfplan.physics.coupling import friis_isolation_db


def test_two_antennas_in_tune_on_metal_are_computed_the_same_both_ways() -> None:
    facts = facts_with(two_transponders(None))
    found = couplings(facts.scene, [("xpdr2", "xpdr1", 1090e6)])
    there, back = (found.at(*pair, 1090e6) for pair in (("xpdr1", "xpdr2"), ("xpdr2", "xpdr1")))
    assert there == back
    assert (there.word, there.valid) == (CellWord.COMPUTED, True)


def test_in_band_an_unstated_gain_is_that_of_a_dipole() -> None:
    facts = facts_with(two_transponders(None))
    bound = couplings(facts.scene, []).at("xpdr1", "xpdr2", 1090e6)
    away_m = couplings(facts.scene, []).distance_m("xpdr1", "xpdr2")
    assert away_m == pytest.approx(inch(30.0), abs=0.02)
    assert bound.have_db == pytest.approx(float(friis_isolation_db(1090e6, away_m, 4.3)))
    assert (bound.word, bound.band_db) == (CellWord.BOUND, (0.0, None))


def test_out_of_band_an_unstated_gain_leaves_a_number_that_decides_nothing() -> None:
    told = couplings(facts_with().scene, []).at("com1", "gnss1", 1575.42e6)
    assert (told.word, told.valid, told.model) == (CellWord.TEST, False, NO_GAIN)
    assert told.have_db is not None


def test_nearer_than_a_wavelength_over_two_pi_nothing_is_said() -> None:
    plan = refitted(sample_plan(), "antennas", "xpdr1", on="top", at=place(133, 0))
    told = couplings(facts_with(plan).scene, []).at("com1", "xpdr1", 120e6)
    assert (told.have_db, told.model) == (None, NEAR_FIELD)


def test_an_antenna_off_the_hull_has_no_isolation() -> None:
    plan = refitted(sample_plan(), "antennas", "xpdr1", at=place(900, 0))
    told = couplings(facts_with(plan).scene, []).at("com1", "xpdr1", 1090e6)
    assert (told.have_db, told.model, told.word) == (None, NO_PLACE, CellWord.TEST)


def test_a_reading_stands_for_its_own_frequency_only() -> None:
    facts = facts_with(two_transponders(None))
    reading = IsolationReading("xpdr1", "xpdr2", 1090e6, 31.0, 1.5)
    found = couplings(facts.scene, [], [reading])
    assert found.at("xpdr2", "xpdr1", 1090e6).word is CellWord.MEASURED
    assert found.at("xpdr2", "xpdr1", 1090e6).band_db == (-1.5, 1.5)
    assert found.at("xpdr2", "xpdr1", 1030e6).word is CellWord.BOUND


def test_an_antenna_is_in_tune_in_the_bands_of_the_radios_it_is_made_for() -> None:
    scene = facts_with().scene
    assert made_for_hz(scene, "xpdr1") == ((1030e6, 1030e6), (1090e6, 1090e6))
