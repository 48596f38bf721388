# SPDX-License-Identifier: Apache-2.0
"""What isolation may be counted on: computed in tune, else a bound, else nothing."""

from __future__ import annotations

import math
from dataclasses import replace

import pytest
from interfering import facts_with, gained_catalog, two_transponders
from sample import inch, place, refitted, sample_plan

from rfplan.analysis.couplings import (
    GUIDED,
    NEAR_FIELD,
    NO_GAIN,
    NO_PLACE,
    TOO_THIN,
    couplings,
    made_for_hz,
    standing_readings,
)
from rfplan.analysis.facts import Facts
from rfplan.analysis.isolation_models import Model
from rfplan.model.airframe import Panel
from rfplan.model.catalog import Catalog
from rfplan.model.interference import CellWord, Coupling
from rfplan.model.plan import IsolationReading, Plan, State
from rfplan.model.record import ById
from rfplan.physics.coupling import friis_isolation_db

BAND_HZ = 100e6, 2000e6


def test_two_antennas_in_tune_on_metal_are_computed_the_same_both_ways() -> None:
    facts = facts_with(two_transponders(None))
    found = couplings(facts.scene, [("xpdr2", "xpdr1", 1090e6)])
    there, back = (
        found.at(*pair, 1090e6, BAND_HZ) for pair in (("xpdr1", "xpdr2"), ("xpdr2", "xpdr1"))
    )
    assert there == back
    assert (there.word, there.valid) == (CellWord.COMPUTED, True)


def over(skin: str, plan: Plan | None = None, catalog: Catalog | None = None) -> Facts:
    """Return the facts of a plan, its whole hull of one material."""
    plan = plan or sample_plan()
    panels = ById({"hull": Panel("all", skin, source="sheet")})
    return facts_with(replace(plan, airframe=replace(plan.airframe, skin=panels)), catalog)


def told(facts: Facts, a: str, b: str, frequency_hz: float) -> Coupling:
    """Return the isolation of two antennas at one frequency."""
    return couplings(facts.scene, [(a, b, frequency_hz)]).at(a, b, frequency_hz, BAND_HZ)


def test_over_glass_an_unstated_gain_is_that_of_a_dipole_in_its_band() -> None:
    facts = over("glass", two_transponders(None))
    bound = told(facts, "xpdr1", "xpdr2", 1090e6)
    away_m = couplings(facts.scene, []).distance_m("xpdr1", "xpdr2")
    assert away_m == pytest.approx(inch(30.0), abs=0.02)
    assert bound.have_db == pytest.approx(float(friis_isolation_db(1090e6, away_m, 4.3)))
    assert (bound.word, bound.band_db) == (CellWord.BOUND, (0.0, None))


def test_what_a_conducting_hull_guides_is_taken_off_a_bound() -> None:
    catalog = gained_catalog()
    facts = facts_with(catalog=catalog)
    line, guided = (
        told(one, "com1", "gnss1", 120e6) for one in (over("glass", catalog=catalog), facts)
    )
    assert (line.model, guided.model) == (Model.BOUND.words, GUIDED)
    assert line.have_db is not None and guided.have_db is not None
    assert 1.0 < line.have_db - guided.have_db < 12.0
    assert guided.word is CellWord.BOUND


def test_a_hull_too_thin_to_have_been_compared_leaves_no_bound() -> None:
    low = told(facts_with(catalog=gained_catalog()), "com1", "gnss1", 45e6)
    assert (low.word, low.valid, low.model) == (CellWord.TEST, False, TOO_THIN)


def test_out_of_band_an_unstated_gain_leaves_a_number_that_decides_nothing() -> None:
    one = told(facts_with(), "com1", "gnss1", 1575.42e6)
    assert (one.word, one.valid, one.model) == (CellWord.TEST, False, NO_GAIN)
    assert one.have_db is not None


def test_nearer_than_a_wavelength_over_two_pi_nothing_is_said() -> None:
    plan = refitted(sample_plan(), "antennas", "xpdr1", on="top", at=place(133, 0))
    one = told(facts_with(plan), "com1", "xpdr1", 120e6)
    assert (one.have_db, one.model) == (None, NEAR_FIELD)


def test_an_antenna_off_the_hull_has_no_isolation() -> None:
    plan = refitted(sample_plan(), "antennas", "xpdr1", at=place(900, 0))
    one = told(facts_with(plan), "com1", "xpdr1", 1090e6)
    assert (one.have_db, one.model, one.word) == (None, NO_PLACE, CellWord.TEST)


def test_a_reading_stands_for_the_band_it_lies_in_and_is_carried_along_it() -> None:
    facts = facts_with(two_transponders(None))
    reading = IsolationReading(("xpdr1", "xpdr2"), 31.0, 1.5, 1090e6, inch(30.0))
    asked = [("xpdr1", "xpdr2", at_hz) for at_hz in (1030e6, 1090e6, 1150e6)]
    found = couplings(facts.scene, asked, [reading])
    band_hz = 1025e6, 1150e6
    for pair in (("xpdr1", "xpdr2"), ("xpdr2", "xpdr1")):
        there = found.at(*pair, 1090e6, band_hz)
        assert (there.word, there.have_db, there.band_db) == (CellWord.MEASURED, 31.0, (-1.5, 1.5))
        up = found.at(*pair, 1150e6, band_hz)
        assert up.have_db == pytest.approx(31.0 + 20.0 * math.log10(1150.0 / 1090.0))
        assert found.at(*pair, 1030e6, (1025e6, 1035e6)).word is CellWord.COMPUTED


def test_of_several_readings_the_nearest_speaks() -> None:
    facts = facts_with(two_transponders(None))
    readings = [
        IsolationReading(("xpdr2", "xpdr1"), isolation_db, 1.0, at_hz, inch(30.0))
        for isolation_db, at_hz in ((30.0, 1030e6), (33.0, 1090e6), (36.0, 1150e6))
    ]
    found = couplings(facts.scene, [], readings)
    for one in readings:
        assert found.at("xpdr1", "xpdr2", one.at_hz, BAND_HZ).have_db == one.isolation_db


@pytest.mark.parametrize(("apart_in", "moved"), [(30.0, False), (30.3, False), (31.5, True)])
def test_a_reading_is_stale_once_its_antennas_stand_otherwise(apart_in: float, moved: bool) -> None:
    reading = IsolationReading(("xpdr1", "xpdr2"), 31.0, 1.5, 1090e6, inch(apart_in), State.DESIGN)
    plan = replace(two_transponders(None), isolation=ById({"i1": reading}))
    assert standing_readings(facts_with(plan).scene) == {"i1": (reading, moved)}
    elsewhere = replace(plan, isolation=ById({"i1": replace(reading, state=State.FOUND)}))
    assert standing_readings(facts_with(elsewhere).scene) == {}


def test_an_antenna_is_in_tune_in_the_bands_of_the_radios_it_is_made_for() -> None:
    scene = facts_with().scene
    assert made_for_hz(scene, "xpdr1") == ((1030e6, 1030e6), (1090e6, 1090e6))
