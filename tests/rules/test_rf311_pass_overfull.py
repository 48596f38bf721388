# SPDX-License-Identifier: Apache-2.0
"""RF311: nodes with more cables than passes."""

from __future__ import annotations

from dataclasses import replace

import pytest
from rooms import findings
from sample import refitted, sample_plan, with_airframe

from rfplan.model.findings import Verdict
from rfplan.model.plan import Part, Plan
from rfplan.model.record import ById


def with_passes(node: str, passes: int) -> Plan:
    """Return the sample with so many passes at a node."""
    route = sample_plan().airframe.route
    nodes = route.nodes.having(node, replace(route.nodes[node], passes=passes))
    return with_airframe(sample_plan(), route=replace(route, nodes=nodes))


def test_a_node_with_as_many_passes_as_cables_is_fine() -> None:
    assert findings("RF311") == []
    assert findings("RF311", with_passes("apl", 1)) == []


def test_a_node_with_more_cables_than_passes_fails_and_names_them() -> None:
    # w21 is sent through apl too
    plan = refitted(with_passes("apl", 1), "cables", "w21", via=("apl",))
    (one,) = findings("RF311", plan)
    assert one.objects == ("apl", "w11", "w21")
    assert (one.value, one.limit, one.verdict) == (2.0, 1.0, Verdict.FAIL)
    assert "invented sheet" in one.source


def test_a_cable_that_ends_at_a_node_does_not_pass_it() -> None:
    assert findings("RF311", with_passes("rf1", 1)) == []


@pytest.mark.parametrize(("passes", "count"), [(1, 1), (2, 0)])
def test_a_part_takes_a_pass_like_a_cable(passes: int, count: int) -> None:
    plan = with_passes("apl", passes)
    parts = ById({"bulk": Part("tnc_through", "apl")})
    plan = replace(plan, design=replace(plan.design, parts=parts))
    assert len(findings("RF311", plan)) == count
