# SPDX-License-Identifier: Apache-2.0
"""RF102: antennas without a path."""

from __future__ import annotations

from rooms import findings
from sample import place, sample_plan, with_antenna

from rfplan.model.findings import Verdict
from rfplan.model.plan import Antenna


def test_antennas_with_a_path_are_fine() -> None:
    assert findings("RF102") == []


def test_an_antenna_without_a_path_is_named() -> None:
    spare = Antenna("gnss_active", "top", place(170, 0), source="sheet")
    (one,) = findings("RF102", with_antenna(sample_plan(), "gnss2", spare))
    assert one.objects == ("gnss2",)
    assert one.verdict is Verdict.ADVICE
    assert one.source == "Common practice"
