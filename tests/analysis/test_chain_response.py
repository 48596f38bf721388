# SPDX-License-Identifier: Apache-2.0
"""A path over frequency: its loss is that of the budget, and reflections stay in their bounds."""

from __future__ import annotations

import time
from dataclasses import replace

import numpy as np
import pytest
from sample import refitted, sample_catalog, sample_facts, sample_plan, with_entry, with_port

from rfplan.analysis.chain_response import POINTS, finer, response
from rfplan.analysis.cross_check import cross_check
from rfplan.analysis.element_loss import LossBook
from rfplan.analysis.facts import Facts
from rfplan.analysis.two_ports import chain_parts
from rfplan.model.catalog import Catalog
from rfplan.model.electrical import BandResponse
from rfplan.physics.chain import chain_loss_db
from rfplan.physics.mismatch import mismatch_bounds_db, reflection_ratio, vswr_from_reflection
from rfplan.units import Toleranced


def with_vswr(vswr: float | None = 2.0) -> Catalog:
    catalog = sample_catalog()
    for id in ("gnss_active", "com_whip", "xpdr_stub"):
        catalog = with_entry(catalog, "antennas", id, vswr=vswr)
    return catalog


def first(facts: Facts, id: str) -> BandResponse:
    found = response(facts, id)
    assert found is not None
    return found.bands[0]


def odd(catalog: Catalog, ohm: float = 75.0) -> Catalog:
    return with_entry(catalog, "cables", "coax_5mm", impedance_ohm=Toleranced(ohm, 2.0))


def test_at_50_ohm_the_loss_is_the_nominal_of_the_budget_and_nothing_is_added() -> None:
    facts = sample_facts(catalog=with_vswr())
    for id in facts.chains:
        for band, budget in zip(response(facts, id).bands, facts.budgets[id], strict=True):  # type: ignore[union-attr]
            nominal = budget.nominal
            assert band.loss_db == pytest.approx((nominal.min(), nominal.max()), abs=2e-4)
            assert band.steps_db == (pytest.approx(0.0, abs=1e-12),) * 2


def test_the_unit_sees_the_antenna_through_twice_the_loss() -> None:
    facts = sample_facts(catalog=with_vswr(3.0))
    band = first(facts, "com1")
    seen = [
        float(vswr_from_reflection(reflection_ratio(3.0) * 10 ** (-2 * loss / 20)))
        for loss in reversed(band.loss_db)
    ]
    assert band.input_vswr == pytest.approx(tuple(seen), rel=1e-6)


def test_delivered_loss_lies_within_the_bounds_of_both_reflections() -> None:
    plan = with_port(sample_plan(), "nav1", "com", vswr=1.5)
    band = first(sample_facts(plan, with_vswr(2.5)), "com1")
    low = mismatch_bounds_db(1.5, 2.5, band.loss_db[0]).low_db
    high = mismatch_bounds_db(1.5, 2.5, band.loss_db[1]).high_db
    assert band.delivered_db is not None
    assert band.delivered_db[0] == pytest.approx(float(low), abs=0.01)
    assert band.delivered_db[1] == pytest.approx(float(high), abs=0.01)
    assert band.swing_db is not None
    assert 0.0 < band.swing_db <= band.delivered_db[1] - band.delivered_db[0] + 1e-9


def test_the_least_delivered_power_takes_the_worst_of_everything() -> None:
    facts = sample_facts(catalog=with_vswr(2.0))
    sent = response(facts, "xpdr1")
    assert sent is not None
    received, transmitted = sent.bands
    most = float(facts.budgets["xpdr1"][1].most.max())
    high = float(mismatch_bounds_db(1.0, 2.0, most).high_db)
    assert received.delivered_w is None
    assert transmitted.delivered_w == pytest.approx(200.0 * 10 ** (-high / 10))


def test_an_antenna_that_states_no_vswr_leaves_its_lines_empty() -> None:
    band = first(sample_facts(), "com1")
    assert (band.input_vswr, band.delivered_db, band.swing_db) == (None, None, None)
    assert band.delivered_w is None


def test_a_cable_of_another_impedance_makes_ripple() -> None:
    catalog = odd(with_vswr())
    band = first(sample_facts(catalog=catalog), "com1")
    assert band.steps_db[1] > 0.3
    assert band.steps_db[1] - band.steps_db[0] > 0.1
    assert cross_check(sample_facts(catalog=catalog)).largest_db < 1e-9


def test_one_frequency_stays_one_point() -> None:
    facts = sample_facts()
    assert first(facts, "xpdr1").points == 1
    assert first(facts, "com1").points == POINTS
    assert len(finer(facts.budgets["com1"][0].grid, 33).frequency_hz) == 33


def test_a_path_that_is_not_known_has_no_response() -> None:
    plan = refitted(sample_plan(), "cables", "w21", type="?")
    facts = sample_facts(plan)
    assert response(facts, "com1") is None
    assert response(facts, "gnss1") is not None


def test_the_chain_of_every_path_agrees_with_scikit_rf() -> None:
    pytest.importorskip("skrf")
    checked = cross_check(sample_facts())
    assert checked.chains == 5
    assert checked.largest_db < 1e-9


def test_the_cross_check_sees_a_chain_that_decides_otherwise(
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    pytest.importorskip("skrf")
    monkeypatch.setattr(
        "rfplan.analysis.cross_check.chain_loss_db", lambda f, parts: np.full(f.shape, 9.0)
    )
    assert cross_check(sample_facts()).largest_db > 5.0


def test_the_chain_of_a_path_over_201_points_takes_a_fifth_of_a_millisecond() -> None:
    facts = sample_facts(catalog=odd(with_vswr()))
    grid = finer(facts.budgets["com1"][0].grid, 201)
    book = LossBook(facts.catalog, facts.plan.policy)
    parts = chain_parts(facts, facts.chains["com1"], grid, book)
    laps = []
    for _ in range(30):
        start = time.perf_counter()
        chain_loss_db(grid.frequency_hz, parts)
        laps.append(time.perf_counter() - start)
    assert min(laps) < 0.2e-3


def test_parts_are_matched_losses_whatever_vswr_their_series_may_have() -> None:
    catalog = sample_catalog()
    for series in ("tnc", "bnc"):
        entry = catalog.connectors[series]
        having = catalog.connectors.having(series, replace(entry, vswr=1.3))
        catalog = replace(catalog, connectors=having)
    assert first(sample_facts(catalog=catalog), "com1").steps_db[1] == pytest.approx(0.0, abs=1e-12)
