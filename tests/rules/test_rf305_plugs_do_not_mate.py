# SPDX-License-Identifier: Apache-2.0
"""RF305: connectors of different series."""

from __future__ import annotations

from rooms import findings
from sample import refitted, sample_plan

from rfplan.model.findings import Verdict
from rfplan.model.rulebook import Strictness


def test_connectors_of_one_series_are_fine() -> None:
    assert findings("RF305") == []


def test_connectors_of_two_series_fail_and_both_are_named() -> None:
    (one,) = findings("RF305", refitted(sample_plan(), "cables", "w21", plugs=("bnc", "tnc")))
    assert one.objects == ("com1",)
    assert (one.strictness, one.verdict) == (Strictness.REQUIRED, Verdict.FAIL)
    assert one.text == "com1: tnc does not mate with bnc"
    assert "MIL-PRF-39012" in one.source


def test_a_plug_not_yet_known_is_no_mistake() -> None:
    assert findings("RF305", refitted(sample_plan(), "cables", "w21", plugs=("bnc", "?"))) == []
