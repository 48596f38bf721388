# SPDX-License-Identifier: Apache-2.0
"""RF411: the most an antenna draws against what the parts of its line are made for."""

from __future__ import annotations

from dataclasses import replace

import pytest
from amplified import amplified_catalog, amplified_plan
from rooms import findings
from sample import with_entry

from rfplan.model.findings import Finding, Verdict
from rfplan.model.plan import Part, Path
from rfplan.model.record import ById


def found(current_a: float | None, dc: str = "pass") -> list[Finding]:
    plan = amplified_plan()
    there = plan.installation
    fitted = replace(
        there,
        parts=ById({"pad1": Part("pad_3db", "p1")}),
        paths=there.paths.having("gnss1", Path(("nav1.gnss", "pad1", "w11", "gnss1"))),
    )
    catalog = with_entry(
        amplified_catalog(),
        "inline_parts",
        "pad_3db",
        current_a=current_a,
        dc=dc,
        resistance_ohm=0.1,
    )
    return findings("RF411", replace(plan, design=fitted), catalog)


@pytest.mark.parametrize("current_a", [None, 0.045, 0.250])
def test_a_part_made_for_the_current_or_silent_is_fine(current_a: float | None) -> None:
    assert found(current_a) == []


def test_a_part_made_for_less_fails_with_both_currents() -> None:
    (one,) = found(0.030)
    assert (one.verdict, one.objects, one.unit) == (Verdict.FAIL, ("pad1",), "A")
    assert (one.value, one.limit) == (0.045, 0.030)


def test_a_part_that_blocks_carries_nothing() -> None:
    assert found(0.030, dc="block") == []
