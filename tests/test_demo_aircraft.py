# SPDX-License-Identifier: Apache-2.0
"""The demo aircraft tell the stories that their README files tell, with the same numbers.

The figures here are golden: they prove that nothing changed, not that it was right.
"""

from __future__ import annotations

from collections import Counter
from dataclasses import replace

import pytest
from demo_plans import DEMOS, EVERY_STATE, assessed, judged, path_of, plan_of, words_of

from rfplan.model.assessment import PathAssessment
from rfplan.model.findings import Verdict
from rfplan.model.plan import Plan, State
from rfplan.units import Missing, parse_place

# Per state: the verdict, then how many paths and how many findings have which word.
GOLDEN = {
    ("amphibian", State.FOUND): (
        "FAIL-HIGH",
        {"FAIL-HIGH": 1, "FAIL-LOW": 3, "FAIL": 3, "INCOMPLETE": 1, "NEAR": 1, "PASS": 3},
        {"FAIL": 11, "INCOMPLETE": 1, "ADVICE": 4},
    ),
    ("amphibian", State.DESIGN): (
        "WAIVED",
        {"WAIVED": 2, "PASS": 10},
        {"WAIVED": 1, "ADVICE": 5},
    ),
    ("amphibian", State.BUILT): (
        "WAIVED",
        {"WAIVED": 2, "PASS": 10},
        {"WAIVED": 1, "ADVICE": 6},
    ),
    ("twin", State.FOUND): ("FAIL", {"FAIL": 3, "PASS": 10}, {"FAIL": 2, "ADVICE": 8}),
    ("twin", State.DESIGN): ("FAIL-HIGH", {"FAIL-HIGH": 1, "PASS": 13}, {"ADVICE": 4}),
    ("twin", State.BUILT): ("FAIL-HIGH", {"FAIL-HIGH": 1, "PASS": 13}, {"ADVICE": 4}),
}


def corners_db(path: PathAssessment, *names: str) -> tuple[str, str]:
    """Return the least and the most loss of a path over its bands, as they are printed."""
    bands = [band for band in path.bands if band.name in names or not names]
    least = min(band.min_corner.loss_db or 0.0 for band in bands)
    most = max(band.max_corner.loss_db or 0.0 for band in bands)
    return f"{least:.2f}", f"{most:.2f}"


def with_cable_type(plan: Plan, type: str, *ids: str) -> Plan:
    """Return a plan whose design has cables of another type, laid the same way."""
    cables = plan.design.cables
    for id in ids:
        cables = cables.having(id, replace(cables[id], type=type))
    return replace(plan, design=replace(plan.design, cables=cables))


# --- Verdicts


@pytest.mark.parametrize(("demo", "state"), EVERY_STATE)
def test_each_state_has_its_verdicts(demo: str, state: State) -> None:
    assessment = assessed(demo, state)
    verdict, paths, findings = GOLDEN[demo, state]
    assert assessment.verdict == verdict
    assert Counter(path.overall for path in assessment.paths) == paths
    assert Counter(finding.verdict for finding in assessment.findings) == findings


def test_the_amphibian_was_found_with_two_gnss_antennas_inside() -> None:
    inside = [one for one in assessed("amphibian", State.FOUND).findings if one.rule == "RF201"]
    assert [one.objects for one in inside] == [("gnss1",), ("gnss2",)]
    assert {one.verdict for one in inside} == {Verdict.FAIL}


@pytest.mark.parametrize("rule", ["RF201", "RF205", "RF403", "RF501"])
def test_the_amphibian_was_found_with_violations_of_several_kinds(rule: str) -> None:
    failed = {one.rule for one in assessed("amphibian", State.FOUND).findings if one.verdict.fails}
    assert rule in failed


def test_the_amphibian_was_found_with_unknown_limits_that_block() -> None:
    found = [one.id for one in assessed("amphibian", State.FOUND).open_points if one.blocking]
    assert found == ["uat.ant.loss", "uat.ant.power"]
    assert not any(one.blocking for one in assessed("amphibian").open_points)


def test_one_waiver_is_all_that_stands_between_the_amphibian_and_its_limits() -> None:
    assessment = assessed("amphibian")
    counted = [one for one in assessment.findings if one.verdict is not Verdict.ADVICE]
    assert [(one.rule, set(one.objects)) for one in counted] == [("RF501", {"gnss1", "satcom"})]
    assert counted[0].verdict is Verdict.WAIVED
    assert {path.loss.verdict for path in assessment.paths} == {Verdict.PASS}


def test_the_waiver_of_the_amphibian_is_bound_reasoned_and_cites_approved_data() -> None:
    waivers = [one for one in plan_of("amphibian").waivers.values() if one.state is State.DESIGN]
    assert len(waivers) == 1
    assert waivers[0].accepted is not None
    assert waivers[0].approved_data is not None
    assert len(waivers[0].reason) >= 20
    assert "ground-check step" in waivers[0].reason


@pytest.mark.parametrize(
    ("at", "rule"),
    [
        ("98 L16 in", "RF206"),  # further out on the roof it is not flat
        ("98 0 in", "RF501"),  # the middle of the roof is nearer to satcom still
        ("117 0 in", "RF202"),  # on the hatch
        ("78 L10 in", "RF202"),  # on the windshield
        ("54 0 in", "RF202"),  # on the bow deck
        ("160 0 in", "RF202"),  # on the wing
        ("220 0 in", "RF501"),  # between the COM antennas
        ("304 0 in", "RF202"),  # on the hoisting eye
        ("284 0 in", "RF501"),  # between the other GNSS antennas
        ("330 0 in", "RF202"),  # in front of the fin
    ],
)
def test_no_other_place_on_the_top_is_free_for_the_first_gnss_antenna(at: str, rule: str) -> None:
    plan = plan_of("amphibian")
    moved = replace(plan.design.antennas["gnss1"], at=parse_place(at), node=None)
    antennas = plan.design.antennas.having("gnss1", moved)
    assessment = judged(replace(plan, design=replace(plan.design, antennas=antennas)))
    broken = [one for one in assessment.findings if one.verdict is not Verdict.WAIVED]
    assert rule in {one.rule for one in broken if "gnss1" in one.objects}


# --- The path that loses too little, and the one that loses too much


def test_the_low_loss_cable_of_the_survey_receiver_fails_low_and_rg_400_passes() -> None:
    found = path_of(assessed("amphibian", State.FOUND), "gnss3")
    assert plan_of("amphibian", State.FOUND).installation.cables["w13"].type == "low_loss_8mm"
    assert found.loss.verdict is Verdict.FAIL_LOW
    assert corners_db(found, "l1") == ("1.13", "1.98")
    assert found.bands[0].window.min_db == 1.5

    design = path_of(assessed("amphibian"), "gnss3")
    assert plan_of("amphibian").installation.cables["w13"].type == "rg_400_u"
    assert design.loss.verdict is Verdict.PASS
    assert corners_db(design, "l1") == ("2.49", "4.25")


def test_each_signal_of_the_survey_receiver_has_its_own_window() -> None:
    found, design = (
        path_of(assessed("amphibian", s), "gnss3") for s in (State.FOUND, State.DESIGN)
    )
    assert [(band.name, band.window.min_db) for band in found.bands] == [("l1", 1.5), ("l5", 1.2)]
    assert corners_db(found, "l5")[0] == "0.96"
    assert {band.verdict for band in found.bands} == {Verdict.FAIL_LOW}
    assert {band.verdict for band in design.bands} == {Verdict.PASS}


def test_the_low_loss_cable_leaves_the_survey_receiver_too_much_gain() -> None:
    (one,) = [f for f in assessed("amphibian", State.FOUND).findings if f.rule == "RF406"]
    assert (one.objects, one.verdict) == (("gnss3",), Verdict.FAIL)
    assert (f"{one.value:.2f}", one.limit) == ("31.87", 31.5)
    assert not any(f.rule == "RF406" for f in assessed("amphibian").findings)


def test_every_gnss_antenna_of_the_amphibian_gets_its_volts_and_stands_out_of_the_noise() -> None:
    for id in ("gnss1", "gnss2", "gnss3"):
        path = path_of(assessed("amphibian"), id)
        assert path.feed is not None
        assert path.feed.verdict is Verdict.PASS
        assert [band.verdict for band in path.receiver] == [Verdict.PASS] * len(path.bands)
        assert all((band.cn0_dbhz or 0.0) > 37.0 for band in path.receiver)


def test_the_short_run_to_the_roof_fails_low_without_its_pad() -> None:
    plan = plan_of("amphibian")
    bare = replace(plan.design.paths["gnss1"], chain=("nav1.gnss", "w11", "gnss1"))
    paths = plan.design.paths.having("gnss1", bare)
    path = path_of(judged(replace(plan, design=replace(plan.design, paths=paths))), "gnss1")
    assert path.loss.verdict is Verdict.FAIL_LOW
    assert corners_db(path)[0] == "0.79"
    assert corners_db(path_of(assessed("amphibian"), "gnss1")) == ("2.49", "4.19")


def test_the_long_run_to_the_aft_deck_needs_no_pad() -> None:
    path = path_of(assessed("amphibian"), "gnss2")
    assert path.loss.verdict is Verdict.PASS
    assert corners_db(path) == ("3.67", "6.03")


def test_the_transponder_of_the_amphibian_was_found_too_weak_on_a_cable_too_lossy() -> None:
    path = path_of(assessed("amphibian", State.FOUND), "xpdr")
    assert path.loss.verdict is Verdict.FAIL_HIGH
    assert corners_db(path)[1] == "2.73"
    assert path.transmit is not None
    assert path.transmit.verdict is Verdict.FAIL
    assert f"{path.transmit.antenna_dbw:.2f}" == "20.70"


def test_the_dme_of_the_twin_fails_high_and_is_the_only_path_that_fails() -> None:
    assessment = assessed("twin")
    path = path_of(assessment, "dme")
    assert [one.id for one in assessment.paths if one.overall.fails] == ["dme"]
    assert path.loss.verdict is Verdict.FAIL_HIGH
    assert corners_db(path) == ("3.37", "6.48")
    assert path.bands[0].window.max_db == 5.0
    assert f"{path.bands[0].nominal_db[1]:.2f}" == "5.27"
    assert not any(one.verdict in ("FAIL", "INCOMPLETE") for one in assessment.findings)


def test_the_thicker_cable_is_the_way_out_for_the_dme() -> None:
    plan = with_cable_type(plan_of("twin"), "low_loss_8mm", "w51", "w52")
    path = path_of(judged(plan), "dme")
    assert path.overall is Verdict.PASS
    assert corners_db(path)[1] == "4.28"


# --- What each demo has to show


@pytest.mark.parametrize(("demo", "antennas", "paths"), [("amphibian", 10, 10), ("twin", 12, 10)])
def test_a_demo_has_enough_antennas_and_paths(demo: str, antennas: int, paths: int) -> None:
    design = plan_of(demo).design
    assert len(design.antennas) >= antennas
    assert len(design.paths) >= paths


@pytest.mark.parametrize("demo", DEMOS)
def test_a_demo_has_a_surveyed_route_and_two_variants(demo: str) -> None:
    airframe = plan_of(demo).airframe
    assert len(airframe.route.nodes) >= 25
    assert len(airframe.variants) == 2


def test_the_amphibian_has_eight_units_with_documents() -> None:
    units = plan_of("amphibian").design.units
    assert len(units) >= 8
    ports = [port for unit in units.values() for port in unit.ports.values()]
    assert all(port.source not in (None, "survey") for port in ports)


def test_the_amphibian_has_a_hatch_a_door_and_foil_that_nobody_has_verified() -> None:
    plan = plan_of("amphibian")
    kinds = {zone.is_ for zone in plan.airframe.zones.values()}
    assert {"hatch", "door"} <= kinds
    assert not plan.found.ground_planes
    assert {plane.of for plane in plan.design.ground_planes.values()} == {"copper_foil"}
    to_confirm = {one.id for one in assessed("amphibian").open_points}
    assert {f"{id}.verified" for id in plan.design.ground_planes} <= to_confirm


def test_an_rg_400_path_passes_although_its_basis_is_unverified() -> None:
    assessment = assessed("amphibian")
    assert ("rg_400_u",) in [one.objects for one in assessment.findings if one.rule == "RF303"]
    assert path_of(assessment, "gnss2").overall is Verdict.PASS


def test_one_reading_of_the_amphibian_agrees_and_one_differs() -> None:
    readings = [one for path in assessed("amphibian", State.BUILT).paths for one in path.readings]
    assert {one.id: one.agreement for one in readings} == {"m1": "AGREES", "m2": "DIFFERS"}
    assert {one.in_window for one in readings} == {Verdict.PASS}
    difference_db = next(one.difference_db for one in readings if one.id == "m2")
    assert f"{difference_db:.2f}" == "0.63"


def test_as_built_lengths_belong_to_the_state_built() -> None:
    built = {id: run.as_built_m for id, run in assessed("amphibian", State.BUILT).cables.items()}
    design = {id: run.as_built_m for id, run in assessed("amphibian").cables.items()}
    assert built["w11"] == pytest.approx(67.5 * 0.0254)
    assert built["w12"] == pytest.approx(7.31)
    assert (design["w11"], design["w12"]) == (None, None)


def test_the_twin_was_found_crowded_hot_and_with_an_open_branch() -> None:
    findings = assessed("twin", State.FOUND).findings
    crowded = {frozenset(one.objects) for one in findings if one.rule == "RF501"}
    assert crowded == {frozenset({"xpdr1_b", "xpdr2_b"}), frozenset({"xpdr2_b", "dme_b"})}
    assert {("w81", "engine_right"), ("split.b",)} <= {one.objects for one in findings}


def test_three_receivers_of_the_twin_share_one_antenna_through_the_bulkhead_plate() -> None:
    plan = plan_of("twin")
    sharing = [path.chain for path in plan.design.paths.values() if path.chain[-1] == "nav_t"]
    assert {chain[0] for chain in sharing} == {"nav1.vor", "nav1.gs", "nav2.vor"}
    assert all("ft_nav" in chain for chain in sharing)
    assert plan.airframe.route.nodes["bhd"].passes == 4


@pytest.mark.parametrize(("demo", "serial"), [("amphibian", "41"), ("twin", "13")])
def test_a_longer_variant_lengthens_a_cable_and_keeps_the_verdict(demo: str, serial: str) -> None:
    cable = {"amphibian": "w12", "twin": "w51"}[demo]
    short, long = assessed(demo), assessed(demo, State.DESIGN, serial)
    assert long.cables[cable].length_m.nominal > short.cables[cable].length_m.nominal + 0.25
    assert long.verdict == short.verdict


def test_no_limit_of_a_design_is_left_unknown() -> None:
    for demo in DEMOS:
        for unit in plan_of(demo).design.units.values():
            for port in unit.ports.values():
                limits = [limit for one in port.loss_db.values() for limit in (one.low, one.high)]
                assert Missing.UNKNOWN not in limits


# --- The README says what the tool says


AMPHIBIAN_NUMBERS = """
    2.73 dB | 20.70 dBW | 1.13 dB | 0.37 dB | 31.87 dB | 2.49 to 4.25 dB | 0.79 dB | 2.49 to 4.19 dB
    3.67 to 6.03 dB | 7.29 m | 26 in | 0.63 dB"""
TWIN_NUMBERS = "12.50 m | 5.27 dB | 6.48 dB | 5.00 dB | 1.48 dB | 4.28 dB"


@pytest.mark.parametrize(
    ("demo", "numbers"), [("amphibian", AMPHIBIAN_NUMBERS), ("twin", TWIN_NUMBERS)]
)
def test_a_readme_gives_the_numbers_tested_here(demo: str, numbers: str) -> None:
    listed = [number.strip() for line in numbers.split("\n") for number in line.split("|")]
    assert [number for number in listed if number not in words_of(demo)] == []
