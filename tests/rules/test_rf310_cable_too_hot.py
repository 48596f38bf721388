# SPDX-License-Identifier: Apache-2.0
"""RF310: cables in zones hotter or colder than their rating."""

from __future__ import annotations

from typing import Any

import pytest
from rooms import findings
from sample import inch, place, sample_plan, with_airframe

from rfplan.model.airframe import Zone
from rfplan.model.findings import Verdict
from rfplan.model.plan import Plan
from rfplan.model.record import ById
from rfplan.units import UNKNOWN, Range

DUCT = {"fs_m": Range(*inch(60, 70)), "bl_m": Range(*inch(-30, -20))}


def heated(high_c: float = 220.0, low_c: Any = 20.0, **where: Any) -> Plan:
    """Return the sample with a zone of this temperature; the cables are rated -55 .. 200."""
    zone = Zone("hot", temperature_c=Range(low_c, high_c), source="sheet", **(where or DUCT))
    return with_airframe(sample_plan(), zones=ById({"duct": zone}))


def test_a_zone_within_the_rating_is_fine() -> None:
    assert findings("RF310") == []
    assert findings("RF310", heated(200.0)) == []


@pytest.mark.parametrize("ends", [(220.0, 20.0), (20.0, -60.0), (220.0, UNKNOWN)])
def test_a_node_of_the_way_in_a_zone_beyond_the_rating_is_advised_against(ends: Any) -> None:
    (one,) = findings("RF310", heated(*ends))
    assert set(one.objects) == {"w11", "duct"}  # apl lies in it, and only w11 passes there
    assert one.verdict is Verdict.ADVICE
    assert "11-115" in one.source


def test_a_hot_zone_round_a_point_reaches_as_far_as_its_radius() -> None:
    # apl is at 66 L24 60
    near = heated(at=place(66, -20, 60), radius_m=inch(4))
    assert [set(one.objects) for one in findings("RF310", near)] == [{"w11", "duct"}]
    assert findings("RF310", heated(at=place(66, -20, 60), radius_m=inch(3.9))) == []


def test_a_zone_of_the_skin_alone_holds_no_cable() -> None:
    assert findings("RF310", heated(on="top")) == []
