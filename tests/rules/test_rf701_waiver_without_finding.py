# SPDX-License-Identifier: Apache-2.0
"""RF701: waivers that speak of nothing."""

from __future__ import annotations

from dataclasses import replace
from typing import Any

from rooms import findings
from sample import place, refitted, sample_plan

from rfplan.model.findings import Verdict
from rfplan.model.plan import FindingRef, Plan, State, Waiver
from rfplan.model.record import ById


def waived(plan: Plan, **changes: Any) -> Plan:
    """Return a plan with a waiver of the spacing of GNSS and COM antenna."""
    waiver = Waiver(FindingRef("RF501", ("gnss1", "com1")), "checked", "A. Three")
    return replace(plan, waivers=ById({"v1": replace(waiver, **changes)}))


def too_near() -> Plan:
    """Return the sample with both antennas 20 in apart."""
    return refitted(sample_plan(), "antennas", "com1", at=place(100, 0))


def test_a_waiver_with_a_finding_is_fine_in_whatever_order_it_names_things() -> None:
    assert findings("RF701", waived(too_near())) == []


def test_a_waiver_without_a_finding_is_named() -> None:
    (one,) = findings("RF701", waived(sample_plan()))
    assert one.objects == ("v1",)
    assert one.verdict is Verdict.ADVICE
    assert one.text == "waiver v1 speaks of RF501 for gnss1 and com1, which is not found"


def test_a_waiver_of_other_things_or_another_rule_does_not_answer() -> None:
    for reference in (FindingRef("RF501", ("gnss1",)), FindingRef("RF502", ("gnss1", "com1"))):
        assert len(findings("RF701", waived(too_near(), finding=reference))) == 1


def test_a_waiver_of_another_state_is_not_looked_at() -> None:
    assert findings("RF701", waived(sample_plan(), state=State.BUILT)) == []
