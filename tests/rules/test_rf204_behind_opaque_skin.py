# SPDX-License-Identifier: Apache-2.0
"""RF204: inside antennas under skin that holds radio waves back."""

from __future__ import annotations

import pytest
from rooms import assert_same_everywhere, findings, room_of
from sample import inch, place, refitted, sample_facts, sample_plan, with_airframe

from rfplan.model.airframe import Panel
from rfplan.model.findings import Verdict
from rfplan.model.plan import Plan
from rfplan.model.record import ById
from rfplan.rules import rf204_behind_opaque_skin as rf204
from rfplan.units import Range


def inside(*, over: str = "aluminium", fs_in: float = 80) -> Plan:
    """Return the sample with its GNSS antenna in the cabin under a panel FS 70 .. 100."""
    plan = refitted(sample_plan(), "antennas", "gnss1", on="cabin", at=place(fs_in, 0, 60))
    panel = Panel("top", over, Range(*inch(70, 100)), source="sheet")
    return with_airframe(plan, skin=ById({"panel": panel, **plan.airframe.skin}))


def test_an_antenna_outside_looks_through_nothing() -> None:
    assert findings("RF204") == []
    assert room_of(rf204, sample_facts(), "gnss1") is None


def test_an_inside_antenna_under_transparent_skin_is_fine() -> None:
    assert findings("RF204", inside(over="glass")) == []


@pytest.mark.parametrize("over", ["aluminium", "carbon"])
def test_an_inside_antenna_under_metal_or_carbon_is_advised_against(over: str) -> None:
    (one,) = findings("RF204", inside(over=over))
    assert one.objects == ("gnss1",)
    assert (one.value, one.limit, one.verdict) == (0.0, 1.0, Verdict.ADVICE)
    assert over in one.text
    assert one.source_class == "common practice"


def test_skin_of_unknown_material_is_not_taken_for_transparent() -> None:
    (one,) = findings("RF204", inside(over="something"))
    assert one.value is None
    assert one.verdict is Verdict.ADVICE


def test_the_first_panel_that_fits_decides() -> None:
    assert findings("RF204", inside(over="glass", fs_in=101)) != []  # behind the panel: aluminium


def test_room_is_one_rule_for_many_places_and_the_present_one() -> None:
    plan = inside(over="glass", fs_in=110)
    assert_same_everywhere(rf204, plan, "gnss1", on="cabin")
