# SPDX-License-Identifier: Apache-2.0
"""RF307: paths that back each other up on one way."""

from __future__ import annotations

from rooms import findings
from sample import refitted, sample_plan

from rfplan.model.findings import Verdict
from rfplan.model.plan import Plan


def backed_up(**changes: object) -> Plan:
    """Return the sample in which com1 backs gnss1 up."""
    plan = refitted(sample_plan(), "paths", "com1", redundant="gnss1")
    return refitted(plan, "cables", "w21", **changes)


def test_paths_on_ways_of_their_own_are_fine() -> None:
    assert findings("RF307", backed_up()) == []


def test_paths_that_share_a_segment_are_named_once() -> None:
    plan = backed_up(via=("apl", "p1", "apr"))
    plan = refitted(plan, "paths", "gnss1", redundant="com1")
    (one,) = findings("RF307", plan)
    assert set(one.objects) == {"com1", "gnss1"}
    assert one.text == "com1 and gnss1 share apl-p1"
    assert one.verdict is Verdict.ADVICE


def test_paths_that_do_not_back_each_other_up_may_share() -> None:
    plan = refitted(sample_plan(), "cables", "w21", via=("apl", "p1", "apr"))
    assert findings("RF307", plan) == []
