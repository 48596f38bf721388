# SPDX-License-Identifier: Apache-2.0
"""What each rung says of a pair: the same model told once, with its band and its doubts."""

from __future__ import annotations

import pytest
from demo_plans import assessed
from interfering import facts_with, two_transponders

from rfplan.analysis.interference import interference
from rfplan.analysis.isolation_models import Doubt, Rung
from rfplan.analysis.ladder import AT_ONCE, ladder
from rfplan.model.interference import CellWord
from rfplan.reports.study import facts_of

PAIR = "xpdr1", "xpdr2"


def test_on_metal_every_rung_has_a_model_of_its_own() -> None:
    steps = ladder(facts_with(two_transponders(None)).scene, *PAIR, 1090e6, (*AT_ONCE, Rung.EXACT))
    assert [step.rungs for step in steps] == [(rung,) for rung in (*AT_ONCE, Rung.EXACT)]
    words = {step.rungs[0]: step.coupling.word for step in steps}
    assert words[Rung.TRANSPARENT] is CellWord.TEST
    assert steps[0].doubts == (Doubt.GUIDED,)
    assert words[Rung.DEFAULT] is words[Rung.EXACT] is CellWord.COMPUTED
    assert words[Rung.BEST] is words[Rung.QUICK] is CellWord.TEST


def test_the_exact_rung_lies_inside_the_band_of_the_default_one() -> None:
    scene = facts_with(two_transponders(None)).scene
    default, exact = (
        ladder(scene, *PAIR, 1090e6, (rung,))[0] for rung in (Rung.DEFAULT, Rung.EXACT)
    )
    low_db, high_db = default.coupling.band_db
    assert low_db is not None and high_db is not None
    better_db = (exact.coupling.have_db or 0.0) - (default.coupling.have_db or 0.0)
    assert low_db <= better_db <= high_db


def test_the_default_rung_is_what_the_matrix_says() -> None:
    facts = facts_of(assessed("twin"))
    told = 0
    for cell in interference(facts).cells:
        for one in cell.exposures:
            if one.coupling.word is not CellWord.COMPUTED:
                continue
            (step,) = ladder(
                facts.scene, cell.source, cell.victim, one.frequency_hz, (Rung.DEFAULT,)
            )
            assert step.coupling.have_db == pytest.approx(one.coupling.have_db)
            assert step.coupling.band_db == pytest.approx(one.coupling.band_db)
            told += 1
    assert told


def test_over_glass_all_rungs_come_to_one_bound() -> None:
    scene = facts_of(assessed("amphibian")).scene
    (step,) = ladder(scene, "com1", "com2", 127e6)
    assert step.rungs == AT_ONCE
    assert step.coupling.word is CellWord.BOUND
    assert step.doubts == ()


def test_out_of_tune_there_is_nothing_to_say() -> None:
    assert ladder(facts_with().scene, "com1", "gnss1", 1575.42e6) == ()


def test_what_takes_a_number_out_of_its_range_is_named() -> None:
    scene = facts_of(assessed("amphibian")).scene
    (step,) = ladder(scene, "com1", "nav", 117.975e6)
    assert step.doubts == (Doubt.NOT_UPRIGHT,)
    assert step.coupling.word is CellWord.TEST
