# SPDX-License-Identifier: Apache-2.0
"""Distances of antennas, and which rule is nearest to a pair."""

from __future__ import annotations

import math
from dataclasses import replace
from typing import Any

import numpy as np
import pytest
from sample import IN, inch, place, sample_facts, sample_plan, with_antenna, with_port

from rfplan.analysis.placement import Fitted, snap
from rfplan.analysis.scene import Scene
from rfplan.analysis.spacing import (
    centre_distance_m,
    kind_rank,
    pair_rules,
    pair_skin_distances_m,
    skin_distances_m,
    zone_rules,
)
from rfplan.model.airframe import Zone
from rfplan.model.plan import Antenna
from rfplan.model.rulebook import Spacing, Strictness
from rfplan.units import Range


def scene() -> Scene:
    """Return the sample's scene."""
    return sample_facts().scene


def rule(from_: str, to: str, id: str, **changes: Any) -> Spacing:
    """Return a rule that advises ten inches."""
    return replace(Spacing(from_, to, inch(10), id), **changes)


def by_id(*rules: Spacing) -> dict[str, Spacing]:
    """Return rules by their ids."""
    return {one.id: one for one in rules}


# ----- distances


def test_distances_are_straight_and_shaped_by_others_and_places() -> None:
    one = scene()
    places = snap(one.airframe, one.hull, "top", [place(80, 0), place(110, 0)])
    others = np.array([one.fitted["com1"].point_m, one.fitted["xpdr1"].point_m])
    found = centre_distance_m(places, others)
    # com1 at FS 130 on the same roof; xpdr1 at FS 110 on the belly, 45 in below
    expected = [[50, 20], [math.hypot(30, 45), 45]]
    np.testing.assert_allclose(found, np.array(expected) * IN)


def test_along_the_skin_a_straight_line_on_the_roof_stays_one() -> None:
    one = scene()
    places = snap(one.airframe, one.hull, "top", [place(80, 0)])
    ((found,),) = skin_distances_m(one.hull, places, [one.fitted["com1"]])
    assert found == pytest.approx(50 * IN)


def test_along_the_skin_from_top_to_belly_is_half_the_girth_at_least() -> None:
    one = scene()
    places = snap(one.airframe, one.hull, "top", [place(110, 0)])
    ((found,),) = skin_distances_m(one.hull, places, [one.fitted["xpdr1"]])
    assert found > (30 + 45 / 2) * IN  # more than one half width and one half height
    assert found < (60 + 45) * IN  # less than round a box


def test_along_the_skin_there_is_no_way_to_the_inside() -> None:
    inside = Antenna("gnss_active", "cabin", place(80, 0, 60))
    one = sample_facts(with_antenna(sample_plan(), "gnss2", inside)).scene
    places = snap(one.airframe, one.hull, "top", [place(80, 0)])
    found = skin_distances_m(one.hull, places, [one.fitted["gnss2"], one.fitted["com1"]])
    assert np.isnan(found).tolist() == [[True], [False]]
    cabin = snap(one.airframe, one.hull, "cabin", [place(80, 0, 60)])
    assert np.isnan(skin_distances_m(one.hull, cabin, [one.fitted["com1"]])).all()


def test_all_pairs_at_once_are_as_each_alone() -> None:
    one = scene()
    fitted = [one.fitted[id] for id in ("com1", "gnss1", "xpdr1")]
    first, second = np.triu_indices(3, k=1)
    together = pair_skin_distances_m(one.hull, fitted, first, second)
    for value, a, b in zip(together, first, second, strict=True):
        ((alone,),) = skin_distances_m(one.hull, fitted[a].places, [fitted[b]])
        assert value == pytest.approx(alone)


# ----- which rule speaks


@pytest.mark.parametrize(
    ("word", "rank"),
    [("com1", 0), ("vhf_com", 1), ("any", 4), ("gnss", math.inf), ("tx_25w", math.inf)],
)
def test_a_word_names_an_antenna_more_or_less_closely(word: str, rank: float) -> None:
    assert kind_rank(word, scene().fitted["com1"]) == rank


def test_a_family_is_wider_than_a_radio_and_power_wider_than_both() -> None:
    assert kind_rank("lband", scene().fitted["xpdr1"]) == 2
    assert kind_rank("tx_25w", scene().fitted["xpdr1"]) == 3
    loud = with_port(sample_plan(), "nav1", "com", power_w=Range(10.0, 25.1))
    assert kind_rank("tx_25w", sample_facts(loud).scene.fitted["com1"]) == 3


def speaking(own: dict[str, Spacing], shipped: dict[str, Spacing]) -> str | None:
    """Return the rule for the GNSS and the COM antenna, and check that it holds both ways."""
    fitted = scene().fitted
    rules = pair_rules(own, shipped, fitted)
    one, other = (rules[a].get(b) for a, b in (("gnss1", "com1"), ("com1", "gnss1")))
    assert one is other
    return one.id if one else None


def test_without_a_rule_nobody_speaks() -> None:
    assert speaking({}, {}) is None
    assert speaking({}, by_id(rule("lband", "any", "x"))) is None


def test_the_closest_rule_speaks_in_whatever_order_they_stand() -> None:
    rules = [
        rule("gnss", "any", "wide"),
        rule("gnss", "vhf_com", "family"),
        rule("gnss1", "com1", "named"),
    ]
    for order in (rules, rules[::-1]):
        assert speaking({}, by_id(*order)) == "named"
        assert speaking({}, by_id(*(one for one in order if one.id != "named"))) == "family"


def test_the_plans_own_rule_comes_before_a_closer_shipped_one() -> None:
    shipped = by_id(rule("gnss1", "com1", "closest"))
    assert speaking(by_id(rule("any", "any", "own")), shipped) == "own"


def test_the_plan_may_replace_a_shipped_rule_by_its_id() -> None:
    shipped = by_id(rule("gnss", "vhf_com", "x"))
    own = by_id(rule("gnss", "vhf_com", "x", strict=Strictness.REQUIRED))
    assert pair_rules(own, shipped, scene().fitted)["gnss1"]["com1"].strict is Strictness.REQUIRED


def test_required_comes_before_advice_and_then_the_larger_distance() -> None:
    advice = rule("gnss", "vhf_com", "a", min_m=inch(99))
    required = rule("gnss", "vhf_com", "z", strict=Strictness.REQUIRED)
    larger = rule("gnss", "vhf_com", "y", strict=Strictness.REQUIRED, min_m=inch(11))
    assert speaking({}, by_id(advice, required)) == "z"
    assert speaking({}, by_id(advice, required, larger)) == "y"


def test_a_rule_between_two_of_a_kind_needs_two_of_them() -> None:
    second = Antenna("gnss_active", "top", place(95, 0))
    fitted = sample_facts(with_antenna(sample_plan(), "gnss2", second)).scene.fitted
    rules = pair_rules({}, by_id(rule("gnss", "gnss", "pair")), fitted)
    assert rules["gnss1"] == {"gnss2": rule("gnss", "gnss", "pair")}
    assert rules["com1"] == {}


def test_one_antenna_alone_has_no_pair() -> None:
    one: dict[str, Fitted] = {"gnss1": scene().fitted["gnss1"]}
    assert pair_rules({}, by_id(rule("any", "any", "x")), one) == {"gnss1": {}}


# ----- features


def features(
    zones: dict[str, Zone], *shipped: Spacing, own: tuple[Spacing, ...] = ()
) -> dict[str, str]:
    """Return the rules that keep the GNSS antenna off zones."""
    found = zone_rules(by_id(*own), by_id(*shipped), scene().fitted, zones)
    return {zone: one.id for zone, one in found["gnss1"].items()}


def test_a_feature_is_named_by_its_kind_or_its_id_from_either_side() -> None:
    zones = {
        "front": Zone("windshield", "top"),
        "needle": Zone("sensor"),
        "cap": Zone("fuel", "top"),
    }
    assert features(zones, rule("gnss", "windshield", "a"), rule("compass", "any", "b")) == {
        "front": "a",
        "needle": "b",
    }
    assert features(zones, rule("any", "cap", "c")) == {"cap": "c"}


def test_a_feature_that_is_not_kept_off_this_antenna_is_left_alone() -> None:
    assert features({"front": Zone("windshield", "top")}, rule("vhf_com", "windshield", "a")) == {}


def test_of_several_rules_about_a_feature_the_closest_or_the_plans_own_speaks() -> None:
    zones = {"front": Zone("windshield", "top")}
    close, wide = rule("gnss1", "windshield", "close"), rule("any", "windshield", "wide")
    assert features(zones, wide, close) == {"front": "close"}
    assert features(zones, close, own=(wide,)) == {"front": "wide"}
