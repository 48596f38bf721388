# SPDX-License-Identifier: Apache-2.0
"""RF601: the empty CG against the range of the airframe data."""

from __future__ import annotations

from dataclasses import replace
from typing import Any

import pytest
from sample import inch, sample_catalog, sample_facts, sample_plan, with_airframe, with_entry

from rfplan.model.findings import Finding, Verdict
from rfplan.model.plan import Plan, StatedMass
from rfplan.model.record import ById
from rfplan.rules.rf601_cg_outside_limits import check
from rfplan.units import NONE, Range


def weighing(**changes: Any) -> Plan:
    plan = sample_plan()
    assert plan.airframe.weight is not None
    return with_airframe(plan, weight=replace(plan.airframe.weight, **changes))


def found(plan: Plan, **facts: Any) -> list[Finding]:
    return list(check(sample_facts(plan, facts.get("catalog"))))


def test_a_cg_inside_its_range_is_not_mentioned() -> None:
    assert found(sample_plan()) == []


@pytest.mark.parametrize(
    ("ends", "limit", "side"), [((90.0, 94.0), 94.0, "aft of"), ((95.0, 99.0), 95.0, "ahead of")]
)
def test_a_cg_outside_is_found_with_value_and_limit(
    ends: tuple[float, float], limit: float, side: str
) -> None:
    (finding,) = found(weighing(limits_m=Range(*inch(*ends))))
    assert finding.verdict is Verdict.FAIL
    assert finding.limit == pytest.approx(inch(limit))
    assert finding.value == sample_facts().weight.cg_m
    assert side in finding.text
    assert finding.source == "invented sheet issue 1 (specification, invented)"


def test_a_range_without_a_source_or_an_end_decides_nothing() -> None:
    beyond = Range(*inch(90.0, 94.0))
    assert found(weighing(limits_m=beyond, source=None)) == []
    assert found(weighing(limits_m=None)) == []
    assert found(weighing(limits_m=Range(inch(90.0), NONE))) == []
    assert found(with_airframe(sample_plan(), weight=None)) == []


def test_a_limit_that_is_met_exactly_passes() -> None:
    cg_m = sample_facts().weight.cg_m
    assert cg_m is not None
    assert found(weighing(limits_m=Range(cg_m, cg_m))) == []


def test_a_missing_mass_leaves_it_open() -> None:
    catalog = with_entry(sample_catalog(), "connectors", "tnc", mass_kg=None)
    (finding,) = found(weighing(limits_m=Range(*inch(90.0, 94.0))), catalog=catalog)
    assert finding.verdict is Verdict.INCOMPLETE


@pytest.mark.parametrize(
    ("least_in", "verdicts"),
    [(94.61, [Verdict.FAIL]), (94.6038, [Verdict.INCOMPLETE]), (94.60, [])],
)
def test_bounds_decide_where_both_ends_say_the_same(
    least_in: float, verdicts: list[Verdict]
) -> None:
    # whatever the plugs weigh the CG lies between 94.6036 and 94.6040 in
    catalog = with_entry(sample_catalog(), "connectors", "tnc", mass_kg=None)
    plan = weighing(limits_m=Range(*inch(least_in, 99.0)))
    plan = replace(plan, masses=ById({"tnc": StatedMass(Range(0.010, 0.011), "sheet")}))
    told = found(plan, catalog=catalog)
    assert [one.verdict for one in told] == verdicts
    within_m = sample_facts(plan, catalog).weight.cg_within_m
    assert within_m is not None
    assert all(one.value == within_m[0] for one in told)
