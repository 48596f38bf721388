# SPDX-License-Identifier: Apache-2.0
"""RF101: ports without a path."""

from __future__ import annotations

from dataclasses import replace

from rooms import findings
from sample import sample_plan, sample_unit

from rfplan.model.findings import Verdict
from rfplan.model.plan import Plan, Port
from rfplan.model.rulebook import Strictness


def with_spare(**changes: bool) -> Plan:
    """Return the sample with a unit whose port nobody uses."""
    plan = sample_plan()
    spare = sample_unit(ant=Port("gnss_l1", source="sheet", **changes))  # type: ignore[arg-type]
    units = plan.design.units.having("nav2", spare)
    return replace(plan, design=replace(plan.design, units=units))


def test_every_port_with_a_path_or_said_to_be_unused_is_fine() -> None:
    assert findings("RF101") == []
    assert findings("RF101", with_spare(unused=True)) == []


def test_a_port_without_a_path_is_named() -> None:
    (one,) = findings("RF101", with_spare())
    assert one.objects == ("nav2.ant",)
    assert (one.strictness, one.verdict) == (Strictness.ADVICE, Verdict.ADVICE)
    assert one.source_class == "common practice"
    assert one.text == "nav2.ant is in no path"
