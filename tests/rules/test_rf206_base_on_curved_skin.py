# SPDX-License-Identifier: Apache-2.0
"""RF206: flat bases on curved skin."""

from __future__ import annotations

import math
from dataclasses import replace

import pytest
from rooms import assert_same_everywhere, findings, room_of
from sample import (
    IN,
    SOURCES,
    inch,
    refitted,
    sample_airframe,
    sample_catalog,
    sample_facts,
    sample_plan,
    with_airframe,
    with_entry,
)

from rfplan.model.airframe import Section
from rfplan.model.catalog import Base
from rfplan.model.findings import Verdict
from rfplan.model.plan import Plan
from rfplan.model.source import Source
from rfplan.rules import rf206_base_on_curved_skin as rf206


def tube(radius_in: float) -> Plan:
    """Return the sample with a round tube for a hull, its middle at WL 52."""
    rows = tuple(
        Section(inch(fs), inch(radius_in), inch(52 - radius_in), inch(52 + radius_in), 2.0)
        for fs in (20, 240)
    )
    return with_airframe(sample_plan(), sections=rows)


def sagitta_in(radius_in: float, half_width_in: float) -> float:
    """Return how far a circle falls away from its tangent over half a chord."""
    return radius_in - math.sqrt(radius_in**2 - half_width_in**2)


def test_a_base_on_flat_skin_is_fine() -> None:
    assert findings("RF206") == []


def test_the_gap_on_a_tube_is_the_sagitta_and_fails_where_the_antenna_states_a_limit() -> None:
    # half width 1 in on a radius of 7 in: 0.0718 in against 0.06
    found = [one for one in findings("RF206", tube(7)) if one.objects == ("gnss1",)]
    (one,) = found
    assert one.value == pytest.approx(sagitta_in(7, 1) * IN, rel=1e-6)
    assert one.limit == pytest.approx(0.06 * IN)
    assert (one.unit, one.verdict) == ("m", Verdict.FAIL)
    assert "invented sheet" in one.source


def test_a_wider_tube_is_flat_enough() -> None:
    assert sagitta_in(9, 1) < 0.06
    assert [one for one in findings("RF206", tube(9)) if one.objects == ("gnss1",)] == []


def test_a_common_or_remembered_limit_only_advises() -> None:
    common = with_entry(sample_catalog(), "antennas", "gnss_active", gap_m=None)
    memory = SOURCES.having("sheet", Source("assumed", read="memory"))
    remembered = with_entry(sample_catalog(), "antennas", "gnss_active", sources=memory)
    for catalog in (common, remembered):
        found = [one for one in findings("RF206", tube(7), catalog) if one.objects == ("gnss1",)]
        assert [one.verdict for one in found] == [Verdict.ADVICE]


def test_an_antenna_without_a_base_or_inside_is_not_asked() -> None:
    bare = with_entry(sample_catalog(), "antennas", "gnss_active", base=None)
    assert room_of(rf206, sample_facts(tube(7), bare), "gnss1") is None
    inside = refitted(tube(7), "antennas", "gnss1", on="cabin")
    assert room_of(rf206, sample_facts(inside), "gnss1") is None


def test_room_is_one_rule_for_many_places_and_the_present_one() -> None:
    rows = sample_airframe().sections
    sharp = tuple(replace(row, roundness=2.0) for row in rows)
    catalog = with_entry(sample_catalog(), "antennas", "gnss_active", base=Base(*inch(6, 6)))
    assert_same_everywhere(
        rf206, with_airframe(sample_plan(), sections=sharp), "gnss1", catalog=catalog
    )
