# SPDX-License-Identifier: Apache-2.0
"""What a sweep holds, and of which bands it tells."""

from __future__ import annotations

import math

import numpy as np
import pytest
from sample import refitted, sample_catalog, sample_facts, with_entry
from swept_lines import SWEPT_HZ, cable, facts_of, one_port, pair, plan_of, two_port

from rfplan.analysis.sweeps import (
    SweepError,
    SweptPath,
    down_db,
    not_covered,
    reflection,
    scattering,
    transmission,
)
from rfplan.model.catalog import LossSet
from rfplan.model.record import ById
from rfplan.model.sweep import Sweep
from rfplan.physics.two_port import chain_abcd

LINE = chain_abcd(SWEPT_HZ, [pair(1.2), cable(2.0), pair(1.5)])


def test_a_sweep_against_75_ohm_says_the_same_as_one_against_50() -> None:
    at_75, at_50 = two_port(LINE, reference_ohm=75.0), two_port(LINE)
    assert not np.allclose(at_75.s, at_50.s, atol=1e-3)
    np.testing.assert_allclose(scattering(at_75), scattering(at_50), atol=1e-12)


def test_s11_is_what_comes_back_and_s21_what_goes_through() -> None:
    sweep = Sweep((1.0e9,), ((0.1 + 0j, 0.2 + 0j, 0.3 + 0j, 0.4 + 0j),), 50.0, "a.s2p", 2)
    assert reflection(sweep) == pytest.approx([0.1])
    assert transmission(sweep) == pytest.approx([0.3])


def test_nothing_went_through_a_one_port() -> None:
    with pytest.raises(SweepError, match=r"a\.s1p was swept from one end"):
        transmission(one_port(LINE, 50.0))


def test_a_wave_that_vanishes_is_told_as_120_db_down() -> None:
    assert down_db(np.array([1.0 + 0j, 0.1j, 0.0])).tolist() == pytest.approx([0.0, 20.0, 120.0])


@pytest.mark.parametrize(
    ("band_mhz", "said"),
    [
        ((800.0, 1800.0), ""),
        ((1575.42, 1575.42), ""),
        ((799.0, 1000.0), "the sweep lists 800 to 1800 MHz; the band needs 799 to 1000 MHz"),
        ((1800.5, 1800.5), "the sweep lists 800 to 1800 MHz; the band needs 1800.5 MHz"),
    ],
)
def test_a_band_is_told_of_only_where_the_sweep_covers_all_of_it(
    band_mhz: tuple[float, float], said: str
) -> None:
    assert not_covered(np.array(band_mhz) * 1.0e6, SWEPT_HZ) == said


def test_a_pigtail_belongs_to_the_antenna_and_not_to_what_is_swept() -> None:
    pigtail = ById({"nominal": LossSet(0.3, source="sheet")})
    catalog = with_entry(sample_catalog(), "antennas", "gnss_active", pigtail=pigtail)
    facts = sample_facts(plan_of(2.0), catalog)
    kinds = [element.kind for element in facts.chains["gnss1"].elements]
    assert kinds == ["mated_pair", "cable", "mated_pair", "adapter"]
    assert [element.kind for element in SweptPath(facts, "gnss1").chain.elements] == kinds[:-1]


def test_the_electrical_length_is_length_over_velocity() -> None:
    assert SweptPath(facts_of(2.0), "gnss1").electrical_length_m == pytest.approx(2.0 / 0.695)


def test_the_electrical_length_of_an_unknown_cable_is_not_known() -> None:
    unknown = refitted(plan_of(2.0), "cables", "w11", type="?")
    assert math.isnan(SweptPath(sample_facts(unknown), "gnss1").electrical_length_m)
    assert SweptPath(sample_facts(unknown), "com1").electrical_length_m > 0.0
