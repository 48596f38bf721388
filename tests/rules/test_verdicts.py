# SPDX-License-Identifier: Apache-2.0
"""Paths, antennas and distances as an assessment shows them."""

from __future__ import annotations

from dataclasses import replace
from itertools import pairwise
from typing import Any

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from sample import (
    IN,
    MHZ,
    inch,
    place,
    refitted,
    sample_assembly,
    sample_assessment,
    sample_catalog,
    sample_plan,
    with_airframe,
    with_entry,
    with_port,
)

from rfplan.model.airframe import Zone
from rfplan.model.assessment import BandLoss, PathAssessment
from rfplan.model.catalog import AttenuationPoint, AttenuationSet, Catalog
from rfplan.model.findings import Verdict
from rfplan.model.plan import Part, Path, Plan, StackUp, State
from rfplan.model.record import ById
from rfplan.units import NONE, UNKNOWN, Range


def path(
    plan: Plan | None = None, id: str = "gnss1", catalog: Catalog | None = None
) -> PathAssessment:
    """Return one path of an assessment."""
    return next(p for p in sample_assessment(plan, catalog).paths if p.id == id)


def windowed(low: Any, high: Any, plan: Plan | None = None, **port: Any) -> Plan:
    """Return a plan, by default the sample, with another window of the GNSS port."""
    return with_port(
        plan or sample_plan(), "nav1", "gnss", loss_db=ById({"all": Range(low, high)}), **port
    )


# ----- one path


def test_a_path_says_between_what_it_runs_and_which_way_it_works() -> None:
    paths = {p.id: p for p in sample_assessment().paths}
    assert list(paths) == ["com1", "gnss1", "xpdr1"]
    one = paths["gnss1"]
    assert (one.unit, one.port, one.antenna, one.radio) == ("nav1", "gnss", "gnss1", "gnss_l1")
    assert {id: p.direction for id, p in paths.items()} == {
        "com1": "txrx",
        "gnss1": "rx",
        "xpdr1": "txrx",
    }
    assert one.cables == ("w11",)
    assert one.mated_pairs == 2


def test_the_losses_of_the_chain_add_up_to_the_nominal_of_the_first_band() -> None:
    for one in sample_assessment().paths:
        assert sum(item.loss_db or 0.0 for item in one.chain) == pytest.approx(
            one.bands[0].nominal_db[1]
        )


def test_the_elements_of_a_corner_add_up_to_it() -> None:
    for one in sample_assessment().paths:
        for band in one.bands:
            least, nominal, most = (
                sum(x or 0.0 for x in column) for column in zip(*band.item_db, strict=True)
            )
            assert least == pytest.approx(band.min_corner.loss_db)
            assert nominal == pytest.approx(band.nominal_db[1])
            assert most == pytest.approx(band.max_corner.loss_db)


def test_the_least_is_cold_at_the_lower_edge_and_the_most_hot_at_the_upper() -> None:
    (band,) = path().bands
    assert (band.min_corner.temperature_c, band.min_corner.frequency_hz) == (-55.0, 1563.42 * MHZ)
    assert (band.max_corner.temperature_c, band.max_corner.frequency_hz) == (70.0, 1587.42 * MHZ)
    assert band.mid_hz == pytest.approx(1575.42 * MHZ)


def test_what_is_not_known_is_none_and_never_a_number() -> None:
    one = path(refitted(sample_plan(), "cables", "w11", length_m=UNKNOWN))
    (band,) = one.bands
    assert band.max_corner.loss_db is None
    assert band.nominal_db == (None, None, None)
    assert band.rss_db == (None, None)
    assert one.chain[1].loss_db is None
    assert (one.loss.verdict, one.overall) == (Verdict.INCOMPLETE, Verdict.INCOMPLETE)
    assert (one.loss.varying_cable, one.loss.longest_m) == (None, None)


@pytest.mark.parametrize(
    ("port", "words", "included"),
    [
        ({}, "both end pairs counted, matched, over the temperature range", True),
        ({"limit_at": "room"}, "both end pairs counted, matched, at room temperature", True),
        ({"plugs": "at unit"}, "pairs at unit, matched, over the temperature range", None),
        (
            {"plugs": "excluded", "terminations": "mismatched"},
            "pairs excluded, mismatched, over the temperature range",
            False,
        ),
        (
            {"plugs": None, "terminations": None, "limit_at": None},
            "both end pairs counted, matched, over the temperature range (no datum stated)",
            None,
        ),
    ],
)
def test_a_window_says_its_datum(port: dict[str, Any], words: str, included: bool | None) -> None:
    window = path(with_port(sample_plan(), "nav1", "gnss", **port)).bands[0].window
    assert (window.datum, window.plugs_included) == (words, included)
    assert window.source.startswith("invented sheet")


def test_a_window_tells_a_limit_that_is_not_known_from_one_that_is_none() -> None:
    window = path(windowed(UNKNOWN, NONE)).bands[0].window
    assert (window.min_db, window.max_db) == (None, None)
    assert (window.min_stated, window.max_stated) == ("unknown", "none")
    stated = path().bands[0].window
    assert (stated.min_db, stated.min_stated, stated.max_db) == (0.5, "value", 4.0)


def test_the_worst_band_governs_and_of_equal_ones_that_with_the_least_room() -> None:
    # the transponder sends higher than it listens, so it loses more there
    assert path(id="xpdr1").loss.governing_band == "tx"
    limits = ById({"rx": Range(NONE, 1.0), "tx": Range(NONE, 2.0)})
    one = path(with_port(sample_plan(), "xp1", "ant", loss_db=limits), "xpdr1")
    assert (one.loss.governing_band, one.loss.verdict) == ("rx", Verdict.FAIL_HIGH)
    assert [band.verdict for band in one.bands] == [Verdict.FAIL_HIGH, Verdict.PASS]


def test_near_is_a_flag_of_the_loss_and_the_overall_word_of_the_path() -> None:
    one = path(windowed(NONE, 2.2))  # the most is 1.95 dB
    assert (one.loss.verdict, one.loss.near) == (Verdict.PASS, True)
    assert one.overall is Verdict.NEAR
    assert sample_assessment(windowed(NONE, 2.2)).verdict is Verdict.NEAR


def test_a_finding_about_a_thing_of_a_path_counts_for_the_path_and_advice_does_not() -> None:
    failing = path(refitted(sample_plan(), "antennas", "gnss1", on="cabin", at=place(80, 0, 60)))
    assert (failing.loss.verdict, failing.overall) == (Verdict.PASS, Verdict.FAIL)
    advised = path(refitted(sample_plan(), "cables", "w11", retermination_m=None))
    assert advised.findings == ("RF313/w11/design",)
    assert advised.overall is Verdict.PASS


# ----- lengths that the window allows


def at_length(plan: Plan, length_m: float, **changes: Any) -> BandLoss:
    """Return the GNSS band with a cable of this finished length, routed as before."""
    run = sample_assessment(plan).cables["w11"]
    drip_m = length_m - run.length_m.nominal
    assert drip_m >= 0.0
    return path(refitted(plan, "cables", "w11", drip_loop_m=drip_m, **changes)).bands[0]


def ageing(plan: Plan, allowed: Any) -> Plan:
    """Return a plan whose GNSS cable is allowed to age."""
    return refitted(plan, "cables", "w11", ageing_ratio=allowed)


def test_ageing_takes_its_share_of_the_margin_to_the_upper_limit_alone() -> None:
    new, old = path(), path(ageing(sample_plan(), 0.10))
    (before,), (after,) = new.bands, old.bands
    assert before.ageing_db == 0.0
    assert after.ageing_db == pytest.approx(0.10 * before.item_db[1][2])
    assert after.margin_to_max_db == pytest.approx(before.margin_to_max_db - after.ageing_db)
    assert after.margin_to_min_db == before.margin_to_min_db
    assert [item.loss_db for item in old.chain] == [item.loss_db for item in new.chain]


@pytest.mark.parametrize(
    ("most_db", "verdict"),
    [(1.5, Verdict.FAIL_HIGH), (2.5, Verdict.INCOMPLETE), (NONE, Verdict.PASS)],
)
def test_ageing_that_is_not_known_blocks_only_where_it_decides(
    most_db: Any, verdict: Verdict
) -> None:
    # as new the path loses up to 1.9 dB
    (band,) = path(ageing(windowed(0.5, most_db), UNKNOWN)).bands
    assert band.verdict is verdict
    assert band.ageing_db is None
    assert band.undecided_by == (("w11.ageing",) if verdict is Verdict.INCOMPLETE else ())


@pytest.mark.parametrize("allowed", [None, 0.10])
@pytest.mark.parametrize("port", [{}, {"limit_at": "room"}, {"plugs": "excluded"}])
def test_a_cable_of_the_longest_length_just_meets_the_window(
    port: dict[str, Any], allowed: float | None
) -> None:
    plan = ageing(windowed(0.5, 2.5, **port), allowed)
    longest = path(plan).loss.longest_m
    assert longest is not None
    band = at_length(plan, longest)
    assert band.margin_to_max_db == pytest.approx(0.0, abs=1e-9)
    assert band.verdict is Verdict.PASS
    assert at_length(plan, longest + 0.001).verdict is Verdict.FAIL_HIGH


@pytest.mark.parametrize("port", [{}, {"limit_at": "room"}])
def test_a_cable_of_the_shortest_length_just_meets_the_window(port: dict[str, Any]) -> None:
    plan = windowed(2.0, 9.0, **port)
    one = path(plan)
    assert one.loss.verdict is Verdict.FAIL_LOW
    assert one.loss.shortest_m is not None
    band = at_length(plan, one.loss.shortest_m)
    assert band.margin_to_min_db == pytest.approx(0.0, abs=1e-9)
    assert at_length(plan, one.loss.shortest_m - 0.001).verdict is Verdict.FAIL_LOW


def test_without_a_limit_there_is_no_length_and_the_longest_cable_varies() -> None:
    assert (
        path(windowed(NONE, NONE)).loss.shortest_m,
        path(windowed(NONE, NONE)).loss.longest_m,
    ) == (None, None)
    plan = sample_plan()
    fitted = replace(
        plan.design,
        cables=plan.design.cables.having(
            "w12", sample_assembly(plugs=("tnc", "tnc"), length_m=9.0)
        ),
        parts=ById({"pass1": Part("tnc_through", "rf1")}),
        paths=plan.design.paths.having(
            "gnss1", Path(("nav1.gnss", "w11", "pass1", "w12", "gnss1"))
        ),
    )
    one = path(replace(plan, design=fitted))
    assert one.loss.varying_cable == "w12"
    assert one.mated_pairs == 4


def test_a_cable_known_by_its_maximum_alone_has_no_shortest_length() -> None:
    cable = sample_catalog().cables["coax_5mm"]
    maximum = replace(cable.attenuation["nominal"], basis="maximum")
    sets = ById({"maximum": maximum})
    loss = path(catalog=with_entry(sample_catalog(), "cables", "coax_5mm", attenuation=sets)).loss
    assert loss.shortest_m is None
    assert loss.longest_m is not None


# ----- antennas and distances


def test_an_antenna_is_shown_as_snapped_with_the_zones_it_stands_in() -> None:
    zones = ById(
        {
            "roof": Zone("removable", "top", Range(*inch(70, 90)), Range(*inch(-9, 9))),
            "aft": Zone("removable", "top", Range(*inch(100, 120)), Range(*inch(-9, 9))),
            "space": Zone("hot", fs_m=Range(*inch(0, 200))),
        }
    )
    places = {
        one.id: one for one in sample_assessment(with_airframe(sample_plan(), zones=zones)).antennas
    }
    assert list(places) == ["com1", "gnss1", "xpdr1"]
    one = places["gnss1"]
    assert one.point_m == pytest.approx(inch(80, 0, 75))
    assert one.normal == pytest.approx((0.0, 0.0, 1.0), abs=1e-6)
    assert places["xpdr1"].normal == pytest.approx((0.0, 0.0, -1.0), abs=1e-6)
    assert one.zones == ("roof",)
    assert (one.surface, one.inside, one.type) == ("top", False, "gnss_active")
    assert one.radius_m == pytest.approx(1.5 * IN)


def test_an_antenna_bears_the_worst_word_of_its_own_findings() -> None:
    plan = refitted(sample_plan(), "antennas", "gnss1", on="cabin", at=place(80, 0, 60))
    words = {one.id: one.overall for one in sample_assessment(plan).antennas}
    assert words == {"com1": Verdict.PASS, "gnss1": Verdict.FAIL, "xpdr1": Verdict.PASS}


def test_every_pair_is_listed_once_in_order() -> None:
    pairs = [(fact.a, fact.b) for fact in sample_assessment().spacing]
    assert pairs == [("com1", "gnss1"), ("com1", "xpdr1"), ("gnss1", "xpdr1")]


def test_one_antenna_has_no_pair() -> None:
    plan = sample_plan()
    alone = replace(
        plan.design,
        antennas=ById({"gnss1": plan.design.antennas["gnss1"]}),
        paths=ById({"gnss1": plan.design.paths["gnss1"]}),
    )
    assert sample_assessment(replace(plan, design=alone)).spacing == ()


# ----- the stack-up, end to end


@pytest.mark.parametrize(
    ("stack", "word"),
    [
        (StackUp.WORST_CASE, Verdict.FAIL_HIGH),
        (StackUp.RSS, Verdict.FAIL_HIGH),
        (StackUp.NOMINAL, Verdict.PASS),
    ],
)
def test_the_stack_up_decides_between_the_corners_and_the_nominal(
    stack: StackUp, word: Verdict
) -> None:
    plan = windowed(NONE, 1.7)  # nominal 1.65, RSS 1.88, most 1.95
    one = path(replace(plan, policy=replace(plan.policy, stack=stack)))
    assert one.loss.verdict is word


@settings(max_examples=30, deadline=None)
@given(st.floats(0.0, 4.0), st.floats(0.0, 4.0))
def test_a_worst_case_pass_passes_in_every_stack_up(a: float, b: float) -> None:
    plan = windowed(*sorted((a, b)))
    words = [
        path(replace(plan, policy=replace(plan.policy, stack=stack))).loss.verdict
        for stack in (StackUp.WORST_CASE, StackUp.RSS, StackUp.NOMINAL)
    ]
    for wide, narrow in pairwise(words):
        assert wide.fails or not narrow.fails


def test_the_state_looked_at_is_the_one_that_is_judged() -> None:
    # found: 31 in of cable lose too little for this window
    plan = windowed(1.0, 4.0)
    found = replace(plan, found=replace(plan.found, units=plan.design.units), state=State.FOUND)
    assert path(plan).loss.verdict is Verdict.PASS
    assert path(found).loss.verdict is Verdict.FAIL_LOW


@pytest.mark.parametrize(("end_mhz", "bands"), [(1050, ("tx",)), (1100, ()), (900, ("rx", "tx"))])
def test_a_loss_beyond_its_table_is_told_of_every_band_and_not_of_the_first_only(
    end_mhz: float, bands: tuple[str, ...]
) -> None:
    points = tuple(AttenuationPoint(f * MHZ, 0.015 * f**0.5) for f in (10, 100, end_mhz))
    table = ById({"nominal": AttenuationSet(points=points, source="sheet")})
    catalog = with_entry(sample_catalog(), "cables", "coax_5mm", attenuation=table)
    cable = path(id="xpdr1", catalog=catalog).chain[1]
    assert (cable.extrapolated_in, cable.extrapolated) == (bands, bool(bands))
