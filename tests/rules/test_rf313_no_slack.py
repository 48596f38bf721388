# SPDX-License-Identifier: Apache-2.0
"""RF313: new cables without allowance for another end."""

from __future__ import annotations

from rooms import findings
from sample import inch, refitted, sample_plan

from rfplan.model.findings import Verdict


def test_cables_with_an_allowance_are_fine_and_none_is_one_that_was_thought_of() -> None:
    assert findings("RF313") == []
    assert findings("RF313", refitted(sample_plan(), "cables", "w11", retermination_m=0.0)) == []


def test_a_routed_cable_without_allowance_is_named() -> None:
    (one,) = findings("RF313", refitted(sample_plan(), "cables", "w11", retermination_m=None))
    assert one.objects == ("w11",)
    assert one.verdict is Verdict.ADVICE
    assert "11-118" in one.source


def test_a_cable_that_lies_already_is_not_asked() -> None:
    there = {"retermination_m": None, "length_m": inch(91)}
    assert findings("RF313", refitted(sample_plan(), "cables", "w11", **there)) == []
