# SPDX-License-Identifier: Apache-2.0
from __future__ import annotations

from dataclasses import replace

import pytest
from drawn_aircraft import drawn_assessment
from sample import inch

from rfplan.model.assessment import Assessment, SpacingFact
from rfplan.model.findings import Verdict
from rfplan.tui.layout import Area, ViewKind
from rfplan.tui.projection import Camera, View
from rfplan.tui.ring import Ring, caption_tries, length_words, ring_round, tightest
from rfplan.tui.tokens import Token


def told(**changes: object) -> Assessment:
    """An assessment in which the one fact a rule speaks of differs."""
    assessment = drawn_assessment()
    spacing = tuple(
        replace(fact, **changes) if fact.rule is not None else fact  # type: ignore[arg-type]
        for fact in assessment.spacing
    )
    return replace(assessment, spacing=spacing)


def fact(a: str, b: str, margin_m: float) -> SpacingFact:
    return replace(
        next(one for one in drawn_assessment().spacing if one.rule), a=a, b=b, margin_m=margin_m
    )


def test_the_tightest_neighbour_has_the_least_room() -> None:
    facts = (fact("com1", "gnss1", 0.3), fact("dme", "gnss1", -0.1), fact("com1", "dme", -0.5))
    assessment = replace(drawn_assessment(), spacing=facts)
    assert tightest(assessment, "gnss1") is facts[1]


def test_without_a_rule_there_is_no_ring() -> None:
    assert tightest(drawn_assessment(), "dme") is None
    assert ring_round(drawn_assessment(), "dme", "in") is None


def test_the_ring_lies_round_the_neighbour_with_the_needed_distance() -> None:
    ring = ring_round(drawn_assessment(), "gnss1", "in")
    assert ring is not None
    com1 = next(place for place in drawn_assessment().antennas if place.id == "com1")
    assert ring.centre_m == com1.point_m
    assert ring.radius_m == pytest.approx(inch(36))
    assert ring.caption == "36 in from com1"


def test_between_base_edges_the_ring_is_wider_by_both_bases() -> None:
    ring = ring_round(told(datum="edge"), "gnss1", "mm")
    assert ring is not None
    assert ring.radius_m == pytest.approx(inch(36 + 1.5 + 1.5))
    assert ring.caption == "914 mm from com1"


@pytest.mark.parametrize(
    ("verdict", "token"),
    [
        (Verdict.PASS, Token.DIM),
        (None, Token.DIM),
        (Verdict.FAIL, Token.FAIL),
        (Verdict.WAIVED, Token.WAIVED),
        (Verdict.ADVICE, Token.TEXT),
    ],
)
def test_the_ring_is_dim_unless_the_distance_is_broken(
    verdict: Verdict | None, token: Token
) -> None:
    ring = ring_round(told(verdict=verdict), "gnss1", "in")
    assert ring is not None
    assert ring.token is token


def test_lengths_are_said_without_needless_digits() -> None:
    assert length_words(inch(36), "in") == "36 in"
    assert length_words(inch(24.5), "in") == "24.5 in"
    assert length_words(0.9144, "mm") == "914 mm"


def test_the_caption_of_a_ring_larger_than_the_view_is_tried_at_its_edge() -> None:
    view = View(ViewKind.PLAN, Area(1, 7, 9, 73), Camera((3.0, 0.0, 1.5), 20.0))
    ring = Ring((3.0, 0.0, 1.5), 2.0, "79 in from com1", Token.DIM)
    rows = [label.row for label in caption_tries(view, ring)]
    assert rows[:2] == [1, 9]
