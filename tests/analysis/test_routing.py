# SPDX-License-Identifier: Apache-2.0
"""The way of a cable and what its length is made of, each figure worked out by hand."""

from __future__ import annotations

import math
from dataclasses import replace
from itertools import pairwise, permutations

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from sample import inch, place, sample_airframe, sample_assembly, sample_catalog

from rfplan.analysis.routing import (
    End,
    Network,
    Site,
    cable_run,
    nearest_node,
    network,
    shortest_way,
    tightest_bend,
    way_through,
)
from rfplan.model.airframe import Node, Route, Segment, SegmentChange, Variant
from rfplan.model.assessment import CableRun
from rfplan.model.plan import Policy
from rfplan.model.record import ById
from rfplan.units import UNKNOWN


def net(lengths: dict[str, float], bulkheads: tuple[str, ...] = ()) -> Network:
    """Return a network from 'a-b': length, all its nodes in one place."""
    ways: dict[str, dict[str, float]] = {}
    for id, length_m in lengths.items():
        one, other = id.split("-")
        ways.setdefault(one, {})[other] = length_m
        ways.setdefault(other, {})[one] = length_m
    return Network(dict.fromkeys(ways, (0.0, 0.0, 0.0)), ways, frozenset(bulkheads))


DIAMOND = {"a-b": 1.0, "b-d": 1.0, "a-c": 1.0, "c-d": 1.0, "a-d": 3.0}


def test_the_shortest_way_is_taken_although_it_has_more_segments() -> None:
    assert shortest_way(net({**DIAMOND, "a-c": 0.5}), "a", "d") == (1.5, ("a", "c", "d"))


def test_of_two_ways_of_one_length_the_first_node_id_is_taken() -> None:
    for lengths in permutations(DIAMOND.items()):
        assert shortest_way(net(dict(lengths)), "a", "d") == (2.0, ("a", "b", "d"))


def test_a_forbidden_node_is_gone_round() -> None:
    assert shortest_way(net(DIAMOND), "a", "d", frozenset("b")) == (2.0, ("a", "c", "d"))
    assert shortest_way(net(DIAMOND), "a", "d", frozenset("bc")) == (3.0, ("a", "d"))


def test_there_is_no_way_to_a_node_that_hangs_on_nothing() -> None:
    assert shortest_way(net({"a-b": 1.0, "c-d": 1.0}), "a", "d") is None


def test_a_forced_node_is_visited_although_it_lies_off_the_shortest_way() -> None:
    # a-c-d is 0.5 + 1.0, forced over b it is 1.0 + 1.0
    lengths = {**DIAMOND, "a-c": 0.5}
    assert way_through(net(lengths), ("a", "b", "d"), frozenset()) == (2.0, ("a", "b", "d"))


def test_forced_nodes_are_visited_in_the_order_written() -> None:
    way = way_through(net(DIAMOND), ("a", "c", "b", "d"), frozenset())
    # c to b is shortest back over a: 1 + (1 + 1) + 1
    assert way == (4.0, ("a", "c", "a", "b", "d"))


def test_a_bulkhead_node_ends_a_cable_and_is_never_passed_through() -> None:
    walled = net(DIAMOND, ("b",))
    assert shortest_way(walled, "a", "d") == (2.0, ("a", "c", "d"))
    assert shortest_way(walled, "a", "b") == (1.0, ("a", "b"))
    assert shortest_way(walled, "b", "d") == (1.0, ("b", "d"))


def test_not_even_a_forced_way_leads_through_a_bulkhead() -> None:
    assert way_through(net(DIAMOND, ("b",)), ("a", "b", "d"), frozenset()) is None
    assert way_through(net(DIAMOND, ("b",)), ("a", "c", "b"), frozenset()) is not None


def length_by_trying(net: Network, start: str, goal: str) -> float:
    """Return the least length over every way that visits no node twice."""
    inner = [node for node in net.ways if node not in (start, goal)]
    ways = [
        (start, *between, goal)
        for count in range(len(inner) + 1)
        for between in permutations(inner, count)
    ]
    walkable = [way for way in ways if all(q in net.ways[p] for p, q in pairwise(way))]
    return min(sum(net.ways[p][q] for p, q in pairwise(way)) for way in walkable)


SEGMENTS = st.sampled_from([f"{a}-{b}" for a in "abcde" for b in "abcde" if a < b])


@settings(max_examples=60, deadline=None)
@given(st.dictionaries(SEGMENTS, st.integers(1, 9).map(float)))
def test_no_other_way_is_shorter_and_the_order_of_the_segments_changes_nothing(
    lengths: dict[str, float],
) -> None:
    joined = {"a-x": 100.0, "e-x": 100.0, **lengths}
    found = shortest_way(net(joined), "a", "e")
    assert found is not None
    assert found[0] == length_by_trying(net(joined), "a", "e")
    backwards = net(dict(reversed(joined.items())))
    assert shortest_way(backwards, "a", "e") == found


# ----- the network of a variant


def test_a_segment_joins_its_two_nodes_both_ways() -> None:
    ways = network(sample_airframe(), None).ways
    assert ways["p1"]["apl"] == ways["apl"]["p1"] == pytest.approx(inch(30))


def test_a_network_and_its_ways_are_kept_and_another_airframe_has_its_own() -> None:
    airframe = sample_airframe()
    net = network(airframe, None)
    assert network(airframe, None) is net
    before = way_through(net, ("p1", "apl"), frozenset())
    assert way_through(net, ("p1", "apl"), frozenset()) is before
    longer = airframe.route.segments.having("p1-apl", Segment(inch(31)))
    changed = network(replace(airframe, route=replace(airframe.route, segments=longer)), None)
    assert before == (pytest.approx(inch(30)), ("p1", "apl"))
    assert way_through(changed, ("p1", "apl"), frozenset()) == (
        pytest.approx(inch(31)),
        ("p1", "apl"),
    )


def test_a_segment_of_unknown_length_is_no_way() -> None:
    route = sample_airframe().route
    unknown = route.segments.having("p1-apl", Segment(UNKNOWN))
    ways = network(sample_airframe(route=replace(route, segments=unknown)), None).ways
    assert "apl" not in ways["p1"]


def test_a_variant_adds_replaces_and_closes_segments() -> None:
    changes = ById({"p1-flr": SegmentChange(None, inch(14)), "p1-apl": SegmentChange(inch(40))})
    floats = Variant(((25, 60),), changes, ("apr-rf2",))
    airframe = sample_airframe(variants=ById({"floats": floats}))
    ways = network(airframe, "floats").ways
    assert ways["p1"]["flr"] == pytest.approx(inch(56 + 14))
    assert ways["p1"]["apl"] == pytest.approx(inch(40))
    assert "rf2" not in ways["apr"]
    assert network(airframe, None).ways["p1"]["flr"] == pytest.approx(inch(56))


def test_a_variant_gives_an_unknown_segment_its_length_but_cannot_add_to_it() -> None:
    route = Route(ById({id: Node(place(0, 0, 0)) for id in "ab"}), ById({"a-b": Segment(UNKNOWN)}))
    added = Variant(((1, 1),), ById({"a-b": SegmentChange(None, 0.1)}))
    given = Variant(((2, 2),), ById({"a-b": SegmentChange(2.0)}))
    airframe = sample_airframe(route=route, variants=ById({"added": added, "given": given}))
    assert network(airframe, "added").ways["a"] == {}
    assert network(airframe, "given").ways["a"] == {"b": 2.0}


def test_the_nearest_node_is_the_nearest_in_a_straight_line_and_a_tie_goes_to_the_first_id() -> (
    None
):
    points = {"far": (2.0, 0.0, 0.0), "b": (0.0, 1.0, 0.0), "a": (0.0, -1.0, 0.0)}
    one = Network(points, {}, frozenset())
    assert nearest_node(one, (1.5, 0.0, 0.0)) == "far"
    assert nearest_node(one, (0.0, 0.0, 0.0)) == "a"
    assert nearest_node(Network({}, {}, frozenset()), (0.0, 0.0, 0.0)) is None


def corner(*points: tuple[float, float, float]) -> tuple[float, str] | None:
    """Return the tightest bend of a way through points called a, b, c ..."""
    named = {chr(97 + i): point for i, point in enumerate(points)}
    return tightest_bend(Network(named, {}, frozenset()), tuple(named))


def test_a_right_angle_bends_with_half_the_shorter_straight() -> None:
    # t / tan(45 deg) with t = 0.2 / 2
    found = corner((0.0, 0.0, 0.0), (0.2, 0.0, 0.0), (0.2, 0.5, 0.0))
    assert found is not None
    assert found == (pytest.approx(0.1), "b")


def test_the_tightest_of_several_corners_is_named() -> None:
    # at b 45 deg after 1 m: 0.5 / tan(22.5 deg) = 1.207; at c 45 deg with 0.1 m: 0.05 / 0.4142
    found = corner((0.0, 0, 0), (1.0, 0, 0), (2.0, 1.0, 0), (2.0, 1.1, 0))
    assert found == (pytest.approx(0.05 / math.tan(math.pi / 8)), "c")


def test_a_straight_way_has_no_bend_and_a_way_back_has_no_radius() -> None:
    assert corner((0.0, 0, 0), (1.0, 0, 0), (2.0, 0, 0)) is None
    assert corner((0.0, 0, 0), (1.0, 0, 0), (0.0, 0, 0)) == (0.0, "b")


# ----- lengths

P1, RF1 = place(62, 0, 50), place(80, 0, 74)
UNIT = End((inch(62), inch(-4), inch(50)), "p1")
ANTENNA = End((inch(80), 0.0, inch(75)), "rf1")


def run(
    policy: Policy | None = None, ends: tuple[End, End] = (UNIT, ANTENNA), **changes: object
) -> CableRun:
    """Return the run of the sample cable between panel and roof."""
    airframe = sample_airframe()
    site = Site(network(airframe, None), policy or Policy(), inch(24))
    return cable_run("w", sample_assembly(**changes), site, ends, sample_catalog())


def in_inches(one: CableRun) -> tuple[float, float, float]:
    """Return least, nominal and most of the electrical length."""
    return tuple(x / 0.0254 for x in (one.length_m.least, one.length_m.nominal, one.length_m.most))  # type: ignore[return-value]


def test_the_corners_of_a_length_use_up_tolerance_and_retermination() -> None:
    # route 30 + 36, drops 6 + 3, loops 6 + 6, allowance 4: finished 91
    # most 91 + 0.5; least 91 - 0.5 - 4
    one = run()
    assert in_inches(one) == pytest.approx((86.5, 91.0, 91.5))
    assert one.nodes == ("p1", "apl", "rf1")
    assert one.unknown == ()
    assert not one.drop_estimated


def test_the_drip_loop_counts_and_the_shops_tolerance_holds_where_the_cable_states_none() -> None:
    policy = Policy(tolerance_m=inch(1))
    one = run(policy, drip_loop_m=inch(2), tolerance_m=None)
    assert in_inches(one) == pytest.approx((93 - 1 - 4, 93.0, 94.0))


def test_drops_that_nobody_measured_are_straight_lines_known_to_a_fifth() -> None:
    # unit 4 in beside p1, antenna 1 in above rf1: 5 in +- 1 in; finished 66 + 5 + 12 + 4 = 87
    one = run(drops_m=None)
    assert in_inches(one) == pytest.approx((87 - 1 - 0.5 - 4, 87.0, 87 + 1 + 0.5))
    assert one.drop_estimated


def test_a_drop_to_a_thing_without_a_place_is_not_known() -> None:
    one = run(ends=(End(None, "p1"), ANTENNA), drops_m=None)
    assert one.unknown == ("drops",)
    assert math.isnan(one.length_m.nominal)
    # at least the route, the antenna's own drop of 1 in less a fifth, and the loops
    assert one.length_m.least == pytest.approx(inch(66 + 0.8 + 12 - 0.5))


@pytest.mark.parametrize(
    ("changes", "name"),
    [
        ({"loops_m": (inch(6), UNKNOWN)}, "loops"),
        ({"drops_m": (UNKNOWN, inch(3))}, "drops"),
        ({"drip_loop_m": UNKNOWN}, "drip_loop"),
        ({"retermination_m": UNKNOWN}, "retermination"),
        ({"avoid": ("apl",)}, "route"),
        ({"length_m": UNKNOWN}, "length"),
    ],
)
def test_what_is_missing_of_a_length_is_named_and_leaves_no_end_above(
    changes: dict[str, object], name: str
) -> None:
    one = run(**changes)
    assert one.unknown == (name,)
    assert math.isnan(one.length_m.nominal)
    assert one.length_m.most == math.inf
    assert one.mass_kg is None


def test_without_a_way_the_straight_line_still_bounds_the_length() -> None:
    # from (62, -4, 50) to (80, 0, 75): sqrt(18^2 + 4^2 + 25^2) = 31.06; drops 9, loops 12
    one = run(avoid=("apl",))
    assert in_inches(one)[0] == pytest.approx(math.sqrt(18**2 + 4**2 + 25**2) + 9 + 12 - 0.5)
    assert one.nodes == ()
    assert one.supports is None


def test_a_way_of_no_length_has_no_supports() -> None:
    one = run(ends=(replace(UNIT, node="rf1"), ANTENNA))
    assert one.supports == 0
    assert in_inches(one)[1] == pytest.approx(9 + 12 + 4)


def test_the_cut_length_adds_strip_back_and_tolerance_and_rounds_up_to_the_step() -> None:
    # 91 + 2 x 0.25 + 0.5 = 92, to the next 5 in: 95
    policy = Policy(strip_m=inch(0.25), cut_step_m=inch(5))
    terms = run(policy).terms
    assert terms is not None
    assert terms.finished_m / 0.0254 == pytest.approx(91.0)
    assert terms.cut_m / 0.0254 == pytest.approx(95.0)
    assert terms.rounding_m / 0.0254 == pytest.approx(4.0)


def test_a_cut_length_on_a_step_stays_there_and_one_without_step_only_adds() -> None:
    on_step = run(Policy(strip_m=inch(0.25), cut_step_m=inch(0.5))).terms
    no_step = run(Policy()).terms
    assert on_step is not None and no_step is not None
    assert on_step.cut_m / 0.0254 == pytest.approx(92.0)
    assert no_step.cut_m / 0.0254 == pytest.approx(91.5)  # the tolerance of 0.5


def test_a_stated_length_stands_with_its_tolerance_and_its_allowance() -> None:
    one = run(length_m=inch(100))
    assert in_inches(one) == pytest.approx((100 - 0.5 - 4, 100.0, 100.5))
    assert one.as_built_m == pytest.approx(inch(100))
    assert one.nodes == ("p1", "apl", "rf1")  # as it was planned


def test_a_stated_length_of_a_cable_nobody_planned_has_no_way() -> None:
    bare = {"drops_m": None, "loops_m": None, "retermination_m": None, "tolerance_m": None}
    one = run(length_m=inch(31), **bare)
    assert in_inches(one) == pytest.approx((31.0, 31.0, 31.0))
    assert one.nodes == ()
    assert one.terms is None


def test_the_allowance_of_a_stated_length_counts_although_the_way_is_unknown() -> None:
    one = run(length_m=inch(100), avoid=("apl",))
    assert one.terms is None
    assert in_inches(one)[0] == pytest.approx(95.5)


def test_no_allowance_makes_a_cable_shorter_than_nothing() -> None:
    assert run(retermination_m=inch(4), tolerance_m=inch(500)).length_m.least == 0.0
    assert run(length_m=inch(3), retermination_m=inch(4)).length_m.least == 0.0
    assert run(length_m=inch(100), retermination_m=UNKNOWN).length_m.least == 0.0


def test_the_mass_is_that_of_what_is_cut_or_of_what_lies() -> None:
    # 70 g/m: cut 91.5 in, or as it lies 100 in
    assert run().mass_kg == pytest.approx(0.070 * inch(91.5))
    assert run(length_m=inch(100)).mass_kg == pytest.approx(0.070 * inch(100))


def test_supports_stand_at_both_ends_and_at_most_the_spacing_apart() -> None:
    # 66 in in spans of 24 in: 3 spans, 4 supports
    assert run().supports == 4
