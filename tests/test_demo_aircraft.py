# SPDX-License-Identifier: Apache-2.0
"""The demo aircraft tell the stories that their README files tell, with the same numbers.

The figures here are golden: they prove that nothing changed, not that it was right.
"""

from __future__ import annotations

import math
from collections import Counter
from dataclasses import replace

import pytest
from demo_plans import DEMOS, EVERY_STATE, assessed, judged, path_of, plan_of, words_of

from rfplan.analysis.interference import interference
from rfplan.model.assessment import PathAssessment
from rfplan.model.findings import Verdict
from rfplan.model.plan import Plan, State
from rfplan.reports.study import facts_of
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
    ("twin", State.FOUND): ("FAIL", {"FAIL": 4, "PASS": 16}, {"FAIL": 3, "ADVICE": 10}),
    ("twin", State.DESIGN): ("FAIL-HIGH", {"FAIL-HIGH": 1, "PASS": 20}, {"ADVICE": 5}),
    ("twin", State.BUILT): ("FAIL-HIGH", {"FAIL-HIGH": 1, "PASS": 20}, {"ADVICE": 5}),
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


@pytest.mark.parametrize(("demo", "state"), EVERY_STATE)
def test_every_waiver_of_the_demo_aircraft_is_bound_and_holds(demo: str, state: State) -> None:
    notes = [one.waiver for one in assessed(demo, state).findings if one.waiver is not None]
    assert len(notes) == sum(one.state is state for one in plan_of(demo).waivers.values())
    assert not any(note.unbound or note.reopened for note in notes)


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
    assert corners_db(path) == ("3.32", "6.86")
    assert path.bands[0].window.max_db == 5.0
    assert f"{path.bands[0].nominal_db[1]:.2f}" == "5.61"
    assert not any(one.verdict in ("FAIL", "INCOMPLETE") for one in assessment.findings)


@pytest.mark.parametrize(
    ("type", "cables", "most_db"),
    [("low_loss_8mm", ("w50", "w51", "w52"), "4.68"), ("low_loss_11mm", ("w51",), "4.42")],
)
def test_a_thicker_cable_is_the_way_out_for_the_dme(
    type: str, cables: tuple[str, ...], most_db: str
) -> None:
    path = path_of(judged(with_cable_type(plan_of("twin"), type, *cables)), "dme")
    assert path.overall is Verdict.PASS
    assert corners_db(path)[1] == most_db


# --- What each demo has to show


@pytest.mark.parametrize("state", State)
@pytest.mark.parametrize(("demo", "antennas", "paths"), [("amphibian", 10, 10), ("twin", 16, 14)])
def test_a_demo_has_enough_antennas_and_paths(
    demo: str, antennas: int, paths: int, state: State
) -> None:
    fitted = plan_of(demo, state).installation
    assert len(fitted.antennas) >= antennas
    assert len(fitted.paths) >= paths


@pytest.mark.parametrize(("demo", "state"), EVERY_STATE)
def test_every_antenna_of_a_demo_has_its_path(demo: str, state: State) -> None:
    fitted = plan_of(demo, state).installation
    reached = {path.chain[-1].partition(".")[0] for path in fitted.paths.values()}
    assert reached == set(fitted.antennas)


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
    crowded = {frozenset(one.objects): one.verdict for one in findings if one.rule == "RF501"}
    advised = crowded.pop(frozenset({"sat_t", "tas_t"}))
    assert advised is Verdict.ADVICE
    assert set(crowded) == {frozenset({"xpdr1_b", "xpdr2_b"}), frozenset({"xpdr2_b", "dme_b"})}
    assert {("w81", "engine_right"), ("split.b",)} <= {one.objects for one in findings}


def test_the_twin_was_found_with_three_l_band_antennas_too_close_on_its_belly() -> None:
    found = assessed("twin", State.FOUND)
    close = [one for one in found.spacing if one.rule == "lband_lband" and one.verdict == "FAIL"]
    assert {(one.a, one.b): (one.centre_m, one.need_m) for one in close} == {
        ("xpdr1_b", "xpdr2_b"): (pytest.approx(0.60), 0.9),
        ("dme_b", "xpdr2_b"): (pytest.approx(0.50), 0.9),
    }
    places = {one.id: one.surface for one in found.antennas}
    assert {places[id] for one in close for id in (one.a, one.b)} == {"belly"}


def test_two_antennas_of_the_twin_were_found_on_parts_that_come_off() -> None:
    told = removable(State.FOUND)
    assert told == {("sat_t", "roof_panel"): "FAIL", ("adf_b", "belly_hatch"): "ADVICE"}


def test_the_design_of_the_twin_moves_one_and_a_waiver_speaks_of_the_other() -> None:
    assert removable(State.DESIGN) == {("adf_b", "belly_hatch"): "ADVICE"}
    (one,) = [one for one in assessed("twin").findings if one.rule == "RF203"]
    assert one.waiver is not None
    assert not one.waiver.reopened
    assert "twist slack" in one.waiver.reason
    assert "ground-check step 17" in one.waiver.reason
    assert not [point for point in assessed("twin").open_points if point.object == "v1"]


def test_the_waiver_of_the_twin_does_not_hold_for_what_is_not_built_yet() -> None:
    (one,) = [one for one in assessed("twin", State.BUILT).findings if one.rule == "RF203"]
    assert one.waiver is None


def removable(state: State) -> dict[tuple[str, ...], str]:
    """Return what RF203 says of the twin in one state."""
    findings = assessed("twin", state).findings
    return {one.objects: str(one.verdict) for one in findings if one.rule == "RF203"}


@pytest.mark.parametrize(
    ("at", "rule"),
    [
        ("2.0 0 m", "RF202"),  # on the doors of the nose gear
        ("2.85 0 m", "RF501"),  # behind them: too near transponder 1
        ("4.1 0 m", "RF501"),  # between the transponders
        ("5.1 0 m", "RF501"),  # between transponder 2 and the hatch
        ("5.8 R0.49 m", "RF202"),  # between the hatch and the main wheels
        ("6.42 0 m", "RF501"),  # between the hatch and the altimeter
    ],
)
def test_no_other_belly_within_reach_is_free_for_the_adf_antenna(at: str, rule: str) -> None:
    plan = plan_of("twin")
    moved = replace(plan.design.antennas["adf_b"], at=parse_place(at))
    antennas = plan.design.antennas.having("adf_b", moved)
    assessment = judged(replace(plan, design=replace(plan.design, antennas=antennas)))
    assert rule in {one.rule for one in assessment.findings if "adf_b" in one.objects}


def test_cables_that_come_with_the_equipment_of_the_twin_are_as_it_fixes_them() -> None:
    plan = plan_of("twin")
    ports = [port for unit in plan.design.units.values() for port in unit.ports.values()]
    assert len([port for port in ports if port.cable == "fixed"]) == 5
    assert not any(one.rule == "RF309" for one in assessed("twin").findings)


def test_receivers_of_long_waves_pass_since_no_limit_of_theirs_could_be_broken() -> None:
    for id in ("adf", "ltg"):
        (band,) = path_of(assessed("twin"), id).bands
        assert (band.window.min_stated, band.window.max_stated) == ("none", "none")
        assert (band.max_corner.loss_db, band.verdict, band.bounded) == (None, Verdict.PASS, True)


def test_the_four_lines_of_the_traffic_antenna_match() -> None:
    (group,) = assessed("twin").groups
    assert (group.id, group.members) == ("tas_top", ("w96", "w97", "w98", "w99"))
    assert (group.loss_db[1], group.delay_s[1]) == (0.2, pytest.approx(0.2e-9))
    assert group.verdict is Verdict.PASS


def test_a_traffic_line_loses_what_the_cable_table_says_by_hand() -> None:
    per_m = 0.346 * 1.09 ** (math.log(42.9 / 34.6) / math.log(1.5))  # 1 and 1.5 GHz, log-log
    rx = path_of(assessed("twin"), "tas_f").bands[0]
    assert rx.nominal_db[1] == pytest.approx(1.50 * per_m + 2 * 0.18, abs=1e-6)


def test_distance_is_worth_four_decibels_to_the_transponders_of_the_twin() -> None:
    margins = []
    for state in (State.FOUND, State.DESIGN):
        cells = interference(facts_of(assessed("twin", state))).cells
        (cell,) = [one for one in cells if (one.source, one.victim) == ("xpdr1_b", "xpdr2_b")]
        assert cell.worst.verdict is Verdict.PASS
        margins.append(f"{cell.worst.margin_db:.2f}")
    assert margins == ["2.25", "6.42"]


def test_the_line_of_the_dme_goes_through_both_bulkhead_plates_of_the_twin() -> None:
    plan = plan_of("twin")
    plates = {id for id, node in plan.airframe.route.nodes.items() if node.bulkhead}
    parts = plan.design.parts
    assert {parts[id].at for id in plan.design.paths["dme"].chain if id in parts} == plates
    assert len(plates) == 2
    lengths_m = [assessed("twin").cables[id].length_m.nominal for id in ("w50", "w51", "w52")]
    assert lengths_m == pytest.approx([1.00, 9.65, 1.70])


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
TWIN_NUMBERS = """
    0.60 m and 0.50 m | 2.25 dB | 6.42 dB | 0.71 to 1.59 dB of the 2.50 dB | 0.53 m aft | 5.20 m
    1.00, 9.65 and 1.70 m | 5.61 dB | 6.86 dB | 5.00 dB | 1.86 dB | 4.68 dB | 0.32 dB | 4.42 dB"""


@pytest.mark.parametrize(
    ("demo", "numbers"), [("amphibian", AMPHIBIAN_NUMBERS), ("twin", TWIN_NUMBERS)]
)
def test_a_readme_gives_the_numbers_tested_here(demo: str, numbers: str) -> None:
    listed = [number.strip() for line in numbers.split("\n") for number in line.split("|")]
    assert [number for number in listed if number not in words_of(demo)] == []
