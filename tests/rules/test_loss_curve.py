# SPDX-License-Identifier: Apache-2.0
from __future__ import annotations

from dataclasses import replace

import numpy as np
import pytest
from demo_plans import EVERY_STATE, assessed, path_of, plan_of
from plan_files import shipped_catalog, shipped_rulebook
from sample import MHZ, sample_facts, sample_plan

from rfplan.analysis.facts import Facts, gather
from rfplan.model.plan import Policy, StackUp, State
from rfplan.rules.loss_curve import loss_at, loss_curve, span_hz
from rfplan.units import UNKNOWN


def demo_facts(demo: str, state: State, stack: StackUp = StackUp.WORST_CASE) -> Facts:
    plan = plan_of(demo, state)
    stacked = replace(plan, policy=replace(plan.policy, stack=stack))
    return gather(stacked, shipped_catalog(), shipped_rulebook())


@pytest.mark.parametrize(("demo", "state"), EVERY_STATE)
def test_over_the_frequencies_of_a_band_the_curve_is_what_is_judged(
    demo: str, state: State
) -> None:
    facts, assessment = demo_facts(demo, state), assessed(demo, state)
    for path in assessment.paths:
        for band, budget in zip(path.bands, facts.budgets[path.id], strict=True):
            curve = loss_curve(facts, path.id, budget.grid.frequency_hz)
            for end, judged in zip(
                (curve.least_db.min(), curve.most_db.max()), band.judged_db, strict=True
            ):
                assert judged is None or end == pytest.approx(judged, abs=1e-12)
            assert (band.judged_db[1] is None) == bool(np.isinf(curve.most_db.max()))


@pytest.mark.parametrize("stack", StackUp)
def test_the_curve_follows_the_stack_up_of_the_plan(stack: StackUp) -> None:
    plan = replace(sample_plan(), policy=Policy(stack=stack))
    facts = sample_facts(plan)
    (budget,) = facts.budgets["gnss1"]
    curve = loss_curve(facts, "gnss1", budget.grid.frequency_hz)
    band = loss_at(facts, "gnss1", "rx", float(budget.grid.frequency_hz[7]))
    assert band.judged_db == (
        pytest.approx(curve.least_db[7], abs=1e-12),
        pytest.approx(curve.most_db[7], abs=1e-12),
    )


@pytest.mark.parametrize("demo", ["amphibian", "twin"])
def test_a_frequency_is_judged_as_its_band_is(demo: str) -> None:
    facts, assessment = demo_facts(demo, State.DESIGN), assessed(demo)
    for path in assessment.paths:
        for band in path.bands:
            low, high = (loss_at(facts, path.id, band.name, f) for f in (band.low_hz, band.high_hz))
            assert low.window == high.window == band.window
            for side in (0, 1):
                known = [one.judged_db[side] for one in (low, high)]
                if None not in (*known, band.judged_db[side]):
                    inside = min if side == 0 else max
                    assert inside(known) == pytest.approx(band.judged_db[side], abs=2e-2)  # type: ignore[type-var]


def test_the_elements_at_a_frequency_add_up_to_its_loss() -> None:
    facts = sample_facts()
    band = loss_at(facts, "gnss1", "rx", 1575.42 * MHZ)
    assert sum(item[2] or 0.0 for item in band.item_db) == pytest.approx(band.judged_db[1])
    assert (band.low_hz, band.high_hz) == (1575.42 * MHZ, 1575.42 * MHZ)


def test_the_loss_of_a_line_rises_with_frequency() -> None:
    facts = sample_facts()
    curve = loss_curve(facts, "com1", np.linspace(100.0, 400.0, 61) * MHZ)
    assert (np.diff(curve.most_db) > 0.0).all()
    assert (curve.least_db < curve.most_db).all()


def test_frequencies_beyond_the_reach_of_a_table_are_left_out() -> None:
    facts = sample_facts()
    wide = np.array([1.0, 10.0, 100.0, 3900.0, 4100.0]) * MHZ  # the table ends at 2 GHz
    curve = loss_curve(facts, "com1", wide)
    assert curve.frequency_hz.tolist() == [10.0 * MHZ, 100.0 * MHZ, 3900.0 * MHZ]
    assert np.isfinite(curve.most_db).all()
    assert curve.unknown == ()


def test_an_unknown_length_leaves_the_most_open_and_is_named() -> None:
    plan = sample_plan()
    cable = replace(plan.design.cables["w11"], length_m=UNKNOWN)
    cables = plan.design.cables.having("w11", cable)
    facts = sample_facts(replace(plan, design=replace(plan.design, cables=cables)))
    curve = loss_curve(facts, "gnss1", np.array([1500.0, 1600.0]) * MHZ)
    assert np.isinf(curve.most_db).all()
    assert curve.unknown == ("w11.length",)


def test_a_curve_goes_on_beside_its_bands() -> None:
    com, transponder, both = (
        path_of(assessed("amphibian"), id) for id in ("com1", "xpdr", "gnss3")
    )
    assert span_hz(com.bands) == pytest.approx((105.23e6, 149.74e6), rel=1e-3)
    assert span_hz(transponder.bands) == pytest.approx((924e6, 1196e6))
    low, high = span_hz(both.bands)
    assert low < min(band.low_hz for band in both.bands)
    assert high > max(band.high_hz for band in both.bands)


def test_a_curve_of_a_band_of_low_frequencies_stays_above_zero() -> None:
    (band,) = path_of(assessed("twin"), "adf").bands
    low, high = span_hz([replace(band, low_hz=190.0e3, high_hz=1750.0e3)])
    assert (low, high) == (95.0e3, pytest.approx(2140.0e3))
