# SPDX-License-Identifier: Apache-2.0
"""RF501: antennas, and antennas and features, nearer than their rule asks."""

from __future__ import annotations

import math
from dataclasses import replace
from typing import Any

import pytest
from rooms import assert_same_everywhere, findings
from sample import (
    IN,
    inch,
    place,
    refitted,
    sample_assessment,
    sample_plan,
    with_airframe,
    with_antenna,
)

from rfplan.model.airframe import Zone
from rfplan.model.findings import Verdict
from rfplan.model.plan import Antenna, Plan
from rfplan.model.record import ById
from rfplan.model.rulebook import Spacing, Strictness
from rfplan.rules import rf501_spacing as rf501
from rfplan.units import Range


def apart(distance_in: float, **rule: Any) -> Plan:
    """Return the sample with its COM antenna this far aft of the GNSS antenna on the flat roof."""
    plan = refitted(sample_plan(), "antennas", "com1", at=place(80 + distance_in, 0))
    own = replace(plan.spacing["gnss_com"], **rule)
    return replace(plan, spacing=ById({"gnss_com": own}))


def test_antennas_as_far_apart_as_asked_are_fine() -> None:
    assert findings("RF501") == []
    assert findings("RF501", apart(36)) == []  # equality passes


def test_nearer_antennas_fail_with_distance_need_and_document() -> None:
    (one,) = findings("RF501", apart(35))
    assert set(one.objects) == {"gnss1", "com1"}
    assert one.value == pytest.approx(35 * IN)
    assert one.limit == pytest.approx(36 * IN)
    assert (one.unit, one.strictness, one.verdict) == ("m", Strictness.REQUIRED, Verdict.FAIL)
    assert "invented sheet" in one.source
    assert one.paths == ("com1", "gnss1")


def test_shipped_distances_only_advise() -> None:
    plan = replace(apart(20), spacing=ById())
    (one,) = findings("RF501", plan)
    assert one.limit == pytest.approx(24 * IN)
    assert one.verdict is Verdict.ADVICE
    assert one.source_class == "invented"


def test_a_pair_of_which_no_rule_speaks_may_stand_anywhere() -> None:
    plan = refitted(
        replace(sample_plan(), spacing=ById()), "antennas", "com1", on="belly", at=place(111, 0)
    )
    assert [one for one in findings("RF501", plan) if "xpdr1" in one.objects] == []


def test_between_edges_the_bases_are_taken_off() -> None:
    # 37 in less half of 3 in twice
    (one,) = findings("RF501", apart(37, datum="edge"))
    assert one.value == pytest.approx(34 * IN)
    assert "between base edges" in one.text
    assert findings("RF501", apart(39, datum="edge")) == []


def test_from_top_to_belly_the_straight_line_counts_unless_the_rule_goes_along_the_skin() -> None:
    # 45 in of height and 10 in of station
    plan = replace(sample_plan(), spacing=ById())
    there = refitted(plan, "antennas", "com1", on="belly", at=place(90, 0))
    rule = sample_plan().spacing["gnss_com"]
    straight = replace(there, spacing=ById({"r": replace(rule, id="r", min_m=inch(60))}))
    (one,) = findings("RF501", straight)
    assert one.value == pytest.approx(math.hypot(45, 10) * IN)
    along = replace(there, spacing=ById({"r": replace(rule, id="r", min_m=inch(60), datum="skin")}))
    assert findings("RF501", along) == []  # half the girth is more than 60 in


def test_along_the_skin_to_an_antenna_inside_is_not_known_and_incomplete() -> None:
    plan = refitted(apart(20, datum="skin"), "antennas", "gnss1", on="cabin", at=place(80, 0, 60))
    (one,) = [f for f in findings("RF501", plan) if "com1" in f.objects]
    assert (one.value, one.verdict) == (None, Verdict.INCOMPLETE)
    facts = {(fact.a, fact.b): fact for fact in sample_assessment(plan).spacing}
    assert facts["com1", "gnss1"].margin_m is None
    assert facts["com1", "gnss1"].verdict is Verdict.INCOMPLETE


def test_the_matrix_of_distances_says_the_same_as_the_finding() -> None:
    facts = {(fact.a, fact.b): fact for fact in sample_assessment(apart(35)).spacing}
    one = facts["com1", "gnss1"]
    assert one.centre_m == pytest.approx(35 * IN)
    assert one.edge_m == pytest.approx(32 * IN)
    assert one.skin_m == pytest.approx(35 * IN)
    assert one.need_m == pytest.approx(36 * IN)
    assert one.margin_m == pytest.approx(-1 * IN)
    assert (one.datum, one.rule, one.verdict) == ("centre", "gnss_com", Verdict.FAIL)
    assert facts["com1", "xpdr1"].rule is None
    assert facts["com1", "xpdr1"].verdict is None


# ----- which rule speaks


def ruled(*rules: Spacing) -> str | None:
    """Return the rule that speaks for the GNSS and the COM antenna of the sample."""
    plan = replace(sample_plan(), spacing=ById((rule.id, rule) for rule in rules))
    facts = {(fact.a, fact.b): fact for fact in sample_assessment(plan).spacing}
    return facts["com1", "gnss1"].rule


def rule(from_: str, to: str, id: str, **changes: Any) -> Spacing:
    """Return a rule of the plan."""
    return replace(Spacing(from_, to, inch(10), id, source="sheet"), **changes)


def test_the_most_specific_rule_speaks_alone() -> None:
    family = rule("gnss", "vhf_com", "family", min_m=inch(99), strict=Strictness.REQUIRED)
    radio = rule("vhf_com", "gnss_l1", "radio")
    named = rule("gnss1", "com1", "named")
    anything = rule("gnss", "any", "anything", min_m=inch(999))
    assert ruled(anything, family) == "family"
    assert ruled(anything, family, radio) == "radio"
    assert ruled(radio, named, family) == "named"


def test_of_equally_close_rules_the_required_one_speaks_and_then_the_larger() -> None:
    advice = rule("gnss", "vhf_com", "a_advice", min_m=inch(50))
    required = rule("gnss", "vhf_com", "required", strict=Strictness.REQUIRED)
    larger = rule("gnss", "vhf_com", "z_larger", min_m=inch(60))
    assert ruled(advice, required) == "required"
    assert ruled(advice, larger) == "z_larger"


def test_what_the_plan_states_comes_before_what_is_shipped_however_specific() -> None:
    assert ruled(rule("gnss", "any", "own", strict=Strictness.REQUIRED)) == "own"
    assert ruled() == "sep_gnss_com"


def test_a_rule_holds_from_either_side() -> None:
    assert ruled(rule("vhf_com", "gnss", "turned")) == "turned"


@pytest.mark.parametrize(("power_w", "speaks"), [(26.0, True), (25.0, False), (16.0, False)])
def test_a_rule_for_strong_transmitters_looks_at_the_power(power_w: float, speaks: bool) -> None:
    strong = rule("gnss", "tx_25w", "strong")
    plan = replace(sample_plan(), spacing=ById({"strong": strong}))
    ports = plan.design.units["nav1"].ports
    louder = replace(ports["com"], power_w=Range(10.0, power_w))
    plan = refitted(plan, "units", "nav1", ports=ports.having("com", louder))
    facts = {(fact.a, fact.b): fact for fact in sample_assessment(plan).spacing}
    assert (facts["com1", "gnss1"].rule == "strong") is speaks


def test_an_antenna_without_a_path_is_of_the_radios_of_its_type() -> None:
    spare = Antenna("com_whip", "top", place(100, 0), source="sheet")
    plan = with_antenna(sample_plan(), "com2", spare)
    (one,) = findings("RF501", plan)
    assert set(one.objects) == {"com2", "gnss1"}


# ----- features


def featured(rules: ById[Spacing], **zone: Any) -> Plan:
    """Return the sample with one zone named `glass` and rules of its own."""
    fields = {"is_": "windshield", "on": "top", "source": "sheet", **zone}
    plan = with_airframe(sample_plan(), zones=ById({"glass": Zone(**fields)}))
    return replace(plan, spacing=rules)


FORWARD = {"fs_m": Range(*inch(60, 78)), "bl_m": Range(*inch(-20, 20))}


def test_the_windshield_is_kept_away_from_its_edge() -> None:
    # shipped: 3 in; the antenna at FS 80 is 2 in aft of the edge
    (one,) = findings("RF501", featured(ById(), **FORWARD))
    assert set(one.objects) == {"gnss1", "glass"}
    assert one.value == pytest.approx(2 * IN)
    assert one.limit == pytest.approx(3 * IN)
    assert one.verdict is Verdict.ADVICE


def test_a_rule_may_name_a_zone_by_its_id_and_go_from_edge_to_edge() -> None:
    own = ById({"own": rule("gnss1", "glass", "own", datum="edge", strict=Strictness.REQUIRED)})
    (one,) = findings("RF501", featured(own, **FORWARD))
    assert one.value == pytest.approx(0.5 * IN)  # 2 in less half the base length
    assert (one.limit, one.verdict) == (pytest.approx(10 * IN), Verdict.FAIL)


def test_the_compass_is_a_point_in_space() -> None:
    own = ById({"own": rule("gnss", "compass", "own", min_m=inch(40))})
    plan = featured(own, is_="sensor", on=None, at=place(66, 0, 60), radius_m=inch(12))
    (one,) = findings("RF501", plan)
    assert one.value == pytest.approx(math.hypot(14, 15) * IN)  # FS 80 to 66, WL 75 to 60


def test_a_place_without_water_line_is_seen_from_above() -> None:
    """Its water line is not zero: the antenna at FS 80 is 10 in from FS 70 and not 76."""
    own = ById({"own": rule("gnss", "glass", "own", min_m=inch(40))})
    (one,) = findings("RF501", featured(own, is_="sensor", on="top", at=place(70, 0)))
    assert one.value == pytest.approx(10 * IN)


def test_room_is_one_rule_for_many_places_and_the_present_one() -> None:
    plan = featured(ById({"own": rule("gnss", "vhf_com", "own", min_m=inch(60))}), **FORWARD)
    assert_same_everywhere(rf501, plan, "gnss1")
    for datum in ("edge", "skin"):
        own = rule("gnss", "vhf_com", "own", min_m=inch(60), datum=datum)
        assert_same_everywhere(rf501, featured(ById({"own": own}), **FORWARD), "gnss1")
