# SPDX-License-Identifier: Apache-2.0
"""What to measure first: by the verdicts that hang on it, then by the spread that it takes away."""

from __future__ import annotations

from typing import Any

import pytest
from amplified import amplified_catalog, amplified_plan
from sample import (
    refitted,
    sample_catalog,
    sample_facts,
    sample_plan,
    with_entry,
    with_port,
)

from rfplan.assess import assess
from rfplan.model.catalog import Catalog
from rfplan.model.electrical import Decider
from rfplan.model.plan import Plan
from rfplan.model.record import ById
from rfplan.rules.what_to_measure import what_to_measure
from rfplan.units import UNKNOWN, Range


def told(plan: Plan, catalog: Catalog | None = None) -> dict[str, Decider]:
    facts = sample_facts(plan, catalog)
    assessment = assess(facts.plan, facts.catalog, facts.rulebook)
    found = what_to_measure(facts, assessment)
    return {f"{one.object}.{one.field}": one for one in found}


def most_db(plan: Plan, catalog: Catalog | None = None) -> float:
    facts = sample_facts(plan, catalog)
    return float(facts.budgets["gnss1"][0].most.max())


def test_where_all_passes_nothing_is_settled_and_the_widest_comes_first() -> None:
    deciders = list(told(sample_plan()).values())
    assert deciders
    assert all(one.resolves == () for one in deciders)
    spreads = [one.spread_db or 0.0 for one in deciders]
    assert spreads == sorted(spreads, reverse=True)


@pytest.mark.parametrize("short_db", [0.10, 1.0])
def test_a_figure_whose_spread_decides_a_failure_is_named_with_it(short_db: float) -> None:
    plan = with_port(
        sample_plan(),
        "nav1",
        "gnss",
        loss_db=ById({"all": Range(0.1, most_db(sample_plan()) - short_db)}),
    )
    one = told(plan)["coax_5mm.loss"]
    expected = ("gnss1 loss rx FAIL-HIGH",) if short_db < 0.15 else ()
    assert one.resolves == expected


def test_one_cable_type_settles_all_the_paths_that_use_it() -> None:
    plan = sample_plan()
    for unit, port, id in (("nav1", "gnss", "gnss1"), ("nav1", "com", "com1")):
        most = float(sample_facts(plan).budgets[id][0].most.max())
        plan = with_port(plan, unit, port, loss_db=ById({"all": Range(0.1, most - 0.02)}))
    one = next(iter(told(plan).values()))
    assert (one.object, one.field) == ("coax_5mm", "loss")
    assert {name.split()[0] for name in one.resolves} == {"gnss1", "com1"}


def test_an_unknown_comes_with_every_verdict_that_it_blocks() -> None:
    plan = refitted(sample_plan(), "cables", "w21", type="?")
    one = told(plan)["w21.type"]
    assert one.resolves == ("com1 loss rx INCOMPLETE", "com1 loss tx INCOMPLETE")
    assert one.spread_db is None
    assert "is not known" in one.text
    assert next(iter(told(plan).values())) == one


def test_an_unknown_limit_is_named_by_its_port() -> None:
    plan = with_port(sample_plan(), "nav1", "com", loss_db=ById({"all": Range(UNKNOWN, 2.5)}))
    assert "nav1.com.loss" in told(plan)


def test_a_length_that_is_only_estimated_is_worth_a_tape() -> None:
    plan = refitted(sample_plan(), "cables", "w11", drops_m=None)
    assert "w11.length" in told(plan)
    assert "w11.length" not in told(sample_plan())


def test_a_net_gain_that_hangs_on_a_loss_is_a_verdict_too() -> None:
    plan = amplified_plan()
    facts = sample_facts(plan, amplified_catalog())
    net_db = facts.gains["gnss1"][0].net_db[0]
    tight = amplified_plan(net_gain_db=ById({"all": Range(net_db + 0.05, 40.0)}))
    one = told(tight, amplified_catalog())["coax_5mm.loss"]
    assert one.resolves == ("gnss1 net gain rx FAIL",)


def test_a_spread_that_no_instrument_would_see_is_left_out() -> None:
    exact: dict[str, Any] = {}
    for series in ("tnc", "bnc"):
        entry = sample_catalog().connectors[series]
        exact[series] = entry.loss
    catalog = sample_catalog()
    for series, loss in exact.items():
        known = ById((name, type(one)(one.loss_db, source="sheet")) for name, one in loss.items())
        catalog = with_entry(catalog, "connectors", series, loss=known)
    assert "tnc.loss" not in told(sample_plan(), catalog)
    assert "tnc.loss" in told(sample_plan())
