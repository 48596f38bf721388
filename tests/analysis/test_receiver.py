# SPDX-License-Identifier: Apache-2.0
"""Net gain and noise of a receiver, band by band, at the worst corners."""

from __future__ import annotations

import math
from dataclasses import replace

import numpy as np
import pytest
from amplified import amplified_catalog, amplified_plan
from sample import refitted, sample_facts, sample_plan, sample_rulebook, with_port, with_radio

from rfplan.analysis.receiver import ZERO_C_IN_K, Gain, line_loss_db, of_band
from rfplan.model.catalog import Catalog
from rfplan.model.plan import Plan
from rfplan.model.record import ById
from rfplan.model.rulebook import Band, Carrier, Rulebook
from rfplan.physics.noise import cascade_noise_figure_db, passive_noise_figure_db
from rfplan.units import NONE, Range


def rules() -> Rulebook:
    band = Band("rx", 1563.42e6, 1587.42e6, Carrier(-128.5, "INVENTED"))
    return with_radio(sample_rulebook(), "gnss_l1", bands=ById({"l1": band}))


def gain(plan: Plan | None = None, catalog: Catalog | None = None) -> Gain:
    facts = sample_facts(plan or amplified_plan(), catalog or amplified_catalog(), rules())
    return facts.gains["gnss1"][0]


def test_only_paths_that_speak_of_gain_have_one() -> None:
    assert set(sample_facts(amplified_plan(), amplified_catalog()).gains) == {"gnss1"}
    assert set(sample_facts().gains) == set()


def test_the_worst_corners_are_crossed() -> None:
    facts = sample_facts(amplified_plan(), amplified_catalog(), rules())
    least, most = line_loss_db(facts.chains["gnss1"], facts.budgets["gnss1"][0])
    assert gain().net_db == pytest.approx((26.0 - most, 32.0 - least))
    assert gain().band == "l1"


def test_pairs_that_the_loss_window_leaves_out_still_cost_gain() -> None:
    counted, excluded = (gain(amplified_plan(plugs=p)) for p in ("included", "excluded"))
    assert excluded.net_db == pytest.approx(counted.net_db)


def test_the_noise_is_that_of_amplifier_hot_line_and_receiver() -> None:
    facts = sample_facts(amplified_plan(), amplified_catalog(), rules())
    most = line_loss_db(facts.chains["gnss1"], facts.budgets["gnss1"][0])[1]
    line = float(passive_noise_figure_db(most, 70.0 + ZERO_C_IN_K))
    expected = cascade_noise_figure_db(np.array([2.5, line, 4.0]), np.array([26.0, -most, 0.0]))
    noise = gain().noise
    assert noise is not None
    assert noise.figure_db == pytest.approx(float(expected))
    assert noise.system_k == pytest.approx(100.0 + 290.0 * (10 ** (noise.figure_db / 10) - 1))
    density_dbm = 10 * math.log10(1.380649e-23 * noise.system_k) + 30.0
    assert noise.cn0_dbhz == pytest.approx(-128.5 - 4.5 - density_dbm)


def test_a_longer_line_behind_an_amplifier_hardly_costs_carrier_to_noise() -> None:
    near = gain().noise
    far = gain(refitted(amplified_plan(), "cables", "w11", length_m=8.0)).noise
    assert near is not None
    assert far is not None
    assert near.cn0_dbhz is not None
    assert far.cn0_dbhz is not None
    assert 0.0 < near.cn0_dbhz - far.cn0_dbhz < 0.2


@pytest.mark.parametrize("unknown", ["amplifier_db", "noise_figure_db"])
def test_without_gain_or_figure_there_is_no_noise(unknown: str) -> None:
    assert gain(catalog=amplified_catalog(**{unknown: ById()})).noise is None


def test_an_unknown_gain_is_anything_and_is_named() -> None:
    one = gain(catalog=amplified_catalog(amplifier_db=ById()))
    assert one.net_db == (-math.inf, math.inf)
    assert one.unknown_least == one.unknown_most == ("gnss_active.amplifier",)


def test_no_amplifier_is_a_statement_and_not_an_unknown() -> None:
    one = gain(catalog=amplified_catalog(amplifier_db=ById({"all": Range(NONE, NONE)})))
    assert one.passive
    assert one.unknown_least == ()
    assert one.net_db[0] < one.net_db[1] < 0.0


def test_an_unknown_cable_leaves_the_upper_end_known() -> None:
    one = gain(refitted(amplified_plan(), "cables", "w11", type="?"))
    assert one.net_db[0] == -math.inf
    assert one.net_db[1] == pytest.approx(32.0 - 0.08, abs=0.1)
    assert "w11.type" in one.unknown_least


def test_a_table_by_band_is_read_for_its_band_for_all_or_for_the_only_one() -> None:
    l1, l5 = Range(1.0, 2.0), Range(3.0, 4.0)
    assert of_band(ById({"l1": l1, "l5": l5}), "l5") == l5
    assert of_band(ById({"all": l1, "l5": l5}), "l1") == l1
    assert of_band(ById({"l1": l1}), "l5") is None
    assert of_band(ById({"l1": l1}), "stated") == l1
    assert of_band(ById({"l1": l1, "l5": l5}), "stated") is None


def test_a_port_that_states_its_band_takes_the_only_signal_of_its_radio() -> None:
    plan = with_port(amplified_plan(), "nav1", "gnss", band_hz=Range(1570e6, 1580e6))
    one = gain(plan)
    assert one.band == "stated"
    assert one.noise is not None
    assert one.noise.carrier is not None


def test_a_band_that_only_sends_has_no_gain() -> None:
    rulebook = with_radio(
        sample_rulebook(),
        "gnss_l1",
        bands=ById({"up": Band("tx", 1.6e9, 1.61e9), "down": Band("rx", 1.56e9, 1.57e9)}),
    )
    facts = sample_facts(amplified_plan(), amplified_catalog(), rulebook)
    assert [one.band for one in facts.gains["gnss1"]] == ["down"]


def test_policy_tells_what_the_antenna_hears() -> None:
    quiet = replace(amplified_plan().policy, antenna_noise_k=50.0)
    one = gain(amplified_plan(sample_plan(policy=quiet))).noise
    assert one is not None
    usual = gain().noise
    assert usual is not None
    assert one.system_k == pytest.approx(usual.system_k - 50.0)
